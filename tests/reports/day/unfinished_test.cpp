#include "reports/day/close_out_tables.h"
#include "reports/records/doubtful.h"
#include "reports/sample.h"
#include "reports/services/referral_report.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace gk;
using namespace gk::chairside;
using namespace gk::reports;
using gk::roster::ConsentState;
using gk::test::date;
using gk::test::SampleDay;

namespace {

/// Bo's upper right first molar was to be sealed today and was not.
struct BosDay : SampleDay {
  roster::ChildId bo = child("Bo", ConsentState::yes, "7");

  BosDay() {
    screen(bo, {test::toSeal(16)});
    end(bo, DayEnd::screenedNotTreated, "fire drill");
  }
  roster::DayId earlierDay(const std::string& iso) {
    const auto id = make.id<roster::DayId>();
    records.earlierDays.emplace(id, date(iso));
    return id;
  }
  void looked(roster::DayId day, Decision decision) {
    auto finding = test::toSeal(16);
    finding.decision = decision;
    records.earlierScreenings.push_back(make.row(Screening{.child = bo,
                                                           .day = day,
                                                           .untreatedDecay = Tri::no,
                                                           .treatedDecay = Tri::no,
                                                           .urgency = Urgency::none,
                                                           .note = {},
                                                           .teeth = {finding}}));
  }
  void sealed(roster::DayId day) {
    place(bo, 16).day = day;
    records.earlierPlacements.push_back(records.placements.back());
    records.placements.pop_back();
  }
  [[nodiscard]] UnfinishedTooth tooth() const {
    const auto sheet = closeOut();
    REQUIRE(sheet.unfinished.size() == 1);
    return sheet.unfinished.front();
  }
};

followup::RetentionCheck doubt(PlacementId placement, roster::ChildId child, roster::DayId day) {
  return {.placement = placement,
          .child = child,
          .day = day,
          .kind = followup::CheckKind::longTerm,
          .occlusal = followup::Held::cannotAssess,
          .why = followup::CannotAssess::recordDoubtful,
          .note = {}};
}

} // namespace

TEST_CASE("an unfinished tooth is listed with its room, its first date and the next step") {
  BosDay day;
  CHECK(day.tooth().room == "7");
  CHECK(day.tooth().firstMeant == date("2026-11-17"));
  CHECK(day.tooth().next == "no day left here: next term, or a dentist");
  day.records.nextDayHere = date("2026-11-24");
  CHECK(day.tooth().next == "finish here on November 24, 2026");
  CHECK(childrenToLookBackOn(day.records) == std::set{day.bo});

  day.looked(day.earlierDay("2026-10-06"), Decision::notToday);
  day.looked(day.earlierDay("2026-09-15"), Decision::seal);
  CHECK(day.tooth().firstMeant == date("2026-09-15"));

  const auto tables = closeOutTables(day.closeOut());
  const auto table = std::ranges::find(tables, "Unfinished teeth", &Table::title);
  REQUIRE(table != tables.end());
  CHECK(textsOf(table->rows.front()) ==
        std::vector<std::string>{"Bo", "7", "upper right first molar, 3", "seal, nothing placed",
                                 "fire drill", "2026-09-15", "finish here on November 24, 2026"});
}

TEST_CASE("the first date does not reach back over a sealant or a look that wanted none") {
  BosDay day;
  SECTION("sealed since") {
    const auto then = day.earlierDay("2025-10-07");
    day.looked(then, Decision::seal);
    day.sealed(then);
  }
  SECTION("not wanted since") {
    day.looked(day.earlierDay("2026-10-06"), Decision::watch);
    day.looked(day.earlierDay("2026-09-15"), Decision::seal);
  }
  CHECK(day.tooth().firstMeant == date("2026-11-17"));
}

TEST_CASE("an urgent child's teeth wait for the urgent care") {
  BosDay day;
  day.records.nextDayHere = date("2026-11-24");
  day.records.screenings.back().value.urgency = Urgency::urgent;
  CHECK(day.tooth().next == "the urgent care first");
  const auto sheet = day.closeOut();
  REQUIRE(sheet.urgent.size() == 1);
  CHECK(sheet.urgent.front().next == "call now");
  const auto log = [&](followup::Channel channel, followup::ContactResult result) {
    day.records.contacts.push_back(
        day.make.row<followup::ContactAttempt>({day.bo, day.records.id, channel, result, ""}));
    return day.closeOut().urgent.front().next;
  };
  CHECK(log(followup::Channel::phone, followup::ContactResult::noAnswer) ==
        "call again, then the next person on the card");
  CHECK(log(followup::Channel::phone, followup::ContactResult::reached) == "tell the nurse");
  CHECK(log(followup::Channel::nurse, followup::ContactResult::reached) == "make the referral");
}

TEST_CASE("a record in doubt is an exception until a later look or a correction", "[case-64]") {
  BosDay day;
  day.sealed(day.earlierDay("2025-10-07"));
  const auto placement = day.records.earlierPlacements.back();
  day.records.checks.push_back(day.make.row(doubt(placement.id, day.bo, day.records.id)));
  const auto inDoubt = [&] {
    const auto sheet = day.closeOut();
    const auto at =
        std::ranges::find(sheet.exceptions, ExceptionKind::recordDoubtful, &DayException::kind);
    return at == sheet.exceptions.end() ? std::string() : at->what;
  };
  CHECK(inDoubt() == "sealant charted on the upper right first molar, 3: not there, and no other "
                     "tooth known");
  CHECK(whoMustFix(ExceptionKind::recordDoubtful) == Fixer::clinician);
  SECTION("looked at again") {
    auto found = doubt(placement.id, day.bo, day.records.id);
    found.occlusal = followup::Held::whole;
    found.why = followup::CannotAssess::none;
    day.records.checks.push_back(day.make.row(found));
    CHECK(inDoubt().empty());
  }
  SECTION("the tooth corrected") {
    day.records.earlierPlacements.back() = day.make.named(placement.id, placement.value);
    CHECK(inDoubt().empty());
  }
}

TEST_CASE("the term's follow-up lists the records in doubt by number", "[case-64]") {
  test::SampleTerm term;
  const auto school = term.school("Cobble Lantern Elementary", 40);
  const auto day = term.day(school, "2026-11-17");
  const auto child = term.child(school);
  const auto then = term.dayLastYear(school, "2025-11-18");
  const auto placement = term.place(child, then, 16);
  term.records.checks.push_back(term.make.row(doubt(placement, child, day)));
  const auto doubtful = [&](const char* today) {
    const auto tables = referralReport(term.records, date(today));
    REQUIRE(tables.back().title == "Records in question");
    return tables.back().rows;
  };
  REQUIRE(doubtful("2026-11-17").size() == 1);
  CHECK(doubtful("2026-11-17").front()[2] == "upper right first molar, 3");
  CHECK(doubtful("2026-11-17").front()[3] == "2025-11-18");
  CHECK(doubtful("2026-11-16").empty()); // no one had looked yet
  auto& row = term.records.placements.back();
  row = term.make.named(row.id, row.value);
  CHECK(doubtful("2026-11-17").empty());
}
