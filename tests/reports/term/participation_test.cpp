#include "reports/term/participation.h"

#include "reports/print/render.h"
#include "reports/sample.h"
#include "reports/term/term_tables.h"
#include "support/known_truth.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::chairside;
using namespace gk::reports;
using gk::roster::ConsentState;
using gk::test::SampleTerm;

TEST_CASE("consented children are screened or accounted for by their last outcome") {
  SampleTerm term;
  const auto school = term.school("Alder Hollow Elementary", 20);
  const auto first = term.day(school, "2026-10-06");
  const auto second = term.day(school, "2026-10-07");
  const auto add = [&](ConsentState state) {
    const auto child = term.child(school);
    term.consent(child, state);
    return child;
  };
  term.screen(add(ConsentState::yes), first);
  const auto returned = add(ConsentState::yes); // absent first, screened later
  term.end(returned, first, DayEnd::absent);
  term.screen(returned, second);
  const auto absent = add(ConsentState::yes);
  term.end(absent, first, DayEnd::notReached);
  term.end(absent, second, DayEnd::absent);
  term.end(add(ConsentState::yesWithLimits), first, DayEnd::declined);
  term.end(add(ConsentState::yes), first, DayEnd::leftSchool);
  add(ConsentState::yes);
  add(ConsentState::no);
  add(ConsentState::withdrawn);
  add(ConsentState::notReturned);

  const auto at = term.totals().total;
  CHECK(at.formsBack == 8);
  CHECK(at.consented == 6);
  CHECK(at.screened == 2);
  CHECK(at.absent == 1);
  CHECK(at.declined == 1);
  CHECK(at.left == 1);
  CHECK(at.stillToSee == 1);
  CHECK(at.consented == at.screened + at.absent + at.declined + at.left + at.withdrawn + at.onHold +
                            at.notReached + at.seenOnly + at.stillToSee);
}

TEST_CASE("a consent withdrawn after the screening keeps the child among the consented",
          "[case-3]") {
  SampleTerm term;
  const auto school = term.school("Alder Hollow Elementary", 20);
  const auto day = term.day(school, "2026-10-06");
  const auto child = term.child(school);
  term.consent(child, ConsentState::withdrawn);
  term.screen(child, day);
  const auto at = term.totals().total;
  CHECK(at.consented == 1);
  CHECK(at.screened == 1);
}

TEST_CASE("a child seen twice to finish teeth counts once with two visits", "[case-75]") {
  SampleTerm term;
  const auto school = term.school("Alder Hollow Elementary", 20);
  const auto first = term.day(school, "2026-10-06");
  const auto second = term.day(school, "2026-10-20");
  const auto child = term.child(school);
  term.consent(child, ConsentState::yes);
  term.screen(child, first, {test::toSeal(16), test::toSeal(26)});
  term.place(child, first, 16);
  term.end(child, first, DayEnd::sealedUnfinished);
  CHECK(term.totals().total.unfinished == 1);

  term.screen(child, second, {test::toSeal(26)});
  term.place(child, second, 26);
  term.end(child, second, DayEnd::sealedComplete);
  const auto at = term.totals().total;
  CHECK(at.screened == 1);
  CHECK(at.needing == 1);
  CHECK(at.sealed == 1);
  CHECK(at.unfinished == 0);
  CHECK(at.visits == 2);
  CHECK(at.days == 2);
  CHECK(at.firstMolars == 2);
  CHECK(at.surfaces == 4);
  CHECK(at.childrenPerDay() == 0.5);
}

TEST_CASE("only complete sealants count and a tooth sealed twice counts once") {
  SampleTerm term;
  const auto school = term.school("Dunlin Marsh School", 20);
  const auto day = term.day(school, "2026-10-06");
  const auto child = term.child(school);
  term.consent(child, ConsentState::yes);
  term.screen(child, day);
  term.place(child, day, 16);
  term.place(child, day, 16, PlacementType::reseal);
  term.place(child, day, 17, PlacementType::replacesInterim);
  term.place(child, day, 26, PlacementType::repair);
  term.place(child, day, 36, PlacementType::interim);
  term.place(child, day, 46, PlacementType::fresh, Attempt::stoppedBeforeCure);
  term.place(child, day, 55);
  const auto at = term.totals().total;
  CHECK(at.firstMolars == 1);
  CHECK(at.secondMolars == 1);
  CHECK(at.otherTeeth == 1);
  CHECK(at.teethPerChild() == 3.0);
}

