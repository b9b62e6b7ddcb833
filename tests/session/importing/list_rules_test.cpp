#include "session/importing/changed_words.h"
#include "session/importing/roster_draft.h"
#include "support/clinic.h"

#include <algorithm>

using namespace gk;
using session::RosterChange;
using session::RosterDraft;
using test::must;

// What a list may and may not say of a student of the logbook.
namespace {

struct SchoolDesk : test::Clinic {
  RosterDraft looked(const std::string& csv, std::vector<session::PairAnswer> answers = {}) {
    auto made = must(RosterDraft::open(session, csv, school));
    for (const auto& row : must(session.terms()))
      if (row.id == term)
        must(
            made.look(session, {row, school, clock.now().date(), true, false, std::move(answers)}));
    return made;
  }
  void import(const std::string& csv) { must(looked(csv).write(session, by)); }
  roster::ChildId found(const std::string& name) {
    const auto all = must(session.findChildren(name));
    REQUIRE(all.size() == 1);
    return all.front().child;
  }
  std::string languageOf(const std::string& name) {
    const auto who = must(session.identity(found(name)));
    return who.guardians.empty() ? "none" : who.guardians.front().language;
  }
};

const std::string idList = "Student ID,First,Last,DOB,Grade,Room\n";

} // namespace

TEST_CASE("A student ID that another student has now is a pair, and nothing is overwritten",
          "[case-502]") {
  SchoolDesk desk;
  desk.import(idList + "70101,Pia,Oake,2019-05-02,2,4\n");
  const auto pia = desk.found("pia");
  const auto sister = idList + "70101,Rosalind,Oake,2017-11-02,4,9\n";
  const auto made = desk.looked(sister);
  REQUIRE(made.plan().pairs.size() == 1);
  CHECK(made.plan().changed.empty());
  CHECK(must(made.write(desk.session, desk.by)).empty());
  CHECK(must(desk.session.identity(pia)).first == "Pia");
  const auto other = desk.looked(sister, {{made.plan().pairs.front().pair.row, pia, false}});
  CHECK(must(other.write(desk.session, desk.by)).size() == 1);
  CHECK(must(desk.session.identity(pia)).first == "Pia");
  // The ID is now on two cards, and says of neither who it is.
  CHECK(desk.looked(idList + "70101,Pia,Oake,2019-05-02,2,4\n").plan().unchanged == 1);
  CHECK(desk.looked(idList + "70101,Pia,Marlowe,2019-05-02,2,4\n").plan().pairs.size() == 1);
}

TEST_CASE("Students who share a broken ID are each themselves", "[case-502]") {
  SchoolDesk desk;
  const auto list = idList + "#N/A,Pia,Oake,2019-05-02,2,4\n#N/A,Jo,Sedge,2019-06-03,2,4\n"
                             "1.00235E+09,Ned,Fern,2019-07-04,2,4\n"
                             "1.00235E+09,Suri,Moss,2019-08-05,2,4\n";
  desk.import(list);
  CHECK(must(desk.session.identity(desk.found("pia"))).studentId.empty());
  const auto again = desk.looked(list);
  CHECK(again.plan().unchanged == 4);
  CHECK(again.plan().held.empty());
  CHECK(again.notes().back() ==
        "4 student IDs read as blank: no ID, such as #N/A, 0 or 1.00235E+09.");
}

TEST_CASE("Zeros in front of a student ID come and go, and change nothing", "[case-502]") {
  SchoolDesk desk;
  desk.import(idList + "0070101,Pia,Oake,2019-05-02,2,4\n");
  for (const std::string id : {"70101", "=\"0070101\"", "'0070101", "70101.0"}) {
    INFO(id);
    const auto again = desk.looked(idList + id + ",Pia,Marlowe,2019-05-02,2,4\n");
    REQUIRE(again.plan().changed.size() == 1);
    CHECK(again.plan().changed.front().what == session::RosterChanges{RosterChange::name});
  }
}

TEST_CASE("Several allergies of one cell are several alerts", "[case-503]") {
  SchoolDesk desk;
  desk.import("First,Last,DOB,Grade,Allergies\nPia,Oake,2019-05-02,2,\"Latex, acrylic; asthma\"\n"
              "Jo,Sedge,2019-06-03,2,No latex allergy\n");
  const auto flags = must(desk.session.flags(desk.found("pia")));
  REQUIRE(flags.size() == 3);
  std::size_t stops = 0;
  for (const auto& flag : flags)
    if (flag.value.action == roster::FlagAction::stop) ++stops;
  CHECK(stops == 2);
  CHECK(must(desk.session.flags(desk.found("sedge"))).empty());
}

