#include "reports/publish/published.h"
#include "reports/quality/quality_report.h"
#include "reports/quality/trace.h"
#include "reports/report.h"
#include "reports/sample.h"
#include "reports/services/payer_report.h"
#include "reports/term/term_tables.h"

#include <catch2/catch.hpp>

using namespace gk;
using test::SampleTerm;

namespace {

/// Two schools called Fernhill, and different things at each.
struct Namesakes {
  SampleTerm term;
  roster::SchoolId one = term.school("Fernhill", 100);
  roster::SchoolId two = term.school("Fernhill", 50);
  roster::DayId dayOne = term.day(one, "2026-10-06");
  roster::DayId dayTwo = term.day(two, "2026-10-06");

  Namesakes() {
    term.records.schools[0].value.code = "FA";
    term.records.schools[1].value.code = "FB";
    for (int i = 0; i < 3; ++i)
      sealedAt(one, dayOne);
    sealedAt(two, dayTwo);
  }
  void sealedAt(roster::SchoolId school, roster::DayId day) {
    const auto child = term.child(school);
    term.consent(child, roster::ConsentState::yes);
    term.screen(child, day, {test::toSeal(16)});
    term.place(child, day, 16);
  }
};

} // namespace

TEST_CASE("Two schools of one name are counted apart and told apart by their codes", "[case-109]") {
  const Namesakes county;
  const auto totals = county.term.totals();
  REQUIRE(totals.schools.size() == 2);
  CHECK(totals.schools[0].school == "Fernhill (FA)");
  CHECK(totals.schools[0].screened == 3);
  CHECK(totals.schools[1].school == "Fernhill (FB)");
  CHECK(totals.schools[1].screened == 1);
  CHECK(totals.total.screened == 4);

  const auto alone = reports::schoolTotals(totals, county.term.records, county.two);
  REQUIRE(alone.schools.size() == 1);
  CHECK(alone.total.screened == 1);
  CHECK(alone.total.enrolled == 50);
  CHECK(alone.term == "Fall 2026, Fernhill (FB)");
}

TEST_CASE("A school whose name is its own is shown without its code", "[case-109]") {
  SampleTerm term;
  term.school("Fernhill");
  term.school("Cobble Lantern");
  CHECK(term.totals().schools[0].school == "Cobble Lantern");
}

TEST_CASE("What goes out keeps two schools of one name apart, whatever they are called later",
          "[case-109]") {
  Namesakes county;
  const auto rule = *reports::SuppressionRule::under(5);
  const auto first = reports::publish(county.term.totals(), rule);
  const auto& rows = first.release.term;
  REQUIRE(rows.size() == 3);
  CHECK(rows[0].schools == std::vector{county.one.text()});
  CHECK(rows[1].schools == std::vector{county.two.text()});
  CHECK(first.tables.front().rows.at(0).front() == "Fernhill (FA)");
  CHECK(first.tables.front().rows.at(1).front() == "Fernhill (FB)");

  // One of them is renamed: what was published of it is still known to be its own.
  county.term.records.schools[0].value.name = "Old Fernhill";
  const auto again = reports::publish(county.term.totals(), rule, std::vector{first.release});
  CHECK(again.release.term == std::vector{rows[1], rows[0], rows[2]});
  const auto grouped =
      reports::publish(county.term.totals(), rule, {}, {{county.one.text(), county.two.text()}});
  CHECK(grouped.tables.front().rows.front().front() == "Fernhill + Old Fernhill");
}

TEST_CASE("A recall, the payers and the exceptions tell two schools of one name apart",
          "[case-109]") {
  Namesakes county;
  auto& records = county.term.records;
  const auto lot = records.placements.front().value.sealant;
  records.lots.push_back(
      county.term.make.named<kit::Lot>(lot, {.kind = kit::MaterialKind::sealantLightCure,
                                             .material = "Resin Fern",
                                             .lot = "7",
                                             .expiry = test::date("2027-12-31"),
                                             .makersTime = base::Seconds(20),
                                             .contains = {},
                                             .quarantineReason = ""}));
  const auto traced = *reports::traceLot(records, "7");
  REQUIRE(traced.at(1).rows.size() == 2);
  CHECK(test::rowsOf(traced.at(1))[0] == std::vector<std::string>{"Fernhill (FA)", "3", "3"});
  CHECK(test::rowsOf(traced.at(1))[1] == std::vector<std::string>{"Fernhill (FB)", "1", "1"});
  CHECK_FALSE(reports::traceLot(records, "7", "Etch Thistle"));

  const auto payers = reports::payerReport(records);
  REQUIRE_FALSE(payers.at(1).rows.empty());
  for (const auto& row : payers.at(1).rows) {
    INFO(row.at(1));
    CHECK((row.at(1) == "Fernhill (FA)" ? row.at(5) == "3" : row.at(5) == "1"));
  }
}
