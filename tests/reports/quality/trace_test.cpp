#include "reports/quality/trace.h"
#include "reports/report.h"
#include "reports/sample.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace gk;
using namespace gk::test;

namespace {

/// One tooth of a lot a year ago, checked since and moved; two of another lot.
struct Recalled : SampleTerm {
  roster::SchoolId alder = school("Alder Hollow Elementary");
  roster::SchoolId cobble = school("Cobble Lantern Elementary");
  kit::LotId lot = make.id<kit::LotId>();
  kit::LightId light = make.id<kit::LightId>();
  roster::ChildId moved = child(alder);

  Recalled() {
    records.lots.push_back(make.named<kit::Lot>(lot, {kit::MaterialKind::sealantLightCure,
                                                      "Resin Fern",
                                                      "RF-2609",
                                                      date("2027-04-30"),
                                                      base::Seconds(20),
                                                      {},
                                                      true,
                                                      "maker's notice"}));
    records.lights.push_back(make.named<kit::Light>(
        light, {"L-2", kit::LightType::led, {400}, {1120}, true, "M-1", true}));
    const auto placed = place(moved, dayLastYear(alder, "2025-11-12"), 16);
    auto& of = records.placements.back().value;
    of.sealant = lot;
    of.light = light;
    for (auto& row : records.children)
      if (row.id == moved) row.value.school = cobble;
    check(placed, day(cobble, "2026-11-17"), followup::Held::part);
    const auto other = child(cobble);
    place(other, day(cobble, "2026-11-18"), 26);
    place(other, day(cobble, "2026-11-18"), 36);
  }
};

} // namespace

TEST_CASE("a lot leads to every tooth, child, school and last check whatever the term",
          "[case-53]") {
  Recalled term;
  const auto tables = reports::traceLot(term.records, "RF-2609");
  REQUIRE(tables);
  const auto& teeth = tables->front();
  CHECK(teeth.title == "Trace of Resin Fern lot RF-2609");
  REQUIRE(teeth.rows.size() == 1);
  const auto& row = teeth.rows.front();
  CHECK(row[1] == "Alder Hollow Elementary");
  CHECK(row[2] == "Cobble Lantern Elementary"); // where the child is to be found
  CHECK(row[3] == "2025-11-12");
  CHECK(row[4].text().starts_with("upper right first molar"));
  CHECK(row[8] == "2026-11-17");
  CHECK(row[9] == "partially retained");
  CHECK(rowsOf(tables->at(1)) ==
        std::vector<std::vector<std::string>>{{"Cobble Lantern Elementary", "1", "1"}});
}

TEST_CASE("a light leads to the teeth cured under it", "[case-53]") {
  Recalled term;
  const auto tables = reports::traceLight(term.records, "L-2");
  REQUIRE(tables);
  CHECK(tables->front().rows.size() == 1);
  CHECK_FALSE(reports::traceLight(term.records, "L-9"));
  CHECK_FALSE(reports::traceLot(term.records, "L-2"));
}

TEST_CASE("without a lot the trace lists every lot and light with what it touched") {
  Recalled term;
  const auto tables = reports::reportOf(reports::ReportKind::trace, term.records);
  REQUIRE(tables.size() == 2);
  const auto lot = std::ranges::find(tables[0].rows, "RF-2609",
                                     [](const auto& row) { return row.front().text(); });
  REQUIRE(lot != tables[0].rows.end());
  CHECK((*lot)[4] == "1");
  CHECK((*lot)[6] == "set aside: maker's notice");
  CHECK(tables[1].rows.front().front() == "L-2");
}

TEST_CASE("a trace names no child") {
  Recalled term;
  const auto tables = *reports::traceLot(term.records, "RF-2609");
  CHECK(std::ranges::none_of(tables.front().columns,
                             [](const auto& column) { return column.heading == "Name"; }));
}
