#include "reports/funder/effort_report.h"
#include "reports/quality/quality_logs.h"
#include "reports/retention/early_checks.h"
#include "reports/retention/retention_totals.h"
#include "reports/sample.h"
#include "reports/services/payer_report.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::reports;
using gk::test::date;
using gk::test::rowsOf;
using gk::test::SampleTerm;
using roster::minutes;
using roster::Role;

namespace {

/// One school with two days, four children screened on the first and two sealed; of the second
/// day no one said what it took.
struct TwoDays : SampleTerm {
  roster::SchoolId alder = school("Alder Hollow", 40);
  roster::DayId first = day(alder, "2026-10-06");
  roster::DayId second = day(alder, "2026-10-08");
  std::vector<roster::ChildId> children;

  TwoDays() {
    for (int i = 0; i < 4; ++i) {
      children.push_back(child(alder));
      screen(children.back(), first);
    }
    place(children[0], first, 16);
    place(children[0], first, 26);
    place(children[1], first, 16);
    screen(child(alder), second);
    say(first, 3);
    say(first, 2); // said again
  }

  void say(roster::DayId on, int chairs) {
    records.efforts.push_back(make.row<roster::DayEffort>(
        {.day = on,
         .chairs = chairs,
         .open = minutes(300),
         .people = {{Role::hygienist, minutes(600)}, {Role::coordinator, minutes(300)}},
         .taught = 46}));
  }
};

const Cells& rowOf(const Table& table, const std::string& name) {
  for (const auto& row : table.rows)
    if (row.front() == name) return row;
  FAIL("no row " << name);
  return table.rows.front();
}

std::string effortCell(const Table& table, const Cells& row, const std::string& heading) {
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    if (table.columns[i].heading == heading) return row.at(i).text();
  FAIL("no column " << heading);
  return {};
}

} // namespace

TEST_CASE("Hours are of the days for which they were entered, and the last entry counts") {
  const TwoDays term;
  const auto schools = efforts(term.records);
  const auto table = staffTable(schools);
  const auto& row = rowOf(table, "Alder Hollow");
  CHECK(effortCell(table, row, "Days") == "1 of 2");
  CHECK(effortCell(table, row, "Chair hours") == "10.0");
  CHECK(effortCell(table, row, "Hours of hygienist") == "10");
  CHECK(effortCell(table, row, "Hours of coordinator") == "5");
  CHECK(effortCell(table, row, "Staff hours") == "15");
  CHECK(effortCell(table, row, "Screened") == "4"); // not the fifth, on the other day
  CHECK(effortCell(table, row, "Screened per chair hour") == "0.40");
  CHECK(effortCell(table, row, "Staff hours per student") == "3.75");
  CHECK(effortCell(table, row, "Teeth per chair hour") == "0.30");
  CHECK(effortCell(table, row, "Students receiving oral health education") == "46");
  CHECK(rowOf(table, "Total").size() == row.size());
}

TEST_CASE("A term without hours entered has no rate, and nothing of it is published") {
  SampleTerm term;
  term.day(term.school("Alder Hollow", 40), "2026-10-06");
  const auto schools = efforts(term.records);
  const auto table = staffTable(schools);
  CHECK(effortCell(table, rowOf(table, "Alder Hollow"), "Screened per chair hour") == "–");
  CHECK_FALSE(publishedEffort(schools, {}));
  CHECK_FALSE(mealsTable(schools));
}

TEST_CASE("Few students taught are not published as a number") {
  TwoDays term;
  term.records.efforts.back().value.taught = 7;
  const auto table = publishedEffort(efforts(term.records), {});
  REQUIRE(table);
  CHECK(effortCell(*table, table->rows.front(), "Students receiving oral health education") ==
        "fewer than 10");
  CHECK(effortCell(*table, table->rows.front(), "Chair hours") == "10.0");
}

TEST_CASE("A school's meal eligibility stands with its source") {
  TwoDays term;
  term.records.eligibility.push_back(
      term.make.row<roster::MealEligibility>({term.records.id, term.alder, 71, "county list"}));
  const auto table = mealsTable(efforts(term.records));
  REQUIRE(table);
  CHECK(rowsOf(*table) ==
        std::vector<std::vector<std::string>>{{"Alder Hollow", "71", "county list"}});
}

