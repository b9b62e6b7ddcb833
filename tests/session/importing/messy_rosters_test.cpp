#include "session/importing/messy_rosters.h"

#include "session/importing/roster_draft.h"
#include "support/clinic.h"

#include <iomanip>
#include <iostream>

using namespace gk;
using gk::test::MessyRoster;
using gk::test::must;

namespace {

/// A clinic with children of invented names whom lists are held against.
struct KnownRoster : test::Clinic {
  KnownRoster() {
    other = must(session.enterSchool(by, {"Heron Bend Elementary", "HB"}));
    auto mina = entering("1043", "Mina", "Tolliver-Reed", "2019-03-14", "2", "6", school);
    mina.identity.guardians.push_back({"Rosa Tolliver", "mother", "000-555-0101", "English"});
    auto osei = entering("1044", "Osei", "Brackwater", "2019-02-03", "2", "6", school);
    osei.identity.studentId = "S-200";
    must(session.enrollRoster(by,
                              {mina, osei,
                               entering("1045", "Ada", "Quince", "2018-06-05", "3", "9", school),
                               entering("1046", "Ida", "Quince", "2018-06-05", "3", "9", school),
                               entering("1047", "Teo", "Saltmarsh", "2018-08-21", "3", "4", other)},
                              session::Confirmed::yes, session::Confirmed::yes));
  }

  static session::NewChild entering(const char* number, const char* first, const char* last,
                                    const char* born, const char* grade, const char* room,
                                    roster::SchoolId at) {
    const auto birth = must(base::Date::parse(born));
    session::NewChild child{{.number = roster::withCheckDigit(number),
                             .birth = {birth.year(), birth.month()},
                             .school = at,
                             .grade = grade,
                             .room = room,
                             .note = {}},
                            {.first = first, .last = last, .birth = birth, .room = room}};
    return child;
  }

  session::RosterAim aim() {
    for (const auto& row : must(session.terms()))
      if (row.id == term) return {row, school, clock.now().date()};
    FAIL("no term");
    std::abort();
  }

  roster::SchoolId other{base::Uuid{}};
};

struct Counted {
  std::size_t entering = 0, changed = 0, unchanged = 0, unsure = 0, held = 0, skipped = 0;
  bool isRefused = false;
  auto operator<=>(const Counted&) const = default;
};

std::ostream& operator<<(std::ostream& out, const Counted& one) {
  if (one.isRefused) return out << "refused";
  return out << one.entering << " new, " << one.changed << " changed, " << one.unchanged
             << " unchanged, " << one.unsure << " unsure, " << one.held << " held, " << one.skipped
             << " skipped";
}

Counted expected(const MessyRoster& one) {
  return {one.entering, one.changed, one.unchanged, one.unsure,
          one.held,     one.skipped, one.isRefused};
}

/// What came of it, with the problems of the rows that wait.
Counted countOf(KnownRoster& clinic, const MessyRoster& roster, std::string& problems) {
  const auto refused = Counted{.isRefused = true};
  auto draft = session::RosterDraft::open(clinic.session, roster.bytes, clinic.school);
  if (!draft) {
    problems = draft.error().detail;
    return refused;
  }
  auto layout = draft->layout();
  layout.dates = roster.dates;
  layout.early = roster.early;
  draft->setLayout(layout);
  if (const auto looked = draft->look(clinic.session, clinic.aim()); !looked) {
    problems = looked.error().detail;
    return refused;
  }
  const auto& plan = draft->plan();
  for (const auto& row : plan.held)
    for (const auto& problem : row.problems)
      problems +=
          "line " + std::to_string(row.line) + ", " + problem.where + ": " + problem.what + "\n";
  return {plan.entering.size(), plan.changed.size(), plan.unchanged,
          plan.pairs.size(),    plan.held.size(),    draft->reading().skipped.size()};
}

} // namespace

TEST_CASE("Every messy list gives the children, the held and the skipped rows that it should",
          "[case-270]") {
  KnownRoster clinic;
  const auto all = test::messyRosters();
  CHECK(all.size() >= 60);
  for (const auto& roster : all) {
    std::string problems;
    const auto counted = countOf(clinic, roster, problems);
    INFO(roster.what << ": " << counted << '\n' << problems);
    CHECK(counted == expected(roster));
    // A refusal or a problem repeats nothing of the list.
    for (const auto* name : {"Oake", "Sedge", "Tolliver", "Quince", "Brackwater", "Pia"})
      CHECK(problems.find(name) == std::string::npos);
  }
}

// For docs/methods.md: test_session "[roster-table]".
TEST_CASE("The messy lists as a table", "[.][roster-table]") {
  KnownRoster clinic;
  std::cout
      << "| List | Accepted new | Matched: changed | Matched: unchanged | Unsure pairs | Held | "
         "Skipped | Refused |\n|---|---|---|---|---|---|---|---|\n";
  for (const auto& roster : test::messyRosters()) {
    std::string problems;
    const auto one = countOf(clinic, roster, problems);
    std::cout << "| " << roster.what << " | " << one.entering << " | " << one.changed << " | "
              << one.unchanged << " | " << one.unsure << " | " << one.held << " | " << one.skipped
              << " | " << (one.isRefused ? "yes" : "") << " |\n";
  }
}
