#include "session/importing/roster_draft.h"
#include "support/clinic.h"

using namespace gk;
using base::ErrorCode;
using session::RosterAim;
using session::RosterChange;
using session::RosterDraft;
using test::codeOf;
using test::must;

namespace {

struct ListDesk : test::Clinic {
  RosterAim aim() {
    for (const auto& row : must(session.terms()))
      if (row.id == term) return {row, school, clock.now().date()};
    FAIL("no term");
    std::abort();
  }
  RosterDraft draft(const std::string& csv) {
    return must(RosterDraft::open(session, csv, school));
  }
  RosterDraft looked(const std::string& csv, std::vector<session::PairAnswer> answers = {}) {
    auto made = draft(csv);
    auto how = aim();
    how.answers = std::move(answers);
    must(made.look(session, how));
    return made;
  }
  std::vector<roster::ChildId> import(const std::string& csv) {
    return must(looked(csv).write(session, by));
  }
  roster::ChildId found(const std::string& name) {
    const auto all = must(session.findChildren(name));
    REQUIRE(all.size() == 1);
    return all.front().child;
  }
  /// Changes with whatever is written.
  std::string edition() { return session.edition(); }
};

const std::string lastYear = "Student ID,First,Last,DOB,Grade,Room,Guardian,Phone\n"
                             "70101,Pia,Oake,2019-05-02,2,4,Ada Oake,000-555-0142\n"
                             "70102,Jo,Sedge,2019-06-03,2,4,Ben Sedge,000-555-0143\n"
                             "70103,Ned,Fern,2018-07-04,3,9,Cy Fern,000-555-0144\n";

} // namespace

TEST_CASE("The same list twice changes nothing, and is no act", "[case-273]") {
  ListDesk desk;
  desk.import(lastYear);
  const auto before = desk.edition();
  const auto again = desk.looked(lastYear);
  CHECK(again.plan().unchanged == 3);
  CHECK(again.plan().held.empty());
  CHECK(must(again.write(desk.session, desk.by)).empty());
  CHECK(desk.edition() == before);
}

TEST_CASE("Next year's list finds last year's children with their history", "[case-273]") {
  ListDesk desk;
  desk.import(lastYear);
  const auto pia = desk.found("pia");
  must(desk.session.enterConsent(desk.by, desk.form(pia)));
  desk.standardVisit(pia);
  const auto sealed = must(desk.session.placements(pia)).size();
  CHECK(sealed == 4);
  const std::string thisYear = "Student Number;Name;Birthdate;Gr;HR;Parent;Home Phone\n"
                               "70101;Oake, Pia;5/2/2019;3rd;12;Ada Oake;000-555-0199\n"
                               "70102;Marlowe, Jo;6/3/2019;03;12;Ben Sedge;000-555-0143\n"
                               "70104;Moss, Suri;8/13/2019;3;12;;\n";
  const auto next = desk.looked(thisYear);
  const auto& plan = next.plan();
  CHECK(plan.entering.size() == 1);
  REQUIRE(plan.changed.size() == 2);
  CHECK(plan.count(RosterChange::grade) == 2);
  CHECK(plan.count(RosterChange::room) == 2);
  CHECK(plan.count(RosterChange::phone) == 1);
  CHECK(plan.count(RosterChange::name) == 1);
  CHECK(session::countsOf(plan) ==
        "1 new, 2 changed (grade 2, room 2, name 1, phone 1), 0 unchanged, 1 not on this list");
  must(next.write(desk.session, desk.by));
  CHECK(must(desk.session.child(pia)).value.grade == "3");
  CHECK(must(desk.session.identity(pia)).guardians.front().phone == "000-555-0199");
  CHECK(must(desk.session.placements(pia)).size() == sealed);
  const auto jo = desk.found("jo marlowe");
  CHECK(must(desk.session.identityRevisions(jo)).front().identity.last == "Sedge");
  CHECK(must(desk.session.identityRevisions(jo)).size() == 2);
}

