#pragma once

#include "reports/print/render.h"
#include "reports/sample.h"
#include "reports/term/term_tables.h"

#include <string>

namespace gk::test {

/// Sealed in October 2025; looks a month, three months and a year later.
struct YearOfLooks : SampleTerm {
  roster::SchoolId here = school("Cobble Lantern Elementary", 142);
  roster::DayId placed = dayLastYear(here, "2025-10-14");
  roster::DayId month = dayLastYear(here, "2025-11-13");
  roster::DayId third = dayLastYear(here, "2026-01-13");
  roster::DayId spring = dayLastYear(here, "2026-05-12");
  roster::DayId year = day(here, "2026-10-13");

  void look(chairside::PlacementId placement, roster::DayId on, followup::Held held,
            followup::CheckKind kind) {
    check(placement, on, held).kind = kind;
  }
  void atYear(chairside::PlacementId placement, followup::Held held) {
    look(placement, year, held, followup::CheckKind::longTerm);
  }
  [[nodiscard]] reports::RetentionLine total() const {
    return reports::retentionTotals(reports::RetentionFacts(records)).total;
  }
  [[nodiscard]] std::string text() const { return reports::toText(reports::termTables(totals())); }
};

} // namespace gk::test
