#pragma once

#include "session/importing/roster_match.h"
#include "session/session.h"

namespace gk::session {

/// A form of a roster line that waits for its child.
struct PlannedForm {
  roster::TermId term;
  roster::ConsentState state;
  roster::RosterConsent from;
  roster::Relation signer;
  std::optional<base::Date> validUntil;
  std::string note;

  [[nodiscard]] roster::Consent of(roster::ChildId child) const;
};

struct RosterAim {
  base::Recorded<roster::Term> term;
  roster::SchoolId school;
  base::Date today;
  bool agesConfirmed = false;
  bool othersConfirmed = false; ///< those who are like a child here are other children
  std::vector<PairAnswer> answers{};
};

struct PlannedChild {
  std::size_t line; ///< in the file
  roster::Child child;
  Identity identity;
  std::optional<PlannedForm> form{}; ///< none when nothing came back
  roster::EthnicitySet groups{};
  roster::Payer payer = roster::Payer::unknown;
  std::vector<roster::RosterAlert> alerts{};
  std::vector<roster::ChildId> others{}; ///< said to be other children
  std::string incompleteBecause{};       ///< why a yes is entered as incomplete, else empty
};

/// What of a known child is new.
enum class RosterChange { school, grade, room, name, birthDate, phone, form, health, back, other };
using RosterChanges = base::EnumSet<RosterChange>;

struct PlannedChange {
  std::size_t line;
  base::Recorded<roster::Child> was;
  roster::Child card;
  Identity before;
  std::optional<Identity> identity{}; ///< none where nothing of it changes
  RosterChanges what{};
  std::optional<PlannedForm> form{};
  std::optional<roster::Background> background{};
  std::vector<roster::RosterAlert> alerts{};
  std::string incompleteBecause{};
};

/// A child of the school who is not on its list and has not left.
struct MissingChild {
  roster::ChildId child;
  std::string number;
  std::string grade; ///< as roster::gradeNow; empty: past grade 12
};

/// Two that may be one, for a person to look at side by side.
struct PlannedPair {
  UnsurePair pair;
  roster::ChildId child;
  std::string number;
  Identity listed; ///< as the list has it
  Identity known;  ///< as the logbook has it
  roster::Child listedCard;
  roster::Child knownCard;
};

/// What a list would do, with nothing written.
struct RosterPlan {
  std::vector<PlannedChild> entering{};
  std::vector<PlannedChange> changed{};
  std::size_t unchanged = 0;
  std::set<roster::ChildId> matched{}; ///< all whom a row is, changed or not
  std::vector<MissingChild> missing{}; ///< moved away or left; nothing is written of them
  /// In no grade of the list by now, or not in the room that it is of, so it cannot tell.
  std::vector<MissingChild> outside{};
  std::string onlyRoom{};              ///< of one class's list, or empty
  std::vector<PlannedPair> pairs{};    ///< each of a held row
  std::vector<roster::HeldRow> held{}; ///< of the reading and of the plan, in order of lines

  [[nodiscard]] std::size_t count(RosterChange change) const;
  [[nodiscard]] std::size_t forms() const;
  /// As importRoster takes it.
  [[nodiscard]] RosterImport import(const RosterAim& aim, std::string columns) const;
};

/// What a list that was read would change. Children without a number get the next free ones. A form
/// holds from the day it was signed to its last day, or the end of the term when it names none; one
/// that the logbook has already is not new. A row waits, with its problem, where its number is
/// another child's, where it may be a child of the logbook or stands twice in the list and no one
/// said (roster::verdictOn, roster::isTooAlike), or where an age is unusual for the grade and
/// no one confirmed it. Names are never repeated. Precondition: the session is unlocked.
Result<RosterPlan> planRoster(Session& session, const roster::RosterReading& reading,
                              const RosterAim& aim, const base::Progress& progress = {});

/// "12 new, 30 changed (room 28, phone 4), 138 unchanged, 9 not on this list"; and, where there are
/// any, "4 outside its grades", or "4 outside its grade and room" of one class's list.
std::string countsOf(const RosterPlan& plan);

} // namespace gk::session

template <>
inline constexpr auto gk::base::enumNames<gk::session::RosterChange> =
    std::to_array<std::string_view>({"school", "grade", "room", "name", "birth date", "phone",
                                     "form", "health", "back", "other"});
template <>
inline constexpr auto gk::base::displayNames<gk::session::RosterChange> =
    std::to_array<std::string_view>({"school", "grade", "room", "name", "birth date", "phone",
                                     "form", "health alert", "came back", "other details"});
