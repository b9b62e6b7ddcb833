// Terms whose truth is known by construction (own simulation, nothing of the program in it).

#include "reports/compare/retention_report.h"
#include "reports/retention/year_of_looks.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::reports;
using chairside::PlacementType;
using followup::CannotAssess;
using followup::CheckKind;
using followup::Held;
using test::YearOfLooks;

TEST_CASE("A reseal that was filled over says nothing of why the first sealant failed",
          "[case-343]") {
  // Lost at a month and resealed; the reseal is filled over at a year.
  YearOfLooks term;
  const auto child = term.child(term.here);
  const auto first = term.place(child, term.placed, 16);
  term.look(first, term.month, Held::lost, CheckKind::shortTermSample);
  auto& filled = term.check(term.place(child, term.month, 16, PlacementType::reseal), term.year,
                            Held::cannotAssess);
  filled.why = CannotAssess::restoredOver;
  filled.health = followup::ToothHealth::restored;
  const auto total = term.total();
  CHECK(total.lost == 1);
  CHECK(total.earlierLost == 1);
  CHECK(total.filledOver == 0);
  CHECK(total.filledSince == 1); // of the tooth
}

TEST_CASE("A sealant replaced without having failed has its own reason for not being assessed",
          "[case-343]") {
  YearOfLooks term;
  const auto child = term.child(term.here);
  term.look(term.place(child, term.placed, 16), term.month, Held::whole,
            CheckKind::shortTermSample);
  term.atYear(term.place(child, term.month, 16, PlacementType::reseal), Held::whole);
  CHECK(term.total().cannotAssess == 1);
  CHECK(term.text().find("resealed without having failed 1") != std::string::npos);
  CHECK(term.text().find("none 1") == std::string::npos);
}

TEST_CASE("A loss that was seen after the window says nothing of a year", "[case-344]") {
  // Two children are not found in their windows; one has lost its sealant by November, a month
  // after the window shut, the other a month after placement.
  YearOfLooks term;
  const auto early = term.dayLastYear(term.here, "2025-07-20"); // its window shuts on 20 October
  const auto late = term.day(term.here, "2026-11-10");
  const auto unknown = term.place(term.child(term.here), early, 16);
  term.look(unknown, late, Held::lost, CheckKind::longTerm);
  const auto known = term.place(term.child(term.here), early, 16);
  term.look(known, term.dayLastYear(term.here, "2025-08-20"), Held::lost,
            CheckKind::shortTermSample);
  const auto total = term.total();
  CHECK(total.due == 2);
  CHECK(total.assessable == 0);
  CHECK(total.lostUnfound == 1);
  // So the first may still have been whole within its window: bounds 0 and 50%.
  const auto tables = retentionReport(term.records);
  const auto bounds = std::ranges::find_if(
      tables, [](const auto& table) { return table.title.starts_with("Follow-up, and"); });
  REQUIRE(bounds != tables.end());
  const auto& row = bounds->rows.back();
  CHECK(row[row.size() - 2].text() == "0.0");
  CHECK(row.back().text() == "50.0");
}

TEST_CASE("A known loss of a child that was found is not said to be of a child not found",
          "[case-344]") {
  // Found at a year, its sealant hidden by gum; sealed again, without a look, a month later.
  YearOfLooks term;
  const auto child = term.child(term.here);
  const auto hidden = term.place(child, term.placed, 16);
  auto& look = term.check(hidden, term.year, Held::cannotAssess);
  look.why = CannotAssess::coveredByGum;
  term.place(child, term.day(term.here, "2026-11-10"), 16, PlacementType::reseal);
  const auto total = term.total();
  CHECK(total.childrenFound == 1);
  CHECK(total.cannotAssess == 1);
  CHECK(total.lostUnfound == 1);
  CHECK(term.text().find("students not found are") == std::string::npos);
  CHECK(term.text().find("Known to be missing, though not assessed in these months: 1 sealant,") !=
        std::string::npos);
}

TEST_CASE("Sealants of more lots than two bytes count are told apart all the same") {
  YearOfLooks term;
  constexpr std::size_t many = 66'000;
  for (std::size_t i = 0; i < many; ++i) {
    term.place(term.child(term.here), term.placed, 16);
    auto& placed = term.records.placements.back().value;
    placed.sealant = term.make.id<kit::LotId>();
    term.records.lots.push_back(term.make.row(kit::Lot{.kind = kit::MaterialKind::sealantLightCure,
                                                       .material = "Resin Heath",
                                                       .lot = "RH-" + std::to_string(i),
                                                       .expiry = test::date("2027-09-30"),
                                                       .makersTime = base::Seconds(20),
                                                       .contains = {},
                                                       .quarantineReason = {}}));
    term.records.lots.back().id = placed.sealant;
  }
  const RetentionFacts facts(term.records, {.firstPlacementsOnly = false});
  CHECK(facts.labels(Factor::lot).size() == many);
}
