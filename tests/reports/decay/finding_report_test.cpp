#include "reports/decay/finding_report.h"

#include "reports/print/render.h"
#include "reports/publish/published.h"
#include "reports/sample.h"
#include "reports/term/term_tables.h"
#include "support/known_truth.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::reports;
using chairside::Condition;
using chairside::Tri;
using chairside::Urgency;
using gk::test::SampleTerm;

namespace {

struct Term : SampleTerm {
  roster::SchoolId here = school("Cobble Lantern Elementary", 142);
  roster::DayId first = day(here, "2026-10-13");
  roster::DayId second = day(here, "2026-11-17");
};

} // namespace

TEST_CASE("Caries experience is untreated or treated decay, each child once by the worst finding") {
  Term term;
  const auto child = term.child(term.here);
  term.screen(child, term.first).treatedDecay = Tri::yes;
  auto& again = term.screen(child, term.second);
  again.untreatedDecay = Tri::yes;
  again.urgency = Urgency::urgent;
  for (int i = 0; i < 3; ++i)
    term.screen(term.child(term.here), term.first);

  const auto totals = findingTotals(term.records);
  REQUIRE(totals.schools.size() == 1);
  CHECK(totals.total.screened == 4);
  REQUIRE(totals.total.measures);
  CHECK(totals.total.measures->untreatedDecay->estimate == Approx(.25));
  CHECK(totals.total.measures->treatedDecay->estimate == Approx(.25));
  CHECK(totals.total.measures->cariesExperience->estimate == Approx(.25));
  CHECK(totals.total.measures->urgentNeed->estimate == Approx(.25));
  CHECK(totals.unit == ClusterUnit::children);
}

TEST_CASE("Sealants are those found before anything was placed, on permanent molars") {
  Term term;
  const auto sealed = term.child(term.here);
  term.screen(sealed, term.first, {test::found(16, Condition::sealedPart)});
  const auto byUs = term.child(term.here);
  term.screen(byUs, term.first, {test::toSeal(16)});
  term.screen(byUs, term.second, {test::found(16, Condition::sealedWhole)});
  const auto totals = findingTotals(term.records);
  CHECK(totals.total.measures->sealants->estimate == Approx(.5));
}

TEST_CASE("Sealants are not known where a molar could not be seen and none seen is sealed",
          "[case-366]") {
  // Truth by construction: of 20 children 5 have a sealant, of 10 none has, and of 5 one molar
  // could not be seen: 5 of 15 is 33.3 %. One who could not be seen in full has one all the same.
  Term term;
  for (int i = 0; i < 20; ++i) {
    auto other = test::found(26, Condition::sound);
    if (i < 1 || i >= 15) {
      other = test::found(26, Condition::notLookedAt);
      other.presence = chairside::Presence::cannotSee;
    }
    term.screen(term.child(term.here), term.first,
                {test::found(16, i < 5 ? Condition::sealedWhole : Condition::sound), other});
  }
  const auto totals = findingTotals(term.records);
  REQUIRE(totals.total.measures);
  CHECK(totals.total.measures->sealants->teeth == 15);
  CHECK(totals.total.measures->sealants->estimate == Approx(1 / 3.));
  CHECK(totals.total.couldNotTell == 0); // of decay
  CHECK(findingTable(totals).notes.back().find("of 20 screened: sealants 15.") !=
        std::string::npos);
}

TEST_CASE("Each measure is of the children for whom it is known", "[case-176]") {
  // Truth by construction: of 60 children 30 have untreated decay and need early care; of those
  // no one could tell whether anything had been filled. Needing care: 50.0 %.
  Term term;
  for (int i = 0; i < 60; ++i)
    if (auto& one = term.screen(term.child(term.here), term.first); i < 30) {
      one.untreatedDecay = Tri::yes;
      one.treatedDecay = Tri::cannotTell;
      one.urgency = Urgency::early;
    }
  const auto totals = findingTotals(term.records);
  CHECK(totals.total.screened == 60);
  CHECK(totals.total.couldNotTell == 30);
  REQUIRE(totals.total.measures);
  CHECK(totals.total.measures->anyNeed->estimate == Approx(.5));
  CHECK(totals.total.measures->untreatedDecay->estimate == Approx(.5));
  CHECK(totals.total.measures->cariesExperience->estimate == Approx(.5));
  CHECK(totals.total.measures->treatedDecay->teeth == 30);
  CHECK(totals.total.measures->treatedDecay->estimate == 0);
  test::methodsSay(base::percent(totals.total.measures->anyNeed->estimate) + "%");
  const auto table = findingTable(totals);
  CHECK(table.rows.back().at(2) == "30");
  CHECK(table.rows.back().at(7).text().starts_with("50.0"));
  CHECK(table.notes.back().find("of 60 screened: treated decay 30.") != std::string::npos);
}

