#pragma once

#include "reports/day/day_exception.h"
#include "reports/letters/letters_due.h"
#include "reports/records/day_closing.h"
#include "reports/records/unfinished.h"

#include <optional>
#include <set>

namespace gk::reports {

/// One child of the day's line-up: anyone with a record on the day, whoever withdrew on it before
/// being seen, and on the school's last day whoever is still to be seen.
struct ChildLine {
  roster::ChildId child;
  std::string shown; ///< the name handed over, else the number
  std::string room;
  std::optional<chairside::DayEnd> outcome;
  std::vector<dentition::Tooth> sealed; ///< complete sealants of this day, each tooth once
  std::string sealedWords;
  std::optional<chairside::Urgency> urgency; ///< none when not screened on this day
  std::vector<std::string> missing;
  bool hasLeft = false; ///< the program, by the next day here
};

/// consented = screened + absent + declined + left + withdrawn + on hold + not reached.
/// Consented is the line-up with a yes in force, on hold, withdrawn on the day, or seen under an
/// override; the right side is counted from outcomes. Rechecks only count as screened.
struct DayEquation {
  int consented = 0;
  int underOverride = 0; ///< of consented
  int screened = 0;
  int absent = 0;
  int declined = 0;
  int left = 0;
  int withdrawn = 0;
  int onHold = 0;
  int notReached = 0;

  struct Odd {
    roster::ChildId child;
    std::string shown;
    std::string why;
  };
  std::vector<Odd> odd; ///< each child that is on one side only

  [[nodiscard]] int difference() const;
};

enum class BlockerKind {
  noOutcome,
  twoOutcomes,
  outcomeDisagrees, ///< with what was recorded for the child on the day
  noConsent,        ///< an outcome, but neither a consent nor an override
  urgentNotCalled,
  noReferral,
  toothWithoutReason,
  fieldUnfinished, ///< etched or filled, and no one has said how it ended
  lightNotRead,
  paperMissing,
  lateOnJoinedCard ///< came for a card that is joined to another
};

struct Blocker {
  BlockerKind kind;
  std::optional<roster::ChildId> child;
  std::string shown; ///< the child, the light or the sort of paper
  std::string what;  ///< a clause that says how to fix it
  std::optional<kit::LightId> light{};
  std::optional<roster::ChildId> joined{}; ///< the card that was joined to the child's
};

struct UrgentLine {
  roster::ChildId child;
  std::string shown;
  chairside::UrgentReason reason;
  std::vector<Call> calls; ///< by time
  bool reached = false;    ///< a guardian, not the nurse
  bool nurseTold = false;
  std::string next{}; ///< what is to be done next; empty when nothing is today
};

/// A referral made on the day, for who follows it up.
struct ReferralLine {
  followup::ReferralId id;
  roster::ChildId child;
  std::string shown;
  chairside::Urgency urgency;
  std::string reason;
  followup::ReferredTo to;
  base::Date due;
  followup::ReferralState state;
};

struct SupplyLine {
  kit::LotId lot;
  std::string words;
  kit::MaterialKind kind;
  int teeth = 0; ///< that it touched, whether or not they were finished; 0 for varnish
  int children = 0;
  std::optional<int> opened{}; ///< packages, today; none while no one has counted
  std::optional<int> left{};   ///< zero: the lot is closed
  std::optional<base::Date> expiry{};
  bool setAside = false; ///< quarantined
  std::string why{};     ///< of that
};

/// One laptop that has rows of the day.
struct LaptopLine {
  std::string words{}; ///< the end of its identity, and the initials of those who worked on it
  int entries = 0;
  std::optional<base::LocalInstant> last{};     ///< of those entries
  std::optional<base::LocalInstant> backedUp{}; ///< last, and read back whole
  std::string file{};
  bool sameDisk = false; ///< that copy lies beside the logbook, on the same disk: no backup

  [[nodiscard]] bool isBackedUp() const {
    return backedUp && !sameDisk && last && *last <= *backedUp;
  }
};

struct DayCounts {
  int children = 0; ///< seen
  int sealedChildren = 0;
  int firstMolars = 0;
  int secondMolars = 0;
  int otherTeeth = 0;
  int surfaces = 0;
  int varnish = 0; ///< children
  int checks = 0;  ///< teeth looked at again
  int letters = 0; ///< children seen whose letters are printed or queued, and still right
};

struct CloseOut {
  std::string school;
  base::Date date;
  int team;
  DayEquation equation{};
  std::vector<ChildLine> lines{}; ///< by room, then as shown
  std::vector<Blocker> blockers{};
  std::vector<MergeQuestion> questions{};
  std::vector<AnsweredQuestion> answered{}; ///< of this day's merges, by time
  std::vector<UrgentLine> urgent{};
  std::vector<UnfinishedTooth> unfinished{};
  std::vector<DayException> exceptions{};
  std::vector<SupplyLine> supplies{};
  std::vector<LetterLine> letters{};
  std::vector<ReferralLine> referrals{}; ///< urgent first, then by the last day to be seen
  std::vector<IncidentLine> incidents{}; ///< by time
  std::vector<PaperLine> papers{};       ///< those that any sheet went out of
  std::vector<LightToRead> lights{};
  std::vector<LaptopLine> laptops{};
  std::optional<roster::DayEffort> effort{}; ///< none while no one has said it
  std::optional<roster::DayCost> cost{};     ///< likewise
  bool paperCounted = false; ///< someone said how many sheets went out beside those known
  DayCounts counts{};
  /// Consented children of the school whom no one has seen this term. They block the last day only.
  std::vector<ChildLine> stillToSee{};
  bool closed = false;
  std::string signedBy{};
  std::vector<SigningLine> signings{};    ///< by time, taken back ones too
  std::vector<LateEntry> lateEntries{};   ///< by time
  std::vector<ConfirmedLine> confirmed{}; ///< of each operator who placed, by initials

  [[nodiscard]] bool balanced() const;
  /// How many things stand in the way of signing.
  [[nodiscard]] int openThings() const;
  /// Every line reconciles. Whoever signs is the Session's matter.
  [[nodiscard]] bool mayClose() const;
};

CloseOut closeOut(const DayRecords& records, const Names& names = {});

/// Whose rows of earlier days the sheet needs: children with an unfinished tooth or a doubtful
/// record today.
std::set<roster::ChildId> childrenToLookBackOn(const DayRecords& records);

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::BlockerKind> =
    std::to_array<std::string_view>({"no outcome", "two outcomes", "outcome disagrees",
                                     "no consent", "urgent, not called", "no referral",
                                     "tooth without a reason", "field unfinished", "light not read",
                                     "paper missing", "late on a joined card"});