TEST_CASE("An import that changed children is one act, and is taken back as one", "[case-273]") {
  ListDesk desk;
  desk.import(lastYear);
  const auto pia = desk.found("pia");
  const auto card = must(desk.session.child(pia)).value;
  const auto who = must(desk.session.identity(pia));
  const std::string changed = "Student ID,First,Last,DOB,Grade,Room,Guardian,Phone,Allergies\n"
                              "70101,Pia,Oake,2019-05-02,2,5,Ada Oake,000-555-0150,latex\n"
                              "70105,Ivo,Reed,2019-09-06,2,5,,,\n";
  desk.import(changed);
  CHECK(must(desk.session.child(pia)).value.room == "5");
  REQUIRE(must(desk.session.flags(pia)).size() == 1);
  const auto ivo = desk.found("ivo");
  SECTION("by a child that it changed") {
    must(desk.session.takeBackImport(desk.by, pia, "the wrong list"));
  }
  SECTION("by a child that it brought") {
    must(desk.session.takeBackImport(desk.by, ivo, "the wrong list"));
  }
  CHECK(must(desk.session.child(pia)).value == card);
  CHECK(must(desk.session.identity(pia)) == who);
  CHECK(must(desk.session.flags(pia)).empty());
  CHECK(codeOf(desk.session.child(ivo)) == ErrorCode::notFound);
  // The first import is another act, and stays.
  CHECK(must(desk.session.findChildren("sedge")).size() == 1);
  const auto again = desk.looked(changed);
  CHECK(again.plan().changed.size() == 1);
  CHECK(again.plan().entering.size() == 1);
}

TEST_CASE("An import on which something hangs stays", "[case-273]") {
  ListDesk desk;
  desk.import(lastYear);
  desk.import("Student ID,First,Last,DOB,Grade,Room\n70101,Pia,Oake,2019-05-02,2,5\n");
  const auto pia = desk.found("pia");
  must(desk.session.enterConsent(desk.by, desk.form(pia)));
  CHECK(codeOf(desk.session.takeBackImport(desk.by, pia, "the wrong list")) ==
        ErrorCode::ruleReason);
  must(desk.session.moveChild(desk.by, desk.found("sedge"), desk.school, "2", "8", "moved"));
  CHECK(must(desk.session.child(pia)).value.room == "5");
}

TEST_CASE("A child changed since the list was looked at is not overwritten", "[case-273]") {
  ListDesk desk;
  desk.import(lastYear);
  const auto pia = desk.found("pia");
  const auto made = desk.looked("Student ID,First,Last,DOB,Grade,Room\n"
                                "70101,Pia,Oake,2019-05-02,2,5\n70106,Ivo,Reed,2019-09-06,2,5\n");
  must(desk.session.moveChild(desk.by, pia, desk.school, "2", "7", "moved rooms"));
  CHECK(codeOf(made.write(desk.session, desk.by)) == ErrorCode::recordChanged);
  CHECK(must(desk.session.child(pia)).value.room == "7");
  CHECK(must(desk.session.findChildren("ivo")).empty());
}

TEST_CASE("A pair that is unsure waits until someone says yes or no", "[case-272]") {
  ListDesk desk;
  desk.import(lastYear);
  const auto pia = desk.found("pia");
  const std::string renamed = "First,Last,DOB,Grade,Room\nPia,Marlowe,2019-05-02,2,4\n";
  const auto made = desk.looked(renamed);
  REQUIRE(made.plan().pairs.size() == 1);
  const auto& pair = made.plan().pairs.front();
  CHECK(pair.child == pia);
  CHECK(pair.listed.last == "Marlowe");
  CHECK(pair.known.last == "Oake");
  CHECK(made.plan().held.size() == 1);
  // No one said: nothing is written of it.
  CHECK(must(made.write(desk.session, desk.by)).empty());

  SECTION("the same child") {
    const auto same = desk.looked(renamed, {{pair.pair.row, pia, true}});
    REQUIRE(same.plan().changed.size() == 1);
    CHECK(same.plan().changed.front().what == session::RosterChanges{RosterChange::name});
    must(same.write(desk.session, desk.by));
    CHECK(must(desk.session.identity(pia)).last == "Marlowe");
    CHECK(must(desk.session.identity(pia)).studentId == "70101");
  }
  SECTION("another child") {
    const auto other = desk.looked(renamed, {{pair.pair.row, pia, false}});
    CHECK(other.plan().entering.size() == 1);
    CHECK(must(other.write(desk.session, desk.by)).size() == 1);
    CHECK(must(desk.session.identity(pia)).last == "Oake");
  }
}

TEST_CASE("The columns of a school's lists are remembered with the import", "[case-273]") {
  ListDesk desk;
  const std::string odd = "Kid;Came into the world;Gr\nOake, Pia;4/3/2019;2\n";
  auto first = desk.draft(odd);
  CHECK(codeOf(first.look(desk.session, desk.aim())) == ErrorCode::csvMalformed);
  auto layout = first.layout();
  layout.heading = 0;
  layout.columns = {roster::RosterColumn::wholeName, roster::RosterColumn::birthDate,
                    roster::RosterColumn::grade};
  first.setLayout(layout);
  must(first.look(desk.session, desk.aim()));
  REQUIRE(first.reading().question);
  CHECK(first.reading().question->examples.size() == 1);
  CHECK(first.plan().held.size() == 1);
  layout.dates = roster::DateOrder::dayFirst;
  first.setLayout(layout);
  must(first.look(desk.session, desk.aim()));
  must(first.write(desk.session, desk.by));
  CHECK(must(desk.session.identity(desk.found("pia"))).birth ==
        must(base::Date::parse("2019-03-04")));

  const auto next = desk.looked("Kid;Came into the world;Gr\nSedge, Jo;5/4/2019;2\n");
  CHECK(next.plan().entering.size() == 1);
  CHECK(next.plan().entering.front().identity.birth == must(base::Date::parse("2019-04-05")));
}