TEST_CASE("Of how many children a school's shares are is said where they are shown") {
  Term term;
  const auto other = term.school("Alder Hollow Elementary", 118);
  const auto day = term.day(other, "2026-10-14");
  for (int i = 0; i < 20; ++i) {
    term.screen(term.child(other), day);
    if (auto& one = term.screen(term.child(term.here), term.first); i < 5)
      one.treatedDecay = Tri::cannotTell;
  }
  auto totals = findingTotals(term.records);
  REQUIRE(totals.schools.size() == 2);
  CHECK(findingTable(totals).notes.back().find("Cobble Lantern Elementary, of 20: treated decay") !=
        std::string::npos);
  for (auto& line : totals.schools)
    line.measures.reset();
  const auto note = findingTable(totals).notes.back();
  CHECK(note.find("of 40 screened: treated decay 35") != std::string::npos);
  CHECK(note.find("of 20") == std::string::npos);
  CHECK_FALSE(note.ends_with(" ."));
}

TEST_CASE("A term's findings are shares of the children for whom they were recorded, on every page",
          "[case-176]") {
  // Truth by construction: of 60 children 15 have untreated decay, 25 have none, and of 20 no one
  // could tell: 15 of 40 is 37.5 %. Urgency is recorded of each: 12 of 60 is 20.0 %.
  Term term;
  for (int i = 0; i < 60; ++i) {
    auto& one = term.screen(term.child(term.here), term.first);
    one.untreatedDecay = i < 15 ? Tri::yes : i < 40 ? Tri::no : Tri::cannotTell;
    if (i < 12) one.urgency = Urgency::urgent;
  }
  const auto totals = term.totals();
  CHECK(totals.total.couldNotTell == 20);
  const auto inHouse = termTables(totals).at(2);
  CHECK(textsOf(inHouse.rows.back()) ==
        std::vector<std::string>{"Total", "60", "15", "20", "37.5", "0", "12", "20.0"});
  const auto published = publish(totals).tables.at(2);
  CHECK(published.columns.at(3).heading == "Decay recorded");
  CHECK(textsOf(published.rows.back()) ==
        std::vector<std::string>{"Total", "60", "15", "40", "37.5", "0", "12", "20.0"});
  for (const auto* table : {&inHouse, &published}) {
    REQUIRE(partName(*table) == "Findings");
    for (const auto& page : {toText(std::span(table, 1)), toCsv(*table),
                             toHtml("Findings", std::span(table, 1), {})}) {
      INFO(page);
      CHECK(page.find("37.5") != std::string::npos);
      CHECK(page.find("25.0") == std::string::npos); // 15 of all 60
    }
  }
}

TEST_CASE("Where decay could be told of every child no page speaks of those it could not") {
  Term term;
  for (int i = 0; i < 60; ++i)
    if (auto& one = term.screen(term.child(term.here), term.first); i < 15)
      one.untreatedDecay = Tri::yes;
  const auto published = publish(term.totals()).tables.at(2);
  CHECK(published.columns.at(3).heading == "%");
  CHECK(published.rows.back().at(3) == "25.0");
}

TEST_CASE("Caries experience is known from one part that is yes or from two that are no") {
  Term term;
  const auto seen = [&](Tri untreated, Tri treated) {
    auto& one = term.screen(term.child(term.here), term.first);
    one.untreatedDecay = untreated;
    one.treatedDecay = treated;
  };
  seen(Tri::no, Tri::no);
  seen(Tri::yes, Tri::cannotTell);
  seen(Tri::cannotTell, Tri::yes);
  seen(Tri::no, Tri::cannotTell);
  seen(Tri::cannotTell, Tri::cannotTell);
  const auto totals = findingTotals(term.records);
  CHECK(totals.total.couldNotTell == 4);
  REQUIRE(totals.total.measures->cariesExperience);
  CHECK(totals.total.measures->cariesExperience->teeth == 3);
  CHECK(totals.total.measures->cariesExperience->retained == 2);
}

