#pragma once

#include "roster/program/program.h"
#include "roster/team/team.h"

namespace gk::roster {

using base::DayId;
using ClosureId = base::Id<struct ClosureTag>;
using AgreementOverrideId = base::Id<struct AgreementOverrideTag>;

/// One team at one school on one date. The date of care is this date, whenever it is typed.
struct ClinicDay {
  using Key = DayId;
  TermId term;
  SchoolId school;
  base::Date date;
  int team = 1;          ///< a second team on the same day at the same school is 2
  std::string reason;    ///< needed on a holiday, a weekend or outside the term
  bool canceled = false; ///< a snow day keeps its roster and consents; `reason` says why
  bool operator==(const ClinicDay&) const = default;
};

/// Signed by two people when every line reconciles; afterwards addenda only.
struct DayClosure {
  using Key = ClosureId;
  DayId day;
  MemberId clinical;    ///< answers for the clinical content
  MemberId coordinator; ///< answers for completeness
  bool operator==(const DayClosure&) const = default;
};

/// The agreement with the authorizing dentist is over, and a named clinician goes on for this day.
struct AgreementOverride {
  using Key = AgreementOverrideId;
  DayId day;
  MemberId clinician;
  std::string reason;
  bool operator==(const AgreementOverride&) const = default;
};

/// What is odd about opening a day on this date, in words; empty when nothing is.
std::string dateQuestion(const Term& term, base::Date date);

} // namespace gk::roster
