#include "reports/term/chosen_tables.h"

#include "reports/sample.h"
#include "reports/term/term_tables.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::reports;

TEST_CASE("Under a choice each table is of the chosen sealants alone or says why it is not shown",
          "[case-186]") {
  test::SampleTerm term;
  const auto here = term.school("Cobble Lantern Elementary", 142);
  const auto then = term.dayLastYear(here, "2025-10-14");
  const auto now = term.day(here, "2026-10-13");
  for (int i = 0; i < 10; ++i) {
    const auto child = term.child(here);
    term.screen(child, now, {test::toSeal(16)});
    const auto placement = term.place(child, then, 16);
    if (i < 4) term.records.placements.back().value.isolation = chairside::Isolation::rubberDam;
    term.check(placement, now, i % 2 ? followup::Held::whole : followup::Held::lost);
  }
  const RetentionFacts facts(term.records);
  Choice choice;
  CHECK_FALSE(choosesMoreThanSchool(choice));
  choice.of(Factor::school) = FactorCode{0};
  CHECK_FALSE(choosesMoreThanSchool(choice));
  const auto& labels = facts.labels(Factor::isolation);
  choice.of(Factor::isolation) =
      static_cast<FactorCode>(std::ranges::find(labels, "rubber dam") - labels.begin());
  CHECK(choosesMoreThanSchool(choice));

  const auto totals = term.totals();
  const auto tables = chosenTermTables(totals, facts, choice, "rubber dam");
  REQUIRE(tables.size() == termTables(totals).size());
  for (std::size_t i = 0; i < tables.size(); ++i) {
    CAPTURE(tables[i].title);
    CHECK(tables[i].title.find("rubber dam") != std::string::npos);
    if (i == 3) {
      CHECK(tables[i].rows.back().at(1) == "4"); // placed, of the choice
      CHECK(tables[i].rows.back().at(7) == "2");
    } else {
      CHECK(tables[i].rows.empty());
      CHECK(tables[i].notes.front().find("not parted by this choice") != std::string::npos);
    }
  }
}