TEST_CASE("Of how many children a school's share is stands beside it where it is not all of them",
          "[case-176]") {
  // Truth by construction: of 10 children at each of two schools, at the second it could not be
  // told of 4 whether a decayed tooth had been filled.
  SampleTerm term;
  for (const auto* name : {"Alder", "Brindle"}) {
    const auto school = term.school(name, 50);
    const auto day = term.day(school, "2026-10-13");
    for (int i = 0; i < 10; ++i)
      if (auto& one = term.screen(term.child(school), day); i < 4 && *name == 'B')
        one.treatedDecay = Tri::cannotTell;
  }
  const auto known = findingTable(findingTotals(term.records)).notes.back();
  CHECK(known ==
        "Each share is of the students for whom it is known; of 20 screened: treated decay "
        "16, caries experience 16. Brindle, of 10: treated decay 6, caries experience 6.");
}

TEST_CASE("From four schools on the total takes schools as clusters and says so", "[case-414]") {
  SampleTerm term;
  const auto addSchool = [&](int s) {
    const auto school = term.school("School " + std::to_string(s), 50);
    const auto day = term.day(school, "2026-10-13");
    for (int i = 0; i < 10; ++i)
      if (auto& one = term.screen(term.child(school), day); i < s + 1)
        one.untreatedDecay = Tri::yes;
  };
  const auto noteOf = [&] { return findingTable(findingTotals(term.records)).notes.at(1); };
  addSchool(0);
  CHECK(noteOf().find("each student separately, as fewer than two schools were seen") !=
        std::string::npos);
  addSchool(4);
  const auto two = findingTotals(term.records);
  CHECK(two.unit == ClusterUnit::children);
  CHECK(two.isSchoolPlanned);
  // By hand: 1 and 5 of 10 a school, p .3, v = 2 / 20^2 x (2^2 + 2^2) = .04, 20 x .04 / .21. That
  // is more than the planned 1 + 9 x .05.
  CHECK(two.total.measures->untreatedDecay->designEffect == Approx(20 * .04 / .21));
  CHECK(noteOf().find("at least a planning value of 0.05 is assumed") != std::string::npos);
  addSchool(2);
  addSchool(8);
  const auto totals = findingTotals(term.records);
  CHECK(totals.unit == ClusterUnit::schools);
  CHECK(totals.total.measures->untreatedDecay->clusters == 4);
  CHECK(totals.total.measures->untreatedDecay->designEffect > 1.5); // the schools differ widely
  CHECK(noteOf().find("schools as clusters") != std::string::npos);
}

TEST_CASE("The attack rate goes school by school, the few drawn towards the many") {
  SampleTerm term;
  struct School {
    const char* name;
    int children;
    int affected;
  };
  for (const auto& [name, children, affected] :
       {School{"Alder", 60, 15}, School{"Brindle", 55, 12}, School{"Cobble", 50, 14},
        School{"Dunlin", 4, 3}}) {
    const auto school = term.school(name, 100);
    const auto day = term.day(school, "2026-10-13");
    for (int i = 0; i < children; ++i) {
      const auto child = term.child(school);
      term.records.children.back().value.birth = {2017, 3}; // nine years old
      term.screen(child, day,
                  {i < affected ? test::found(16, Condition::cavitated) : test::toSeal(16)});
    }
  }
  const auto attack = attackBySchool(term.records);
  REQUIRE(attack.rates);
  CHECK(attack.schools == std::vector<std::string>{"Alder", "Brindle", "Cobble", "Dunlin"});
  const auto& few = attack.rates->schools.at(3);
  REQUIRE(few.raw);
  CHECK(few.shrunken < few.raw->annual);
  CHECK(few.ownWeight < attack.rates->schools.at(0).ownWeight + 1e-12);
  REQUIRE(attack.profile);
  const auto table = attackTable(attack);
  CHECK(table.rows.size() == 4);
  const auto says = [&](const std::string& words) {
    return std::ranges::any_of(
        table.notes, [&](const auto& note) { return note.find(words) != std::string::npos; });
  };
  CHECK(says(", schools as clusters. Cavities averted in first molars use this rate"));
  CHECK(says("this CI leaves out what schools differ by."));
}

TEST_CASE("A term without a screening has tables without figures") {
  SampleTerm term;
  term.school("Cobble Lantern Elementary", 142);
  const auto tables = findingReport(term.records);
  REQUIRE(tables.size() == 2);
  CHECK(tables[0].rows.size() == 1); // the total alone
  CHECK(tables[1].rows.empty());
}