TEST_CASE("Payers are counted by date, provider and service, without a child") {
  TwoDays term;
  term.records.members = {
      term.make.row<roster::Member>({"Oriel Fenwhistle", "OF", Role::hygienist, "HY-1", {}, {}})};
  for (auto& row : term.records.placements)
    row.value.placedBy = term.records.members[0].id;
  using roster::Payer;
  term.records.backgrounds = {
      term.make.row<roster::Background>({term.children[0], {}, Payer::chip}),
      term.make.row<roster::Background>({term.children[0], {}, Payer::medicaid}),
      term.make.row<roster::Background>({term.children[1], {}, Payer::none})};
  const auto tables = payerReport(term.records);
  REQUIRE(tables.size() == 2);
  using Row = std::vector<std::string>;
  CHECK(rowsOf(tables[0]) == std::vector<Row>{{"screening", "Medicaid", "1", "–"},
                                              {"screening", "no insurance", "1", "–"},
                                              {"screening", "not known", "3", "–"},
                                              {"sealants", "Medicaid", "1", "2"},
                                              {"sealants", "no insurance", "1", "1"}});
  const Row sealed{"2026-10-06", "Alder Hollow", "OF", "sealants", "Medicaid", "1", "2"};
  CHECK(std::ranges::count(rowsOf(tables[1]), sealed) == 1);
}

TEST_CASE("Sterilizer tests are listed by morning with the days since each") {
  TwoDays term;
  const auto tell = [&](roster::DayId day, kit::ReadinessAnswer answer, const std::string& words) {
    term.records.readiness.push_back(
        term.make.row<kit::ReadinessCheck>({day, kit::ReadinessItem::sterilizer, answer,
                                            answer == kit::ReadinessAnswer::done ? "" : words,
                                            answer == kit::ReadinessAnswer::done ? words : ""}));
  };
  tell(term.second, kit::ReadinessAnswer::failed, "the vial turned");
  tell(term.first, kit::ReadinessAnswer::done, "spore test of 2026-10-02 passed");
  const auto table = sterilizerTable(term.records);
  REQUIRE(table.rows.size() == 2);
  CHECK(table.rows[0].at(3) == "2026-10-02");
  CHECK(table.rows[0].at(4) == "4");
  CHECK(table.rows[1].at(2) == "failed");
  CHECK(table.rows[1].at(3) == "–");
}

TEST_CASE("Licenses are listed soonest first, those that ended in capitals") {
  SampleTerm term; // as of December 18, 2026
  const auto member = [&](const std::string& initials, const std::string& until) {
    term.records.members.push_back(
        term.make.row<roster::Member>({"", initials, Role::hygienist, "HY", date(until), {}}));
  };
  member("OF", "2027-06-30");
  member("TQ", "2026-12-01");
  member("BO", "2027-01-15");
  const auto table = licenseTable(term.records);
  REQUIRE(table.rows.size() == 3);
  CHECK(rowsOf(table)[0] ==
        std::vector<std::string>{"TQ", "hygienist", "2026-12-01", "-17", "ENDED"});
  CHECK(table.rows[1].back() == "ends soon");
  CHECK(table.rows[2].back() == "valid");
}