TEST_CASE("A row that waits is put right in place and taken then", "[case-271]") {
  ListDesk desk;
  auto made = desk.looked("First,Last,DOB,Grade\nPia,Oake,2019-05-02,2\nJo,Sedge,2019-06-31,2\n");
  REQUIRE(made.plan().held.size() == 1);
  CHECK(made.plan().entering.size() == 1);
  CHECK(made.problems().find("Jo,Sedge,2019-06-31,2,\"line 3, birth date: not a day that exists; "
                             "write it like 2019-03-04\"") != std::string::npos);
  must(made.write(desk.session, desk.by));
  made.correct(made.plan().held.front().row, 2, " 2019-06-30 ");
  must(made.look(desk.session, desk.aim()));
  CHECK(made.plan().held.empty());
  CHECK(made.plan().unchanged == 1);
  CHECK(must(made.write(desk.session, desk.by)).size() == 1);
  CHECK(must(desk.session.findChildren("sedge")).size() == 1);
}

TEST_CASE("Health on a list becomes an open alert once, and stays resolved", "[case-274]") {
  ListDesk desk;
  const std::string list = "First,Last,DOB,Grade,Allergies,Health\n"
                           "Pia,Oake,2019-05-02,2,Latex,asthma\nJo,Sedge,2019-06-03,2,none,\n";
  desk.import(list);
  const auto pia = desk.found("pia");
  const auto flags = must(desk.session.flags(pia));
  REQUIRE(flags.size() == 2);
  CHECK(flags[0].value.kind == roster::FlagKind::latexAllergy);
  CHECK(flags[0].value.action == roster::FlagAction::stop);
  CHECK(flags[0].value.detail == "school's list, to be confirmed: Latex");
  CHECK_FALSE(flags[0].value.resolved);
  CHECK(must(desk.session.flags(desk.found("sedge"))).empty());
  must(desk.session.resolveFlag(desk.by, flags[0], "the family says no"));
  CHECK(desk.looked(list).plan().unchanged == 2);
}

TEST_CASE("Year two of a school: 180 children, 30 moved rooms, 5 renamed, 20 new, 12 gone",
          "[case-273]") {
  ListDesk desk;
  const auto listOf = [](int from, int until, bool isYearTwo) {
    std::string csv = "Student ID,First,Last,DOB,Grade,Room\n";
    for (int i = from; i < until; ++i) {
      const auto born = must(base::Date::of(2018, 9, 1)).plusDays(i * 2);
      std::string first = "A";
      for (int rest = i; rest > 0; rest /= 20)
        first += static_cast<char>('b' + rest % 20);
      const bool isRenamed = isYearTwo && i % 36 == 17;
      const bool isMoved = isYearTwo && i % 6 == 1 && i / 6 < 30;
      csv +=
          std::to_string(60000 + i) + "," + first + "," +
          (isRenamed ? "Marlowe" : "Oake" + std::string(static_cast<std::size_t>(1 + i % 3), 'n')) +
          "," + born.iso() + ",2," + (isMoved ? "12" : "4") + "\n";
    }
    return csv;
  };
  CHECK(desk.import(listOf(0, 180, false)).size() == 180);
  auto yearTwo = listOf(0, 168, true);
  const auto more = listOf(180, 200, true);
  yearTwo += more.substr(more.find('\n') + 1);
  const auto next = desk.looked(yearTwo);
  const auto& plan = next.plan();
  CHECK(plan.entering.size() == 20);
  CHECK(plan.count(RosterChange::name) == 5);
  CHECK(plan.count(RosterChange::room) == 28); // two of the 30 are among the gone
  CHECK(plan.missing.size() == 12);
  CHECK(plan.held.empty());
  must(next.write(desk.session, desk.by));
  const auto before = desk.edition();
  const auto again = desk.looked(yearTwo);
  CHECK(again.plan().unchanged == 188);
  must(again.write(desk.session, desk.by));
  CHECK(desk.edition() == before);
}
