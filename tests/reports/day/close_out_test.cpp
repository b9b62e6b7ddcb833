#include "reports/day/close_out.h"

#include "reports/day/close_out_tables.h"
#include "reports/day/return_visits.h"
#include "reports/print/render.h"
#include "reports/sample.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <set>

using namespace gk;
using namespace gk::chairside;
using namespace gk::reports;
using gk::roster::ConsentState;
using gk::test::SampleDay;

namespace {

bool blocks(const CloseOut& day, BlockerKind kind) {
  return std::ranges::any_of(day.blockers, [&](const auto& one) { return one.kind == kind; });
}

const DayException* exceptionOf(const CloseOut& day, ExceptionKind kind) {
  const auto at = std::ranges::find(day.exceptions, kind, &DayException::kind);
  return at == day.exceptions.end() ? nullptr : &*at;
}

/// Sealed, complete: screening, one tooth, outcome.
roster::ChildId sealedChild(SampleDay& day, const std::string& name) {
  const auto child = day.child(name, ConsentState::yes);
  day.screen(child, {test::toSeal(16)});
  day.place(child, 16);
  day.end(child, DayEnd::sealedComplete);
  return child;
}

roster::ChildId urgentChild(SampleDay& day) {
  const auto child = day.child("Hana Brookmere", ConsentState::yes);
  auto& screening = day.screen(child);
  screening.untreatedDecay = Tri::yes;
  screening.urgency = Urgency::urgent;
  screening.urgentReason = UrgentReason::swelling;
  day.end(child, DayEnd::screenedNotTreated, "swelling");
  return child;
}

} // namespace

TEST_CASE("a day balances when every consented child has one outcome") {
  SampleDay day;
  sealedChild(day, "Mina Tolliver-Reed");
  const std::pair<ConsentState, DayEnd> ways[] = {
      {ConsentState::yes, DayEnd::absent},     {ConsentState::yesWithLimits, DayEnd::declined},
      {ConsentState::yes, DayEnd::leftSchool}, {ConsentState::withdrawn, DayEnd::withdrawn},
      {ConsentState::onHold, DayEnd::onHold},  {ConsentState::yes, DayEnd::notReached}};
  for (const auto& [state, end] : ways)
    day.end(day.child("", state), end);
  const auto out = day.closeOut();
  CHECK(out.equation.consented == 7);
  CHECK(out.equation.screened == 1);
  CHECK(out.equation.absent == 1);
  CHECK(out.equation.declined == 1);
  CHECK(out.equation.left == 1);
  CHECK(out.equation.withdrawn == 1);
  CHECK(out.equation.onHold == 1);
  CHECK(out.equation.notReached == 1);
  CHECK(out.equation.difference() == 0);
  CHECK(out.balanced());
  CHECK(out.mayClose());
}

TEST_CASE("a seated child without an outcome makes the day unequal and is named") {
  SampleDay day;
  sealedChild(day, "Mina Tolliver-Reed");
  const auto wren = day.child("Wren Castlebury", ConsentState::yes);
  day.records.seatings.push_back(day.make.row<Seating>(
      {wren, day.records.id, {Identifier::spokenName, Identifier::slipScan}}));
  const auto out = day.closeOut();
  CHECK(out.equation.difference() == 1);
  REQUIRE(out.equation.odd.size() == 1);
  CHECK(out.equation.odd[0].shown == "Wren Castlebury");
  CHECK(blocks(out, BlockerKind::noOutcome));
  CHECK_FALSE(out.mayClose());
}

TEST_CASE("two errors that cancel out do not balance the day") {
  SampleDay day;
  const auto seated = day.child("Wren Castlebury", ConsentState::yes);
  day.records.seatings.push_back(day.make.row<Seating>(
      {seated, day.records.id, {Identifier::spokenName, Identifier::slipScan}}));
  day.end(day.child("Nell Farrowgate", ConsentState::no), DayEnd::absent);
  const auto out = day.closeOut();
  CHECK(out.equation.difference() == 0);
  CHECK(out.equation.odd.size() == 2);
  CHECK_FALSE(out.balanced());
  CHECK(blocks(out, BlockerKind::noConsent));
}