TEST_CASE("unknown enrollment shows counts and no rate", "[case-77]") {
  SampleTerm term;
  const auto known = term.school("Alder Hollow Elementary", 40);
  const auto unknown = term.school("Brindle Quay Elementary");
  for (auto school : {known, unknown}) {
    const auto child = term.child(school);
    term.consent(child, ConsentState::yes);
    term.screen(child, term.day(school, "2026-10-06"));
  }
  const auto totals = term.totals();
  CHECK(totals.schools[0].enrolled == 40);
  CHECK_FALSE(totals.schools[1].enrolled);
  CHECK_FALSE(totals.total.enrolled);
  const auto table = termTables(totals)[0];
  CHECK(table.rows[1][1] == "unknown");
  CHECK(table.rows[1][3] == "1");
  CHECK(table.rows[1][4] == "–");
  CHECK(table.rows[2][4] == "–");
}

TEST_CASE("a school without one consent keeps its row and divides nothing by zero", "[case-78]") {
  SampleTerm term;
  term.school("Elderbrook Middle", 131);
  const auto totals = term.totals();
  REQUIRE(totals.schools.size() == 1);
  CHECK(totals.schools[0].consented == 0);
  CHECK_FALSE(totals.schools[0].childrenPerDay());
  CHECK_FALSE(totals.schools[0].teethPerChild());
  const auto tables = termTables(totals);
  CHECK(tables[0].rows[0][0] == "Elderbrook Middle");
  CHECK(tables[0].rows[0][4] == "0.0");
  CHECK(tables[0].rows[0][6] == "–");
  CHECK(toText(tables).find("nan") == std::string::npos);
}

TEST_CASE("more consented than enrolled gives no rate") {
  SampleTerm term;
  const auto school = term.school("Fennel Ridge Elementary", 1);
  for (int i = 0; i < 2; ++i)
    term.consent(term.child(school), ConsentState::yes);
  CHECK(termTables(term.totals())[0].rows[0][4] == "–");
}

TEST_CASE("a corrected enrollment of a grade replaces the older count") {
  SampleTerm term;
  const auto school = term.school("Fennel Ridge Elementary", 90);
  term.records.enrollments.push_back(
      term.make.row<roster::Enrollment>({term.records.id, school, "2", 88}));
  CHECK(term.totals().total.enrolled == 88);
}

TEST_CASE("decay and urgency count each child once by the worst screening") {
  SampleTerm term;
  const auto school = term.school("Alder Hollow Elementary", 20);
  const auto day = term.day(school, "2026-10-06");
  const auto child = term.child(school);
  term.consent(child, ConsentState::yes);
  auto& early = term.screen(child, day);
  early.untreatedDecay = Tri::yes;
  early.urgency = Urgency::early;
  term.screen(child, term.day(school, "2026-10-20")).urgency = Urgency::urgent;
  const auto at = term.totals().total;
  CHECK(at.untreated == 1);
  CHECK(at.early == 0);
  CHECK(at.urgent == 1);
}

TEST_CASE("a canceled day and days after the date of the report do not count", "[case-22]") {
  SampleTerm term;
  const auto school = term.school("Alder Hollow Elementary", 20);
  term.day(school, "2026-10-06");
  term.day(school, "2026-10-07");
  term.records.days.back().value.canceled = true;
  const auto late = term.day(school, "2026-12-01");
  const auto child = term.child(school);
  term.consent(child, ConsentState::yes);
  term.screen(child, late);
  term.records.asOf = test::date("2026-11-17");
  const auto at = term.totals().total;
  CHECK(at.days == 1);
  CHECK(at.screened == 0);
  CHECK(at.stillToSee == 1);
}

TEST_CASE("two teams at one school on one date are two days", "[case-76]") {
  SampleTerm term;
  const auto school = term.school("Alder Hollow Elementary", 20);
  term.day(school, "2026-10-06");
  term.day(school, "2026-10-06");
  term.records.days.back().value.team = 2;
  CHECK(term.totals().total.days == 2);
}

