#include "reports/funder/state_report.h"
#include "reports/print/render.h"
#include "reports/publish/issue.h"
#include "reports/records/one_term.h"
#include "reports/report.h"
#include "reports/sample.h"
#include "support/known_truth.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace gk;
using namespace gk::test;
using namespace gk::reports;

namespace {

/// Screened, still to be seen, and without consent: enough of each that nothing hides.
void addSchool(SampleTerm& term, const std::string& name, int screened) {
  const auto school = term.school(name, 3 * screened);
  const auto day = term.day(school, "2026-10-06");
  for (int i = 0; i < 15; ++i) {
    term.consent(term.child(school), roster::ConsentState::yes);
    term.consent(term.child(school), roster::ConsentState::no);
  }
  for (int i = 0; i < screened; ++i) {
    const auto child = term.child(school);
    term.consent(child, roster::ConsentState::yes);
    term.screen(child, day);
  }
}

ReportOptions pageOptions() {
  ReportOptions options;
  options.today = date("2026-12-18");
  options.page.program = "Larkmere County School Sealant Team";
  return options;
}

/// What went out of Fall 2025: all schools together.
Release lastTerm() {
  Release release;
  release.under = 10;
  release.term.push_back({{},
                          {{Figure::enrolled, {400, Showing::number}},
                           {Figure::consented, {200, Showing::number}},
                           {Figure::screened, {150, Showing::number}},
                           {Figure::untreated, {4, Showing::fewer}},
                           {Figure::urgent, {31, Showing::withheld}}}});
  return release;
}

std::string textOf(const std::vector<Table>& tables) {
  return toText(tables);
}

bool holds(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

} // namespace

TEST_CASE("The funder's page says who, three sentences, four numbers and two pictures or why not",
          "[case-330]") {
  SampleTerm term;
  addSchool(term, "Alder Hollow Elementary", 40);
  addSchool(term, "Cobble Lantern Elementary", 50);
  const auto page = reportOf(ReportKind::funder, term.records, pageOptions()).front();
  REQUIRE(page.front);
  const auto& front = *page.front;
  CHECK(front.name == "Larkmere County School Sealant Team");
  CHECK(holds(front.over, "summary for funders"));
  CHECK(front.sentences.size() == 3);
  CHECK(front.figures.size() == 4);
  CHECK(front.figures.front().number == "90");
  CHECK(front.figures.front().words == "students screened, 75.0% of consented");
  CHECK(front.figures.front().before.empty());
  REQUIRE_FALSE(front.pictures.empty());
  CHECK(front.pictures.front().plot.y.names.front() == "Enrolled");
}

TEST_CASE("Last term stands beside this one as it went out, and what was hidden then stays so",
          "[case-330]") {
  SampleTerm term;
  addSchool(term, "Alder Hollow Elementary", 40);
  addSchool(term, "Cobble Lantern Elementary", 50);
  auto options = pageOptions();
  options.page.before = EarlierTerm{"Fall 2025", lastTerm()};
  const auto page = reportOf(ReportKind::funder, term.records, options).front();
  CHECK(page.front->figures.front().before == "Fall 2025: 150");
  const auto at = columnOf(page, keyOf("Fall 2025"));
  const auto was = [&](const std::string& figure) {
    const auto row =
        std::ranges::find_if(page.rows, [&](const auto& one) { return one[1] == figure; });
    REQUIRE(row != page.rows.end());
    return (*row)[at].text();
  };
  CHECK(was("Consented, of enrolled") == "50.0");
  CHECK(was("Screened, of consented") == "75.0");
  CHECK(was("Untreated decay, of screened") == "suppressed");
  CHECK(was("Urgent care, of screened") == "suppressed");
  // It is no figure of this issue: that it stands there makes no new version.
  const auto without = reportOf(ReportKind::funder, term.records, pageOptions());
  CHECK(figuresOf(std::vector{page}) == figuresOf(without));
}

TEST_CASE("A principal's page has its own school, hides what the tables hide, and no other school",
          "[case-332]") {
  SampleTerm term;
  addSchool(term, "Alder Hollow Elementary", 40);
  addSchool(term, "Cobble Lantern Elementary", 50);
  auto options = pageOptions();
  const auto all = reportOf(ReportKind::schoolPage, term.records, options);
  REQUIRE(all.size() == 2);
  options.school = term.records.schools.front().id;
  const auto one = reportOf(ReportKind::schoolPage, term.records, options);
  REQUIRE(one.size() == 1);
  const auto text = textOf(one);
  CHECK(holds(text, "Alder Hollow Elementary"));
  CHECK_FALSE(holds(text, "Cobble Lantern"));
  CHECK(holds(text, "To protect students, counts of 1 to 9 read \"fewer than 10\""));
  const auto row = [&](const std::string& figure) {
    const auto at = std::ranges::find_if(one.front().rows,
                                         [&](const auto& cells) { return cells[0] == figure; });
    REQUIRE(at != one.front().rows.end());
    return *at;
  };
  CHECK(row("Screened, of consented")[1] == "40");
  // What is issued is what the tables of all schools tell.
  const auto annex = makeReport(ReportKind::funderAnnex, term.records, pageOptions());
  const auto made = makeReport(ReportKind::schoolPage, term.records, options);
  CHECK(made.release == annex.release);
}

TEST_CASE("Untreated decay stands beside the students that its percentage is of", "[case-389]") {
  // By hand: 60 screened; 20 with untreated decay, 25 without, of 15 it could not be told. 20 of 45
  // are 44.4%; an earlier version printed "20 of 60" beside it, which is 33.3%.
  SampleTerm term;
  const auto school = term.school("Alder Hollow Elementary", 180);
  const auto day = term.day(school, "2026-10-06");
  for (int i = 0; i < 15; ++i) {
    term.consent(term.child(school), roster::ConsentState::yes);
    term.consent(term.child(school), roster::ConsentState::no);
  }
  for (int i = 0; i < 60; ++i) {
    const auto child = term.child(school);
    term.consent(child, roster::ConsentState::yes);
    auto& seen = term.screen(child, day);
    using enum chairside::Tri;
    seen.untreatedDecay = i < 20 ? yes : i < 45 ? no : cannotTell;
    seen.urgency = i < 20 ? chairside::Urgency::early : chairside::Urgency::none;
  }
  for (const auto kind : {ReportKind::funder, ReportKind::schoolPage}) {
    const auto page = reportOf(kind, term.records, pageOptions()).front();
    const auto figure = columnOf(page, "figure");
    const auto at = std::ranges::find_if(page.rows, [&](const Cells& row) {
      return row[figure] == "Untreated decay, of those recorded";
    });
    REQUIRE(at != page.rows.end());
    CHECK((*at)[figure + 1].text() == "20");
    CHECK((*at)[figure + 2].text() == "45");
    CHECK((*at)[figure + 3].text() == "44.4");
    test::methodsSay((*at)[figure + 1].text() + " of " + (*at)[figure + 2].text() + ", " +
                     (*at)[figure + 3].text() + "%");
  }
}

TEST_CASE("A school that stands in one row with others has no numbers of its own", "[case-332]") {
  SampleTerm term;
  addSchool(term, "Alder Hollow Elementary", 40);
  addSchool(term, "Brindle Quay Elementary", 30);
  addSchool(term, "Cobble Lantern Elementary", 50);
  auto options = pageOptions();
  const auto& schools = term.records.schools;
  options.groups = {{schools[0].id.text(), schools[1].id.text()}};
  options.school = schools[0].id;
  const auto page = reportOf(ReportKind::schoolPage, term.records, options).front();
  CHECK(page.front->figures.empty());
  CHECK(holds(textOf({page}), "shown together with those of others"));
  CHECK(page.rows.size() == 1);
}

TEST_CASE("What is said to be retained is of the sealants that could be judged", "[case-342]") {
  // By hand: 100 due, 75 checked, of which 15 could not be judged; 45 of the other 60 are whole,
  // 75.0%. Of the 75 that were checked it would be 60.0%.
  const auto pagesOf = [](int whole, int lost, int unjudged) {
    SampleTerm term;
    addSchool(term, "Alder Hollow Elementary", 60);
    const auto school = term.records.schools.front().id;
    const auto then = term.dayLastYear(school, "2025-10-14");
    const auto now = term.day(school, "2026-10-13");
    for (int i = 0; i < 100; ++i) {
      const auto placement = term.place(term.child(school), then, 16);
      if (i < whole + lost + unjudged)
        term.check(placement, now,
                   i < whole          ? followup::Held::whole
                   : i < whole + lost ? followup::Held::lost
                                      : followup::Held::cannotAssess);
    }
    return std::pair(textOf(reportOf(ReportKind::funder, term.records, pageOptions())),
                     textOf(reportOf(ReportKind::schoolPage, term.records, pageOptions())));
  };
  const auto [funder, school] = pagesOf(45, 15, 15);
  CHECK(holds(funder, "placed a year ago and assessed on these dates, 75.0% were still"));
  CHECK(holds(school, "a year ago and assessed on these dates, 75.0% were still"));
  for (const auto* page : {&funder, &school}) {
    CHECK(holds(*page, "75.0% of 60 assessed sealants were fully retained."));
    CHECK_FALSE(holds(*page, "checked"));
  }
  // Checked they were; an earlier version said that none was.
  CHECK_FALSE(holds(pagesOf(0, 0, 75).first, "checked"));
}

TEST_CASE("A principal's page that hides numbers claims no care, and that no number is small",
          "[case-332]") {
  SampleTerm term;
  addSchool(term, "Alder Hollow Elementary", 40);
  addSchool(term, "Cobble Lantern Elementary", 50);
  const auto pageOf = [&] {
    auto options = pageOptions();
    options.school = term.records.schools.front().id;
    return textOf(reportOf(ReportKind::schoolPage, term.records, options));
  };
  CHECK_FALSE(holds(pageOf(), "Below is what we did"));
  for (std::size_t i = 0; i < 4; ++i) // of those screened
    term.place(term.records.children.at(30 + i).id, term.records.days.front().id, 16);
  const auto few = pageOf();
  CHECK(holds(few, "Below is what we did at your school; to protect students, some numbers are not "
                   "shown."));
  CHECK_FALSE(holds(few, "sealed their teeth"));
  CHECK_FALSE(holds(few, "too small"));
}

TEST_CASE("Where who took part is shown as counted, each page that speaks of small counts says so",
          "[case-83]") {
  SampleTerm term;
  addSchool(term, "Alder Hollow Elementary", 40);
  addSchool(term, "Cobble Lantern Elementary", 50);
  const std::string words = "is shown as counted, however few.";
  for (const auto kind : {ReportKind::funder, ReportKind::funderAnnex, ReportKind::schoolPage}) {
    CAPTURE(base::nameOf(kind));
    auto options = pageOptions();
    CHECK_FALSE(holds(textOf(reportOf(kind, term.records, options)), words));
    options.suppression = SuppressionRule::under(10, BySchool::services).value();
    const auto openly = textOf(reportOf(kind, term.records, options));
    CHECK(holds(openly, "1 to 9"));
    CHECK(holds(openly, words));
  }
}

TEST_CASE("What leaves the program bears no mark; every other report says that it is internal",
          "[case-333]") {
  for (std::size_t i = 0; i < base::enumCount<ReportKind>; ++i) {
    const auto kind = static_cast<ReportKind>(i);
    CHECK(markOf(kind).empty() == isPublished(kind));
  }
  const std::vector<Table> tables{{"T", {{"A"}}, {{"1"}}, {}}};
  CHECK(holds(toHtml("T", tables, {}, internalMark), ">Internal: contains small numbers</p>"));
  CHECK(toText(tables, {}, internalMark).starts_with("Internal: contains small numbers\n"));
}

TEST_CASE("Notes that several tables have stand once; a single row is a list", "[case-334]") {
  const std::vector<Table> tables{
      {"One", {{"A"}}, {{"1"}}, {"Found students only.", "Of one."}},
      {"Two", {{"A"}, {"B"}, {"C"}, {"D"}}, {{"1", "2", "3", "4"}}, {"Found students only."}}};
  for (const auto& text : {toText(tables), toHtml("Report", tables)}) {
    const auto first = text.find("Found students only.");
    REQUIRE(first != std::string::npos);
    CHECK(text.find("Found students only.", first + 1) == std::string::npos);
  }
  CHECK(holds(toHtml("Report", tables), "<div><dt>B</dt><dd>2</dd></div>"));
  CHECK(holds(toText(tables), "B  2\n"));
}

TEST_CASE("A term of which nothing is known yet hides nothing of no one", "[case-391]") {
  // An earlier version said of a term without a school that it was not to be published, and hid
  // how many of no one had consented.
  const auto empty = makeReport(ReportKind::funder, SampleTerm().records, pageOptions());
  CHECK(empty.exposed == 0);
  CHECK_FALSE(holds(textOf(empty.tables), "NOT TO BE PUBLISHED"));
  SampleTerm term;
  term.school("Alder Hollow Elementary", 90);
  const auto planned = makeReport(ReportKind::funder, term.records, pageOptions());
  CHECK(planned.exposed == 0);
  CHECK(planned.tables.front().rows.front()[2] == "0"); // consented, of 90
  CHECK_FALSE(holds(textOf(planned.tables), " suppressed "));
  // One child is too few however it is hidden, and no earlier table is blamed for it.
  const auto child = term.child(term.records.schools.front().id);
  term.consent(child, roster::ConsentState::yes);
  term.screen(child, term.day(term.records.schools.front().id, "2026-10-06"));
  const auto one = textOf(reportOf(ReportKind::funderAnnex, term.records, pageOptions()));
  CHECK_FALSE(holds(one, "earlier tables showed"));
}

TEST_CASE("When its short-term checks were made is said of a year as it is", "[case-406]") {
  const auto saidOf = [](const std::string& placedOn) {
    gk::test::SampleTerm term;
    const auto here = term.school("Cobble Lantern Elementary", 142);
    const auto placed = term.dayLastYear(here, placedOn);
    const auto looked = term.day(here, "2026-10-13");
    for (int i = 0; i < 40; ++i) {
      const auto child = term.child(here);
      term.screen(child, looked);
      term.check(term.place(child, placed, 16), looked,
                 i < 20 ? gk::followup::Held::whole : gk::followup::Held::lost)
          .kind = gk::followup::CheckKind::shortTermSample;
    }
    const gk::roster::ProgramYear year{"2026-27", gk::roster::YearKind::fiscal,
                                       gk::test::date("2026-07-01"), gk::test::date("2027-06-30")};
    const auto records = gk::reports::asOneTerm({term.records}, year, gk::test::date("2026-12-18"));
    const auto made = gk::reports::stateReport(records, {year, "Larkmere Seals", "Larkmere County"},
                                               gk::reports::SuppressionRule{}, {}, {});
    for (const auto& table : made.tables)
      if (table.title.starts_with("Short-term checks")) return table.notes.front();
    return std::string("no such table");
  };
  const auto soon = saidOf("2026-09-15");
  CHECK(soon.starts_with("Made on these dates. All within two months of placement. "));
  CHECK(soon.find("this term") == std::string::npos);
  const auto late = saidOf("2026-03-28");
  CHECK(late.starts_with("Made on these dates. Made 6 to 7 months after placement"));
  CHECK(late.find("within two months") == std::string::npos);
  CHECK(late.find("missing in the one-year figures too") != std::string::npos);
}
