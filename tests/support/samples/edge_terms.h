#pragma once

#include "reports/report.h"
#include "reports/sample.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace gk::test {

/// Terms at the edge of what can be, each made so that its truth is known: own simulation. One
/// school unless it says otherwise; what is due was placed a year before.
struct EdgeTerm : test::SampleTerm {
  roster::SchoolId here = school("Cobble Lantern Elementary", 60);
  roster::DayId then = dayLastYear(here, "2025-10-14");
  roster::DayId now = day(here, "2026-10-13");

  roster::ChildId consented() {
    const auto one = child(here);
    consent(one, roster::ConsentState::yes);
    return one;
  }
  /// Placed a year ago and looked at now, all alike.
  void sealedBefore(int children, followup::Held held) {
    for (int i = 0; i < children; ++i) {
      const auto one = consented();
      screen(one, then, {toSeal(16)});
      screen(one, now, {toSeal(26)});
      for (const int tooth : {16, 26})
        check(place(one, then, tooth), now, held);
    }
  }
  void cost(std::vector<roster::CostLine> lines) {
    records.costs.push_back(make.row<roster::DayCost>({now, std::move(lines)}));
  }
};

struct Edge {
  std::string name;
  reports::TermRecords records;
  std::optional<roster::ProgramYear> year{};
};

reports::TermRecords nobody();
reports::TermRecords noConsent();
reports::TermRecords oneChild();
reports::TermRecords oneChildChecked(followup::Held held);
reports::TermRecords allAffected(int children);
reports::TermRecords allChecked(int children, followup::Held held);
reports::TermRecords moved();
reports::TermRecords nothingCost();
reports::TermRecords moreThanEnrolled();
reports::TermRecords noneFound();
reports::TermRecords twoCohorts();

/// All of them, with the years that cut a term.
std::vector<Edge> edges();

/// Every report of it, with figures set to their ends where a report takes any.
std::vector<std::pair<reports::ReportKind, std::vector<reports::Table>>>
reportsOf(const Edge& edge);

} // namespace gk::test
