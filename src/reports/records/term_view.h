#pragma once

#include "reports/records/lookup.h"

#include <map>

namespace gk::reports {

/// One term's records with their cross-references. A report is made of one, and hands it on; where
/// records alone are at hand they become one for the call.
class TermView {
 public:
  TermView(const TermRecords& records);

  const TermRecords& records;
  Lookup<roster::ClinicDay> days;
  Lookup<roster::Child> children;
  Lookup<roster::School> schools;

  /// Rows of this term's days up to the date of the report.
  PerChild<chairside::Seating> seatings;
  PerChild<chairside::Screening> screenings;
  PerChild<chairside::Placement> placements;
  PerChild<chairside::Varnish> varnishes;
  PerChild<chairside::DayOutcome> outcomes;
  PerChild<followup::RetentionCheck> checks;

  [[nodiscard]] std::optional<base::Date> dateOf(const roster::DayId& day) const;
  /// A day of this term, not canceled and not in the future.
  [[nodiscard]] bool isOfTerm(const roster::DayId& day) const;
  /// To be shown, never to tell schools apart by: with the code where two have one name.
  [[nodiscard]] std::string schoolName(const roster::SchoolId& school) const;
};

} // namespace gk::reports
