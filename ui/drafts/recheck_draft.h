#pragma once

#include "session/values/views.h"

#include <optional>
#include <vector>

namespace gk::ui {

/// The sealants to look at again, in the order given: each that is still the newest on one of its
/// surfaces. Not a repair (it has its own clock and is judged with the sealant it repairs).
std::vector<session::EarlierPlacement>
toRecheck(const std::vector<session::EarlierPlacement>& earlier, roster::DayId today);

/// One check as it is keyed in, surface by surface, of those that nothing was sealed over since.
class RecheckDraft {
 public:
  explicit RecheckDraft(const session::EarlierPlacement& earlier) : earlier_(earlier) {}

  /// The surface that the next answer is for; none when all are answered.
  [[nodiscard]] std::optional<dentition::Surface> surface() const;
  void answer(followup::Held held);
  /// Whole on every surface that is not answered yet: of this one tooth.
  void restIsWhole();

  void setWhy(followup::CannotAssess why) { why_ = why; }
  void setHealth(followup::ToothHealth health) { health_ = health; }
  void setLift(followup::LiftTest lift) { lift_ = lift; }
  void changeAction(); ///< the next that checkRetention lets stand
  /// In the place of the kind that follows from the interval; of a triggered one what prompted it.
  void setKind(std::optional<followup::CheckKind> kind, std::string prompt = {});

  [[nodiscard]] bool isBegun() const { return !answers_.empty(); }
  [[nodiscard]] bool isComplete() const { return !surface().has_value(); }
  [[nodiscard]] bool wantsWhy() const;  ///< something cannot be assessed and no reason is given
  [[nodiscard]] bool wantsLift() const; ///< something is held in part and was not tried to lift
  [[nodiscard]] std::optional<followup::CheckKind> kind() const { return kind_; }
  [[nodiscard]] const std::string& prompt() const { return note_; }
  [[nodiscard]] followup::ToothHealth health() const { return health_; }
  [[nodiscard]] const session::EarlierPlacement& earlier() const { return earlier_; }
  [[nodiscard]] followup::Held held(dentition::Surface surface) const;

  /// Precondition: complete. The kind follows the interval unless it was set; the action is
  /// proposed unless changed: a cavity is referred, a part that held is repaired, what lifted or
  /// was lost is resealed.
  [[nodiscard]] followup::RetentionCheck build(roster::ChildId child, roster::DayId day,
                                               base::Date on) const;

 private:
  [[nodiscard]] bool hasAny(followup::Held held) const;
  [[nodiscard]] followup::CheckAction proposed() const;

  session::EarlierPlacement earlier_;
  std::vector<std::pair<dentition::Surface, followup::Held>> answers_;
  followup::CannotAssess why_ = followup::CannotAssess::none;
  followup::ToothHealth health_ = followup::ToothHealth::sound;
  followup::LiftTest lift_ = followup::LiftTest::notDone;
  std::optional<followup::CheckAction> action_;
  std::optional<followup::CheckKind> kind_;
  std::string note_;
};

} // namespace gk::ui
