#pragma once

#include "chairside/authorization.h"
#include "chairside/paper.h"
#include "chairside/protocol.h"
#include "followup/referral.h"
#include "followup/retention_check.h"
#include "roster/child/likeness.h"
#include "roster/consent/consent.h"
#include "roster/days/clinic_day.h"

#include <string>
#include <vector>

namespace gk::session {

/// Whose records a report takes: of the children that the term's own figures may count (those of
/// its forms and days, and those whose one-year look falls into it), or of every child of the
/// program, as a curve over all years and a lot's trace need.
enum class Reach { term, program };

/// Which school's students alone a logbook has that was sealed for that school's day.
struct OneSchool {
  roster::SchoolId school;
  std::string name;
  std::int64_t highestNumber; ///< of any student of the whole logbook then
};

/// Where a child is in the day.
enum class Place { waiting, inChair, parked, done, absent };

/// One line of the day board.
struct BoardLine {
  roster::ChildId child;
  std::string number;
  std::string name; ///< the number again while the vault is locked
  std::string room;
  std::string grade;
  Place place;
  bool stopFlag = false;        ///< an unresolved medical stop
  bool askFlag = false;         ///< an unresolved medical question
  bool sameName = false;        ///< another child on the board is called the same
  bool recheckDue = false;      ///< has placements of earlier terms and may be rechecked
  bool waitsForDentist = false; ///< no tooth is authorized today, where the program asks for it
  std::string outcome{};        ///< words, when the day has ended for the child
  std::string paper{};          ///< number of the sheet that the visit was typed from
  std::vector<roster::MedicalFlag> flags{}; ///< unresolved stops and questions
  std::optional<int> age{};                 ///< in years on the day; none while names are locked
  std::string plan{};                       ///< "4 teeth to treat", or what the form allows
  std::string lastSeen{};                   ///< "Mar 2, 2026", an earlier day; empty for none
  std::optional<base::LocalInstant> seatedAt{}; ///< first on the day
  std::optional<base::LocalInstant> endedAt{};
};

/// All that the identity screen must show at one glance. While locked the number stands for the
/// name, and birth date, guardians and namesakes are blank.
struct IdentityCard {
  roster::ChildId child;
  std::string number;
  std::string name;
  std::string header; ///< first name and last initial: all that the chair shows later
  std::string birth;  ///< in words, with age
  std::string room;
  std::string grade;
  std::string school;
  std::string guardianInitials;
  roster::Standing screening;
  roster::Standing sealants;
  roster::Standing varnish;
  roster::Standing recheck;
  std::vector<base::Recorded<roster::MedicalFlag>> flags{}; ///< unresolved
  std::vector<std::string> sameNameOthers{}; ///< numbers of children of the same name
  std::string lastSeen{};
  std::string findings{}; ///< findingsWords of the day
  std::string dentist{};  ///< as Reader::dentistWords
};

/// Of the day's screening as far as this laptop has it: a screener's laptop may hold one that is
/// not here, so none is "not received" and never "none".
std::string findingsWords(const chairside::Screening* screening);

/// One field with its steps played back.
struct FieldState {
  base::Recorded<chairside::Field> field;
  chairside::Protocol protocol;
  /// A timer that was started and never ended: interrupted, not cured.
  std::optional<base::Recorded<chairside::TimerStart>> running{};
};

/// A placement of ours that can be looked at again, with the newest check of it.
struct EarlierPlacement {
  base::Recorded<chairside::Placement> placement;
  base::Date placedOn;
  std::string school;
  std::optional<base::Recorded<followup::RetentionCheck>> newest{};
  /// Its surfaces that nothing was sealed over since: what a check of it is asked of.
  dentition::SurfaceSet left{};
};

/// What of `placed[of]` no later sealant of its tooth lies on; the list is by date. A repair lies
/// on none: it has its own clock and is judged with the sealant it repairs.
dentition::SurfaceSet surfacesLeft(const std::vector<EarlierPlacement>& placed, std::size_t of);

/// A child found by a search.
struct Found {
  roster::ChildId child;
  std::string number;
  std::string name;
  std::string room;
};

/// A child of the logbook who may be the one that is being entered or looked for.
struct NearMatch {
  Found child;
  roster::Likeness why;
};

} // namespace gk::session
