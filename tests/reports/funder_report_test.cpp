#include "reports/funder_report.h"
#include "reports/report.h"
#include "sample.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace gk;
using namespace gk::test;
using reports::ReportKind;
using reports::Table;

namespace {

/// Children of one school, screened on one day, so many of them urgent, fifteen who are still
/// to be seen and fifteen who may not: all of a group would be hidden.
void fill(SampleTerm& term, roster::SchoolId school, int screened, int urgent) {
  const auto day = term.day(school, "2026-10-06");
  for (int i = 0; i < 15; ++i)
    term.consent(term.child(school), roster::ConsentState::yes);
  for (int i = 0; i < 15; ++i)
    term.consent(term.child(school), roster::ConsentState::no);
  for (int i = 0; i < screened; ++i) {
    const auto child = term.child(school);
    term.consent(child, roster::ConsentState::yes);
    auto& screening = term.screen(child, day);
    if (i >= urgent) continue;
    screening.urgency = chairside::Urgency::urgent;
    screening.untreatedDecay = chairside::Tri::yes;
    term.records.referrals.push_back(term.make.row(
        followup::Referral{child, day, chairside::Urgency::urgent, "pain", date("2026-10-08"),
                           followup::ReferredTo::emergency, followup::ReferralState::open}));
  }
}

const Table& called(const std::vector<Table>& tables, const std::string& start) {
  const auto at = std::ranges::find_if(
      tables, [&](const Table& table) { return table.title.starts_with(start); });
  REQUIRE(at != tables.end());
  return *at;
}

bool shows(const Table& table, const std::string& cell) {
  return std::ranges::any_of(
      table.rows, [&](const auto& row) { return std::ranges::find(row, cell) != row.end(); });
}

std::vector<Table> funder(const SampleTerm& term, const std::string& version = "version 1") {
  reports::ReportOptions options;
  options.version = version;
  options.today = date("2026-12-18");
  return reports::reportOf(ReportKind::funder, term.records, options);
}

} // namespace

TEST_CASE("a funder's report has every part and its version") {
  SampleTerm term;
  fill(term, term.school("Alder Hollow Elementary", 100), 40, 0);
  fill(term, term.school("Cobble Lantern Elementary", 120), 50, 0);
  const auto tables = funder(term, "version 2; differs from version 1 by one figure");
  for (const auto* part : {"Report to funder", "Participation: ", "Findings", "Services",
                           "Retention at", "Referrals", "Targets", "Decay spared"})
    called(tables, part);
  CHECK(shows(tables.front(), "version 2; differs from version 1 by one figure"));
  CHECK(called(tables, "Decay spared").notes.front().starts_with("Methods and limits."));
  CHECK(called(tables, "Targets").rows[0][3] == "yes"); // 120 of 220
  CHECK(called(tables, "Targets").rows[1][3] == "NO");  // 90 of 120, under 97 %
}

TEST_CASE("a small number of urgent children can be read nowhere in a funder's report",
          "[case-83]") {
  SampleTerm term;
  fill(term, term.school("Alder Hollow Elementary", 100), 40, 3);
  fill(term, term.school("Cobble Lantern Elementary", 120), 50, 0);
  const auto tables = funder(term);
  const auto& findings = called(tables, "Findings");
  CHECK_FALSE(shows(findings, "3"));
  const auto& referrals = called(tables, "Referrals");
  CHECK_FALSE(shows(referrals, "3"));
}

TEST_CASE("by grade is left out where a total is hidden and shown where none is") {
  SampleTerm large;
  fill(large, large.school("Alder Hollow Elementary", 100), 40, 0);
  fill(large, large.school("Cobble Lantern Elementary", 120), 50, 0);
  const auto shown = funder(large);
  SampleTerm small;
  fill(small, small.school("Alder Hollow Elementary", 40), 4, 0);
  const auto hidden = funder(small);
  const auto hasGrades = [](const std::vector<Table>& tables) {
    return std::ranges::any_of(
        tables, [](const Table& table) { return table.title == "Participation by grade"; });
  };
  CHECK(hasGrades(shown));
  CHECK_FALSE(hasGrades(hidden));
}