TEST_CASE("two forms that disagree count as on hold") {
  SampleDay day;
  const auto ruben = day.child("Ruben Castellane-Oake", ConsentState::yes);
  day.consent(ruben, ConsentState::no);
  day.end(ruben, DayEnd::onHold);
  const auto out = day.closeOut();
  CHECK(out.equation.consented == 1);
  CHECK(out.equation.onHold == 1);
  CHECK(out.mayClose());
}

TEST_CASE("a child withdrawn today before being seen still needs an outcome") {
  SampleDay day;
  const auto jory = day.child("Jory Amberly", ConsentState::withdrawn);
  CHECK(blocks(day.closeOut(), BlockerKind::noOutcome));
  day.end(jory, DayEnd::withdrawn);
  CHECK(day.closeOut().mayClose());
}

TEST_CASE("a child withdrawn on an earlier date is not asked for") {
  SampleDay day;
  day.make.setTime(test::noonOf("2026-11-10"));
  day.child("Jory Amberly", ConsentState::withdrawn);
  const auto out = day.closeOut();
  CHECK(out.lines.empty());
  CHECK(out.mayClose());
}

TEST_CASE("two children of one name are told apart by their numbers") {
  SampleDay day;
  sealedChild(day, "Osei Brackwater");
  sealedChild(day, "Osei Brackwater");
  sealedChild(day, "Mina Tolliver-Reed");
  const auto out = day.closeOut();
  REQUIRE(out.lines.size() == 3);
  std::set<std::string> shown;
  for (const auto& line : out.lines)
    shown.insert(line.shown);
  CHECK(shown.size() == 3);
  CHECK(shown.contains("Mina Tolliver-Reed"));
}

TEST_CASE("children still to be seen block the last day of a school only") {
  SampleDay day;
  sealedChild(day, "Mina Tolliver-Reed");
  day.child("Osei Brackwater", ConsentState::yes);
  const auto early = day.closeOut();
  REQUIRE(early.stillToSee.size() == 1);
  CHECK(early.stillToSee[0].shown == "Osei Brackwater");
  CHECK(early.mayClose());

  day.records.lastDayHere = true;
  const auto last = day.closeOut();
  CHECK(last.equation.difference() == 1);
  CHECK_FALSE(last.mayClose());
}

TEST_CASE("whoever is to be seen again is listed once, with why, and never as none") {
  SampleDay day;
  day.end(day.child("Osei Brackwater", ConsentState::yes), DayEnd::absent);
  day.end(day.child("Jory Amberly", ConsentState::yes), DayEnd::notReached);
  day.child("Hana Brookmere", ConsentState::yes); // no one saw her yet
  sealedChild(day, "Mina Tolliver-Reed");
  const auto visits = returnVisits(day.closeOut());
  std::map<std::string, std::string> why;
  for (const auto& visit : visits)
    why[visit.shown] = visit.why;
  REQUIRE(visits.size() == 3);
  CHECK(why["Osei Brackwater"] == "absent");
  CHECK_FALSE(why["Jory Amberly"].empty());
  CHECK(why["Hana Brookmere"] == "not seen this term");
  const auto table = closeOutTables(day.closeOut()).back();
  CHECK(table.title == "Return visits");
  CHECK(table.rows.size() == 3);
}

TEST_CASE("a child seen on another day of the term is not asked for today") {
  SampleDay day;
  day.records.seenOnOtherDays.push_back(day.child("Osei Brackwater", ConsentState::yes));
  day.records.lastDayHere = true;
  const auto out = day.closeOut();
  CHECK(out.stillToSee.empty());
  CHECK(out.mayClose());
}

