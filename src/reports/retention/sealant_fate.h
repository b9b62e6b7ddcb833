#pragma once

#include "reports/records/term_view.h"
#include "reports/retention/retention_facts.h"

#include <set>
#include <tuple>

namespace gk::reports {

/// What became of one sealant by its one-year check, and of the tooth it is on: two questions,
/// never mixed. Places are those in the records.
struct SealantFate {
  /// The worst that is known of this very sealant up to the check: one that an earlier look found
  /// lost stays lost whatever was sealed over it. `notSealed` while its child was not found.
  followup::Held held = followup::Held::notSealed;
  HeldFrom from = HeldFrom::unknown;
  std::optional<std::uint32_t> check; ///< the look that says so; none where a reseal does
  bool isRepaired = false;            ///< held in part, repaired, and whole at the check
  bool isOld = false;                 ///< an earlier term has judged it
  bool isKnownLost = false;           ///< by the end of its window, found in it or not
  bool isReported = false;            ///< by then looked at because a loss was reported
  /// The worst of what is on the tooth, repairs and reseals included, at its first look in the
  /// window.
  followup::Held tooth = followup::Held::notSealed;
  std::optional<std::uint32_t> toothCheck;
};

/// Teeth of a child that were sealed again on a day for a reason other than that the sealant had
/// failed, as the recorder said at the chair.
using ResealedOtherwise = std::set<std::tuple<roster::ChildId, dentition::Tooth, roster::DayId>>;
ResealedOtherwise resealedOtherwise(const TermRecords& records);

/// Whether something of those surfaces lies under the others: what is placed on a surface that was
/// not sealed before, as a buccal pit that has come through since, ends no sealant.
inline bool isOver(dentition::SurfaceSet over, dentition::SurfaceSet under) {
  return under.without(over) != under;
}

/// Reads looks, reseals and repairs once; points into the view, which outlives it.
class SealantFates {
 public:
  SealantFates(const TermView& view, const followup::Window& window);
  SealantFates(TermView&& view, const followup::Window& window) = delete; // it is kept

  [[nodiscard]] SealantFate of(std::uint32_t placement, base::Date placedOn) const;
  /// Whether a complete sealant of ours was on the tooth before.
  [[nodiscard]] bool isFirst(std::uint32_t placement, base::Date placedOn) const;

 private:
  enum class What : std::uint8_t { look, sealing, repair };
  struct Event {
    base::Date on;
    What what;
    std::uint32_t placement; ///< looked at, or placed
    std::uint32_t check;     ///< of a look
  };
  using Events = std::vector<Event>;
  struct Life;

  [[nodiscard]] const Events& eventsOf(const chairside::Placement& placement) const;
  [[nodiscard]] const followup::RetentionCheck& check(const Event& look) const {
    return view_.records.checks[look.check].value;
  }
  [[nodiscard]] bool isLookAtYear(const Life& life, const Event& event) const;
  [[nodiscard]] Life lifeOf(std::uint32_t placement, base::Date placedOn) const;
  [[nodiscard]] std::vector<base::Date> foundOn(const Life& life) const;
  void judge(const Life& life, SealantFate& out) const;
  void judgeLate(const Life& life, SealantFate& out) const;
  void judgeTooth(const Life& life, SealantFate& out) const;

  const TermView& view_;
  followup::Window window_;
  std::map<std::pair<roster::ChildId, dentition::Tooth>, Events> events_;
  std::map<roster::ChildId, std::vector<base::Date>> yearLooks_; ///< by date
  ResealedOtherwise otherwise_;
};

} // namespace gk::reports