TEST_CASE("A language without a guardian is kept, and goes to whoever is named first",
          "[case-504]") {
  SchoolDesk desk;
  desk.import("First,Last,DOB,Grade,Home Language\nPia,Oake,2019-05-02,2,spa\n"
              "Jo,Sedge,2019-06-03,2,\n");
  CHECK(desk.languageOf("pia") == "Spanish");
  CHECK(desk.languageOf("sedge") == "none");
  const std::string named = "First,Last,DOB,Grade,Language\nPia,Oake,2019-05-02,2,Español\n"
                            "Jo,Sedge,2019-06-03,2,Spanish; Castilian\n";
  const auto made = desk.looked(named);
  CHECK(made.plan().unchanged == 1);
  CHECK(made.plan().changed.size() == 1);
  must(made.write(desk.session, desk.by));
  CHECK(desk.languageOf("sedge") == "Spanish");
  CHECK(desk.looked(named).plan().unchanged == 2);
  desk.import("First,Last,DOB,Grade,Guardian,Phone\nPia,Oake,2019-05-02,2,Ada Oake,000-555-0142\n");
  const auto who = must(desk.session.identity(desk.found("pia")));
  REQUIRE(who.guardians.size() == 1);
  CHECK(who.guardians.front().name == "Ada Oake");
  CHECK(who.guardians.front().language == "Spanish");
}

TEST_CASE("Last year's grade is a year on when a new list is held against it", "[case-509]") {
  SchoolDesk desk;
  desk.import(idList + "1,Pia,Oake,2019-05-02,2,4\n3,Jo,Sedge,2018-06-03,3,4\n"
                       "5,Ned,Fern,2016-07-04,5,4\n");
  const auto list = idList + "77,Suri,Moss,2019-08-05,3,4\n78,Ivo,Reed,2018-09-06,4,4\n";
  const auto grades = [](const std::vector<session::MissingChild>& all) {
    std::vector<std::string> each;
    for (const auto& one : all)
      each.push_back(one.grade);
    std::ranges::sort(each);
    return each;
  };
  using Grades = std::vector<std::string>;
  CHECK(grades(desk.looked(list).plan().missing) == Grades{"3"});
  desk.clock.advance(std::chrono::hours(24 * 300)); // into the next school year
  const auto next = desk.looked(list);
  CHECK(grades(next.plan().missing) == Grades{"3", "4"});
  CHECK(grades(next.plan().outside) == Grades{"6"});
  CHECK(session::countsOf(next.plan()) ==
        "2 new, 0 changed, 0 unchanged, 2 not on this list, 1 outside its grades");
}

TEST_CASE("What an import changes is shown before and after, who it is first", "[case-522]") {
  SchoolDesk desk;
  desk.import(idList + "70101,Pia,Oake,2019-05-02,2,4\n70102,Jo,Sedge,2019-06-03,2,4\n");
  const auto made = desk.looked("Student ID,First,Last,DOB,Grade,Room,Allergies\n"
                                "70101,Pia,Oake,2019-05-02,3,9,latex\n"
                                "70102,Jo,Marlowe,2019-06-03,2,4,\n");
  const auto lines =
      session::changedLines(made.plan(), [](roster::SchoolId) { return std::string("a school"); });
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].isWho);
  CHECK(lines[0].name == "Jo Sedge");
  CHECK(lines[0].before == "Jo Sedge");
  CHECK(lines[0].after == "Jo Marlowe");
  CHECK_FALSE(lines[1].isWho);
  CHECK(lines[1].before == "grade 2; room 4");
  CHECK(lines[1].after == "grade 3; room 9; health alert: latex allergy (stop)");
}

TEST_CASE("One class's list tells nothing of the other classes of its grade", "[case-509]") {
  SchoolDesk desk;
  desk.import(idList + "1,Pia,Oake,2019-05-02,2,4\n2,Jo,Sedge,2019-06-03,2,4\n"
                       "3,Ned,Fern,2019-07-04,2,9\n");
  auto draft =
      must(RosterDraft::open(desk.session, "First,Last,DOB\nPia,Oake,2019-05-02\n", desk.school));
  auto layout = draft.layout();
  layout.gradeOfAll = "2";
  layout.roomOfAll = "4";
  draft.setLayout(layout);
  for (const auto& row : must(desk.session.terms()))
    if (row.id == desk.term)
      must(draft.look(desk.session, {row, desk.school, desk.clock.now().date()}));
  const auto& plan = draft.plan();
  REQUIRE(plan.missing.size() == 1);
  CHECK(plan.missing.front().child == desk.found("sedge"));
  REQUIRE(plan.outside.size() == 1);
  CHECK(plan.outside.front().child == desk.found("ned"));
  CHECK(countsOf(plan) ==
        "0 new, 0 changed, 1 unchanged, 1 not on this list, 1 outside its grade and room");
}
