#pragma once

#include "base/signal.h"
#include "kit/light.h"
#include "roster/team/member_pin.h"
#include "session/reader.h"
#include "session/rights/admission.h"
#include "session/rights/keyboard.h"

#include <functional>
#include <span>

namespace gk::session {

using base::By;

/// A real book is slow to guess at and durable act by act; a throwaway one is quick to build.
enum class BookKind { real, throwaway };

/// Answer to a rule that only asks ("school confirms the birth date").
enum class Confirmed { no, yes };

/// What an act touched; views read again.
struct Change {
  std::optional<roster::ChildId> child;
};

/// What every verb goes through: it is held against its row of `verbRules` and against the rules of
/// the trade before it writes one act.
class Door : public Reader {
 public:
  /// Someone looked at the date and says that it is right, up to now.
  void confirmClock();
  /// The acts within `work` are kept all together or not at all, each as an act of its own; where
  /// one of them fails, none is. They can be asked for within it.
  Result<base::Done> together(const std::function<Result<base::Done>()>& work);
  /// No program or no school day is in the book yet.
  Result<bool> isSettingUp();

 protected:
  Door(store::Book book, World world);

  /// Holds the act against its row of `verbRules`, and fails as that says.
  Result<Admission> admit(Verb verb, By by, const About& about = {});
  template <class Work>
  auto write(const Admission& may, std::optional<roster::ChildId> child, Work work)
      -> Result<std::invoke_result_t<Work, store::Act&>>;

  /// As `write`, where the act goes by another name in the history.
  template <class Work>
  auto writeAs(const Admission& may, std::string_view name, std::optional<roster::ChildId> child,
               Work work) -> Result<std::invoke_result_t<Work, store::Act&>>;

  /// What a correction is of, read from the book: whoever asks may hold an older word, or one that
  /// it changed. Fails with `recordChanged` unless exactly that stands.
  template <class T>
  Result<Recorded<T>> asItStands(const Recorded<T>& old);
  // The questions that verbs ask first; session_admit.cpp and session_rules.cpp.
  /// As roster::mayDo, and `ruleCredential` for who does not keep what the right says.
  Result<Recorded<roster::Member>> entitled(base::MemberId who, Right right, base::Date on);
  /// Whether anybody who may type has a PIN.
  Result<bool> isAnyNamed();
  /// The newest; none where she never had one.
  Result<std::optional<roster::MemberPin>> newestPin(base::MemberId who);
  /// As session::sealsWithNewest. Precondition: the names are open.
  Result<base::Done> sealsWithNewest();
  /// Fails with `pinNeeded` unless a PIN that the row asks for was given, and whoever types is
  /// signed in.
  Result<base::Done> isHerself(Admission& admission, const VerbRule& rule, const About& about);
  Result<Recorded<roster::ClinicDay>> dayInState(roster::DayId day, DayMust must);
  /// Fine where the child's school has no day on that date.
  Result<base::Done> dateOpenForCare(roster::ChildId child, base::Date on);
  Result<base::Done> agreementHolds(roster::DayId day);
  Result<base::Done> mayTreat(roster::ChildId child, roster::Service service, base::Date on);
  /// Fine where the program does not wait for a dentist.
  Result<base::Done> areAuthorized(roster::ChildId child,
                                   const std::vector<dentition::ToothSurfaces>& teeth,
                                   base::Date on);
  Result<base::Done> isSeated(roster::ChildId child, roster::DayId day);
  /// Fails with `ruleMaterial` for a lot of another kind than the step takes.
  Result<base::Done> lotFits(kit::LotId lot, kit::MaterialKind kind, roster::ChildId child,
                             base::Date on);
  Result<base::Done> lightFits(kit::LightId light, base::Date on, const chairside::StepRun& run,
                               const roster::Member& author);
  /// Whether a current row of any of these kinds is there.
  template <class... Kinds>
  Result<bool> isAny(const store::Where& where);
  /// `besides` are placements that are about to be written.
  Result<base::Done> outcomeFits(const chairside::DayOutcome& outcome,
                                 std::span<const chairside::Placement> besides);
  Result<base::Done> isCareComplete(const chairside::DayOutcome& outcome, base::Date on);

  base::Signal<Change> changed_;
  Keyboard keyboard_{};
};

} // namespace gk::session