TEST_CASE("an urgent child blocks until a call was tried and a referral made") {
  SampleDay day;
  const auto hana = urgentChild(day);
  const auto before = day.closeOut();
  CHECK(blocks(before, BlockerKind::urgentNotCalled));
  CHECK(blocks(before, BlockerKind::noReferral));
  REQUIRE(before.urgent.size() == 1);
  CHECK_FALSE(before.urgent[0].reached);

  const auto call = [&](followup::Channel channel, followup::ContactResult result) {
    day.records.contacts.push_back(
        day.make.row<followup::ContactAttempt>({hana, day.records.id, channel, result, ""}));
  };
  call(followup::Channel::nurse, followup::ContactResult::reached);
  day.records.referrals.push_back(day.make.row<followup::Referral>(
      {hana, day.records.id, Urgency::urgent, "swelling", test::date("2026-11-19")}));
  const auto nurseOnly = day.closeOut();
  CHECK(nurseOnly.mayClose());
  CHECK(nurseOnly.urgent[0].nurseTold);
  CHECK_FALSE(nurseOnly.urgent[0].reached);

  call(followup::Channel::phone, followup::ContactResult::reached);
  const auto after = day.closeOut();
  CHECK(after.urgent[0].reached);
  CHECK(after.urgent[0].calls.size() == 2);
}

TEST_CASE("a child who refuses after two teeth is sealed once and unfinished once", "[case-42]") {
  SampleDay day;
  const auto teodor = day.child("Teodor Finch-Abbey", ConsentState::yes);
  day.screen(teodor, {test::toSeal(16), test::toSeal(46), test::toSeal(26), test::toSeal(36)});
  day.place(teodor, 16);
  day.place(teodor, 46);
  auto& outcome = day.end(teodor, DayEnd::sealedUnfinished);
  const auto without = day.closeOut();
  CHECK(blocks(without, BlockerKind::toothWithoutReason));

  outcome.reason = "child declined";
  const auto out = day.closeOut();
  CHECK(out.mayClose());
  CHECK(out.counts.sealedChildren == 1);
  CHECK(out.counts.firstMolars == 2);
  CHECK(out.counts.surfaces == 4);
  REQUIRE(out.unfinished.size() == 2);
  CHECK(out.unfinished[0].words == "upper left first molar, 14");
  CHECK(out.unfinished[0].reason == "child declined");
  CHECK(out.lines[0].sealedWords == "upper right first molar, 3; lower right first molar, 30");
}

TEST_CASE("a tooth that was etched and left open blocks until it is summed up", "[case-43]") {
  SampleDay day;
  const auto child = sealedChild(day, "Mina Tolliver-Reed");
  const auto field = day.field(child, 36);
  day.step(field, Step::etch, StepResult::done);
  CHECK(blocks(day.closeOut(), BlockerKind::fieldUnfinished));

  auto& stopped = day.place(child, 36, Attempt::stoppedBeforeSealant);
  stopped.field = field;
  stopped.note = "child bolted";
  const auto out = day.closeOut();
  CHECK(out.mayClose());
  CHECK(out.unfinished.size() == 1);
}

TEST_CASE("an outcome that contradicts the record blocks") {
  SampleDay day;
  SECTION("absent but screened") {
    const auto child = day.child("", ConsentState::yes);
    day.screen(child);
    day.end(child, DayEnd::absent);
  }
  SECTION("sealed without a finished tooth") {
    const auto child = day.child("", ConsentState::yes);
    day.screen(child);
    day.end(child, DayEnd::sealedComplete);
  }
  SECTION("screened without a screening") {
    day.end(day.child("", ConsentState::yes), DayEnd::screenedNoneNeeded);
  }
  CHECK(blocks(day.closeOut(), BlockerKind::outcomeDisagrees));
}

TEST_CASE("two outcomes of one child block until one is kept", "[case-65]") {
  SampleDay day;
  const auto child = sealedChild(day, "Osei Brackwater");
  day.end(child, DayEnd::sealedComplete);
  const auto out = day.closeOut();
  CHECK(out.equation.screened == 1);
  CHECK(blocks(out, BlockerKind::twoOutcomes));
}

TEST_CASE("an override is consented and is shown with clinician and reason") {
  SampleDay day;
  const auto child = day.child("Nell Farrowgate", ConsentState::incomplete);
  day.screen(child);
  day.end(child, DayEnd::screenedNoneNeeded);
  day.records.overrides.push_back(day.make.row<roster::ConsentOverride>(
      {child, test::date("2026-11-17"), day.hygienist, "guardian said yes by phone"}));
  const auto out = day.closeOut();
  CHECK(out.equation.underOverride == 1);
  CHECK(out.mayClose());
  const auto* shown = exceptionOf(out, ExceptionKind::consentOverride);
  REQUIRE(shown);
  CHECK(shown->who == "OF");
  CHECK(shown->reason == "guardian said yes by phone");
}