TEST_CASE("schools under the program's own benchmark are named, where it has set one",
          "[case-474]") {
  SampleTerm term;
  const auto school = term.school("Elderbrook Middle", 131);
  term.consent(term.child(school), ConsentState::yes);
  // Nothing is held against a number that the program did not set.
  CHECK(toText(termTables(term.totals())).find("enchmark") == std::string::npos);
  term.records.benchmarks.consented = 50;
  const auto text = toText(termTables(term.totals()));
  CHECK(text.find("Below the program's own benchmark of 50% consented of enrolled: Elderbrook "
                  "Middle 0.8") != std::string::npos);
}

TEST_CASE("a recheck under last year's form alone is no consent of this term", "[case-11]") {
  SampleTerm term;
  const auto school = term.school("Alder Hollow Elementary", 20);
  const auto day = term.day(school, "2026-10-06");
  const auto rechecked = term.child(school);
  const auto screened = term.child(school);
  for (auto child : {rechecked, screened}) {
    term.consent(child, ConsentState::yes);
    term.records.consents.back().value.term = term.make.id<roster::TermId>();
  }
  term.end(rechecked, day, DayEnd::recheckOnly);
  term.screen(screened, day);
  const auto at = term.totals().total;
  CHECK(at.formsBack == 0);
  CHECK(at.consented == 1);
  CHECK(at.screened == 1);
  CHECK(at.seenOnly == 0);
}

TEST_CASE("A child resealed after a recheck, whose screening chose no tooth, needed a sealant",
          "[case-346]") {
  // Truth by construction: two children, one chosen at the screening and sealed, one whose old
  // sealant the recheck had resealed. Before: sealed, of those needing: 2 of 1.
  SampleTerm term;
  const auto school = term.school("Elderbrook Middle", 131);
  const auto day = term.day(school, "2026-10-06");
  const auto chosen = term.child(school);
  term.screen(chosen, day, {test::toSeal(16)});
  term.place(chosen, day, 16);
  const auto resealed = term.child(school);
  term.screen(resealed, day);
  term.check(term.place(resealed, term.dayLastYear(school, "2025-10-14"), 16), day,
             followup::Held::lost);
  term.place(resealed, day, 16, chairside::PlacementType::reseal);
  const auto total = term.totals().total;
  CHECK(total.screened == 2);
  CHECK(total.needing == 2);
  CHECK(total.sealed == 2);
  test::methodsSay(std::to_string(total.sealed) + " of " + std::to_string(total.needing));
}

TEST_CASE("What was done without a screening this term is counted apart from need", "[case-515]") {
  // Truth by construction: 10 screened and in need, 9 of them sealed; 2 resealed at a recheck whom
  // no one screened, one of them with varnish. Before: needing 12 of 10 screened, sealed 11 of 12.
  SampleTerm term;
  const auto school = term.school("Elderbrook Middle", 131);
  const auto day = term.day(school, "2026-10-06");
  for (int i = 0; i < 10; ++i) {
    const auto child = term.child(school);
    term.screen(child, day, {test::toSeal(16)});
    if (i > 0) term.place(child, day, 16);
  }
  for (int i = 0; i < 2; ++i) {
    const auto child = term.child(school);
    term.check(term.place(child, term.dayLastYear(school, "2025-10-14"), 16), day,
               followup::Held::lost);
    term.place(child, day, 16, chairside::PlacementType::reseal);
    if (i == 0)
      term.records.varnishes.push_back(
          term.make.row(chairside::Varnish{child, day, term.make.id<kit::LotId>()}));
  }
  const auto totals = term.totals();
  const auto& all = totals.total;
  CHECK(all.screened == 10);
  CHECK(all.needing == 10);
  CHECK(all.sealed == 11);
  CHECK(all.sealedUnscreened == 2);
  CHECK(all.sealedInNeed() == 9);
  test::methodsSay(std::to_string(all.sealedInNeed()) + " of " + std::to_string(all.needing));
  CHECK(all.varnish == 1);
  CHECK(all.varnishUnscreened == 1);
  CHECK(all.couldNotTell == 0);
  const auto services = termTables(totals)[1];
  const auto text = toText(std::vector{services});
  CHECK(text.find("90.0") != std::string::npos);
  CHECK(services.notes.at(1) ==
        "Not screened this term: of sealed 2, of varnish 1. They are not in % of needing.");
}