TEST_CASE("What made teeth wet is counted by stage and cause, with what became of them") {
  TwoDays term;
  const auto field = [&](roster::ChildId child) {
    term.records.fields.push_back(
        term.make.row<chairside::Field>({.child = child,
                                         .day = term.first,
                                         .teeth = {},
                                         .isolation = chairside::Isolation::cottonRolls,
                                         .assistant = {},
                                         .sealant = term.make.id<kit::LotId>(),
                                         .etchant = {},
                                         .note = ""}));
    return term.records.fields.back().id;
  };
  const auto mina = field(term.children[0]);
  term.records.placements[0].value.field = mina;
  term.records.placements[1].value.field = mina;
  const auto upper = term.records.placements[0].value.tooth;
  const auto left = term.records.placements[1].value.tooth;
  using chairside::WetCause;
  using chairside::WetStage;
  const auto wet = [&](std::vector<dentition::Tooth> teeth, WetStage stage) {
    term.records.wets.push_back(
        term.make.row<chairside::Wet>({mina, std::move(teeth), stage, WetCause::saliva, ""}));
  };
  wet({upper, left}, WetStage::afterEtch);
  wet({upper}, WetStage::duringFlow);
  const auto table = wetTable(term.records);
  using Row = std::vector<std::string>;
  CHECK(rowsOf(table) ==
        std::vector<Row>{{"after etch", "saliva", "1", "2", "66.7", "2", "0", "0"},
                         {"while placing sealant", "saliva", "1", "1", "33.3", "1", "0", "0"},
                         {"Total", "", "2", "2", "66.7", "2", "0", "0"}});
}

TEST_CASE("Exceptions of a term are counted by kind and school, and of no other term") {
  TwoDays term;
  auto& placements = term.records.placements;
  placements[0].value.attempt = chairside::Attempt::stoppedBeforeCure;
  placements[1].value.interruptedCures = 1;
  const auto last = term.dayLastYear(term.alder, "2025-10-07");
  term.place(term.children[2], last, 16, chairside::PlacementType::fresh,
             chairside::Attempt::notAchieved);
  const auto table = exceptionsTable(term.records);
  CHECK(rowOf(table, "Tooth stopped before completion").at(2) == "Alder Hollow 1");
  CHECK(rowOf(table, "Tooth with a cure cut short").at(1) == "1");
  CHECK(rowOf(table, "Sealant not achieved at the check").at(1) == "0");
}

TEST_CASE("Short-term checks are counted by kind and stay out of the one-year figures") {
  TwoDays term;
  const auto placed = term.records.placements[0].id;
  const auto other = term.records.placements[2].id;
  term.check(placed, term.second, followup::Held::whole).kind =
      followup::CheckKind::shortTermSample;
  term.check(other, term.second, followup::Held::lost).kind =
      followup::CheckKind::shortTermTriggered;
  const auto lines = earlyChecks(term.records);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].label == "short-term sample");
  CHECK(lines[0].whole == 1);
  CHECK(lines[1].lost == 1);
  const auto both = shortTermChecks(term.records);
  CHECK(both.children == 2);
  CHECK(both.assessable == 2);
  CHECK(term.totals().retention.total.examined == 0);
}

TEST_CASE("Retention goes by how far a tooth was up and by its enamel when it was sealed") {
  SampleTerm term;
  const auto school = term.school("Alder Hollow", 40);
  const auto then = term.dayLastYear(school, "2025-10-07");
  const auto now = term.day(school, "2026-10-06");
  const auto sealed = [&](chairside::Presence presence, chairside::Enamel enamel,
                          followup::Held held) {
    const auto child = term.child(school);
    auto finding = test::toSeal(16);
    finding.presence = presence;
    finding.enamel = enamel;
    term.screen(child, then, {finding});
    term.check(term.place(child, then, 16), now, held);
  };
  using chairside::Enamel;
  using chairside::Presence;
  sealed(Presence::erupted, Enamel::none, followup::Held::whole);
  sealed(Presence::erupted, Enamel::opacity, followup::Held::lost);
  sealed(Presence::partlyErupted, Enamel::none, followup::Held::part);
  term.check(term.place(term.child(school), then, 16), now, followup::Held::whole);
  const RetentionFacts facts(term.records);
  const auto line = [&](Factor factor, const std::string& label) {
    for (const auto& one : retentionBy(facts, factor))
      if (one.label == label) return one;
    FAIL("no line " << label);
    return RetentionLine{};
  };
  CHECK(line(Factor::eruption, "erupted").assessable == 2);
  CHECK(line(Factor::eruption, "partially erupted").part == 1);
  CHECK(line(Factor::eruption, "not recorded").whole == 1);
  CHECK(line(Factor::enamel, "hypomineralized").lost == 1);
  CHECK(line(Factor::enamel, "not hypomineralized").assessable == 2);
}