TEST_CASE("short steps and interrupted cures and wet teeth and red lights are exceptions",
          "[case-44]") {
  SampleDay day;
  const auto child = sealedChild(day, "Mina Tolliver-Reed");
  const auto field = day.field(child, 16);
  day.records.placements.back().value.field = field;
  const auto light =
      day.make.row<kit::Light>({"L-2", kit::LightType::led, {0}, {1120}, true, "M-1"});
  day.records.lights.push_back(light);
  day.records.readings.push_back(
      day.make.row<kit::MeterReading>({light.id, test::date("2026-11-10"), {1100}, true, "M-1"}));
  day.records.readings.push_back(
      day.make.row<kit::MeterReading>({light.id, test::date("2026-11-17"), {860}, true, "M-1"}));
  auto& cure = day.step(field, Step::cure, StepResult::interrupted);
  cure.lasted = base::Milliseconds{11000};
  cure.target = base::Seconds{20};
  cure.light = light.id;
  auto& etch = day.step(field, Step::etch, StepResult::shortAccepted);
  etch.lasted = base::Milliseconds{14500};
  etch.target = base::Seconds{20};
  etch.reason = "gag";
  day.records.wets.push_back(day.make.row<Wet>(
      {field, {dentition::toothAt(16)}, WetStage::afterFrosty, WetCause::saliva, ""}));

  const auto out = day.closeOut();
  REQUIRE(exceptionOf(out, ExceptionKind::interruptedCure));
  CHECK(exceptionOf(out, ExceptionKind::interruptedCure)->what ==
        "cure interrupted at 11 s of 20 s: upper right first molar, 3");
  REQUIRE(exceptionOf(out, ExceptionKind::shortStep));
  CHECK(exceptionOf(out, ExceptionKind::shortStep)->what ==
        "short etch accepted, 14.5 s of 20 s: upper right first molar, 3");
  CHECK(exceptionOf(out, ExceptionKind::shortStep)->reason == "gag");
  REQUIRE(exceptionOf(out, ExceptionKind::wet));
  CHECK(exceptionOf(out, ExceptionKind::wet)->what ==
        "saliva after frosty check: upper right first molar, 3");
  REQUIRE(exceptionOf(out, ExceptionKind::redLight));
  CHECK(exceptionOf(out, ExceptionKind::redLight)->what ==
        "L-2 read 860 on Nov 17, 2026 (red) and was used on 1 tooth");
  CHECK(out.mayClose());
}

TEST_CASE("supplies count the teeth each lot touched") {
  SampleDay day;
  sealedChild(day, "Mina Tolliver-Reed");
  const auto child = sealedChild(day, "Lupe Saltmarsh");
  day.place(child, 26, Attempt::stoppedBeforeSealant).note = "refused";
  day.place(child, 36, Attempt::notAchieved).note = "lifted at once";
  const auto out = day.closeOut();
  REQUIRE(out.supplies.size() == 1);
  CHECK(out.supplies[0].words == "Resin Fern lot RF-2609");
  CHECK(out.supplies[0].teeth == 3);
  CHECK(out.supplies[0].children == 2);
}

TEST_CASE("with the vault locked a close-out shows numbers and no name") {
  SampleDay day;
  sealedChild(day, "Mina Tolliver-Reed");
  const auto text = toText(closeOutTables(closeOut(day.records)));
  CHECK(text.find("1043-") != std::string::npos);
  CHECK(text.find("Mina") == std::string::npos);
}

TEST_CASE("the close-out sheet says whether the day may be signed and defers to the practice act") {
  SampleDay day;
  sealedChild(day, "Mina Tolliver-Reed");
  const auto text = toText(closeOutTables(day.closeOut()));
  CHECK(text.find("Close-out: Cobble Lantern Elementary, Tuesday, November 17, 2026") == 0);
  CHECK(text.find("Ready to sign") != std::string::npos);
  CHECK(text.find("Your state practice act") != std::string::npos);
}
