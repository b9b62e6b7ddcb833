#include "reports/day/return_visits.h"
#include "reports/print/render.h"
#include "reports/term/term_tables.h"
#include "session/day/school_ahead.h"
#include "session/importing/roster_draft.h"
#include "session/second_laptop.h"

#include <algorithm>

// Students who left the program: expected no more, and counted wherever they were.
using namespace gk;
using base::ErrorCode;
using roster::Leaving;
using roster::LeftBecause;
using test::codeOf;
using test::must;
using test::Second;

namespace {

base::Date dayOf(const char* iso) {
  return must(base::Date::parse(iso));
}

struct LeavingDesk : test::Clinic {
  roster::ChildId mina = child("Mina");
  roster::ChildId osei = child("Osei");
  base::Date today = clock.now().date();
  base::Date tomorrow = today.plusDays(1);

  void leave(roster::ChildId who, base::Date from, LeftBecause why = LeftBecause::movedAway) {
    must(session.leaveProgram(by, {who}, Leaving{from, why}));
  }
  bool isOnBoard(roster::ChildId who) {
    const auto lines = must(session.board(day));
    return std::ranges::find(lines, who, &session::BoardLine::child) != lines.end();
  }
  std::size_t forms(base::Date on) { return must(session.formLines(term, on)).size(); }
  std::string report(roster::TermId of, base::Date asOf) {
    return reports::toText(
        reports::termTables(reports::termTotals(must(session.termRecords(of, asOf)))));
  }
};

} // namespace

TEST_CASE("A student who left is on no day's list and in no form count from that date on, and "
          "comes back with a reason",
          "[case-466]") {
  LeavingDesk desk;
  auto& book = desk.session;
  CHECK(desk.isOnBoard(desk.osei));
  CHECK(desk.forms(desk.today) == 2);
  desk.leave(desk.osei, desk.tomorrow);
  CHECK(desk.isOnBoard(desk.osei)); // today is the last day
  CHECK(desk.forms(desk.today) == 2);
  CHECK(desk.forms(desk.tomorrow) == 1);
  desk.leave(desk.osei, desk.today); // the date was wrong: said again
  CHECK_FALSE(desk.isOnBoard(desk.osei));
  CHECK(test::sheetOf(desk).equation.consented == 1);
  const auto counts = must(book.formCounts(desk.term, desk.today));
  REQUIRE(counts.size() == 1);
  CHECK(counts.front().yes == 1);
  CHECK(must(session::formsAhead(book, desk.term, desk.school, desk.today, {})).yes == 1);
  CHECK(must(book.child(desk.osei)).value.left == Leaving{desk.today, LeftBecause::movedAway});
  CHECK(must(book.findChildren("osei")).size() == 1); // the card and its history are found

  CHECK(codeOf(book.comeBack(desk.by, desk.osei, " ")) == ErrorCode::ruleReason);
  CHECK(codeOf(book.comeBack(desk.by, desk.mina, "seen in class")) == ErrorCode::notFound);
  must(book.comeBack(desk.by, desk.osei, "the family moved back"));
  CHECK(desk.isOnBoard(desk.osei));
  CHECK(desk.forms(desk.today) == 2);
  const auto rows = must(book.revisions<roster::Child>(desk.osei));
  REQUIRE(rows.size() == 4);
  CHECK(rows[1].value.left->from == desk.tomorrow);
  CHECK(rows[1].stamp.reason == "moved away");
  CHECK(rows[1].stamp.by.author == desk.hygienist);
  CHECK(rows.back().stamp.reason == "the family moved back");
}

TEST_CASE("A class that graduated leaves in one act, and one undo brings it back", "[case-467]") {
  LeavingDesk desk;
  auto& book = desk.session;
  const Leaving left{desk.tomorrow, LeftBecause::graduated};
  CHECK(codeOf(book.leaveProgram(desk.by, {}, left)) == ErrorCode::notFound);
  CHECK(codeOf(book.leaveProgram({}, {desk.mina}, left)) == ErrorCode::ruleCredential);
  must(book.leaveProgram(desk.by, {desk.mina, desk.osei}, left));
  CHECK(desk.forms(desk.tomorrow) == 0);
  CHECK(codeOf(book.leaveProgram(desk.by, {desk.mina, desk.osei}, left)) == ErrorCode::notFound);
  must(book.undo(desk.by, {.station = base::Station::rosters}));
  CHECK(desk.forms(desk.tomorrow) == 2);
  CHECK_FALSE(must(book.child(desk.mina)).value.left);
  must(book.redo(desk.by, {.station = base::Station::rosters}));
  CHECK(desk.forms(desk.tomorrow) == 0);
}

TEST_CASE("No one has left on a day on which the student was in the chair, and none of several "
          "leaves then",
          "[case-468]") {
  LeavingDesk desk;
  desk.standardVisit(desk.mina);
  const auto before = desk.session.edition();
  CHECK(codeOf(desk.session.leaveProgram(desk.by, {desk.osei, desk.mina},
                                         {desk.today, LeftBecause::graduated})) ==
        ErrorCode::ruleDate);
  CHECK(desk.session.edition() == before);
  desk.leave(desk.mina, desk.tomorrow);
  CHECK(desk.isOnBoard(desk.mina));
}

TEST_CASE("What was done for a student who left counts as it did: this term, the next, and in "
          "retention",
          "[case-469]") {
  LeavingDesk desk;
  auto& book = desk.session;
  desk.standardVisit(desk.mina);
  const auto nextYear =
      must(book.enterTerm(desk.by, {"Fall 2027", dayOf("2027-09-07"), dayOf("2027-12-17"), {}}));
  desk.clock.setWall(
      base::atLocal(dayOf("2027-12-01"), std::chrono::hours(9), std::chrono::hours(-5)));
  book.confirmClock();
  const auto now = desk.clock.now().date();
  const auto thisTerm = desk.report(desk.term, now);
  const auto later = desk.report(nextYear, now);
  const auto history = must(book.placements(desk.mina));
  desk.leave(desk.mina, dayOf("2027-06-12"), LeftBecause::graduated);
  CHECK(desk.report(desk.term, now) == thisTerm);
  CHECK(desk.report(nextYear, now) == later);
  const auto totals = reports::termTotals(must(book.termRecords(nextYear, now)));
  CHECK(totals.retention.total.childrenDue == 1); // due after a year, and not found
  CHECK(totals.retention.total.due == 4);
  const auto kept = must(book.placements(desk.mina));
  CHECK(kept.size() == history.size());
}

TEST_CASE("A student who left before anyone saw them is not still to be seen, nor asked back",
          "[case-470]") {
  LeavingDesk desk;
  must(desk.session.endVisit(desk.by, {desk.mina, desk.day, chairside::DayEnd::absent, {}}));
  const auto names = [&] { return reports::returnVisits(test::sheetOf(desk)); };
  CHECK(names().size() == 2); // one absent, one not seen
  const auto before =
      reports::termTotals(must(desk.session.termRecords(desk.term, desk.today))).total;
  CHECK(before.stillToSee == 1);
  desk.leave(desk.osei, desk.today);
  desk.leave(desk.mina, desk.tomorrow);
  CHECK(names().empty());
  const auto after =
      reports::termTotals(must(desk.session.termRecords(desk.term, desk.today))).total;
  CHECK(after.stillToSee == 0);
  CHECK(after.left == before.left + 1);
  CHECK(after.consented == before.consented);
}

TEST_CASE("A list that leaves out who left counts no one as missing; on the list again, the "
          "student is back, but not whom a family withdrew",
          "[case-471]") {
  test::Clinic desk;
  auto& book = desk.session;
  const std::string head = "Student ID,First,Last,DOB,Grade,Room\n";
  const std::string pia = "70101,Pia,Oake,2019-05-02,2,4\n";
  const std::string jo = "70102,Jo,Sedge,2019-06-03,2,4\n";
  const std::string ned = "70103,Ned,Fern,2019-07-04,2,4\n";
  const auto looked = [&](const std::string& csv) {
    const auto terms = must(book.terms());
    auto made = must(session::RosterDraft::open(book, csv, desk.school));
    must(made.look(book, {terms.front(), desk.school, desk.clock.now().date()}));
    return made;
  };
  must(looked(head + pia + jo + ned).write(book, desk.by));
  CHECK(looked(head + pia).plan().missing.size() == 2);
  const auto found = [&](const char* name) { return must(book.findChildren(name)).front().child; };
  const auto today = desk.clock.now().date();
  must(book.leaveProgram(desk.by, {found("jo")}, {today, LeftBecause::movedAway}));
  must(book.leaveProgram(desk.by, {found("ned")}, {today, LeftBecause::withdrawn}));
  CHECK(looked(head + pia).plan().missing.empty());
  const auto again = looked(head + pia + jo + ned);
  CHECK(session::countsOf(again.plan()) ==
        "0 new, 1 changed (came back 1), 2 unchanged, 0 not on this list");
  must(again.write(book, desk.by));
  CHECK_FALSE(must(book.child(found("jo"))).value.left);
  CHECK(must(book.child(found("ned"))).value.left);
}

TEST_CASE("Who left on one laptop has left on the other after a merge", "[case-472]") {
  LeavingDesk desk;
  Second second(desk, "second.gkbook", 3);
  must(second.session.leaveProgram(desk.by, {desk.osei}, {desk.today, LeftBecause::movedAway}));
  CHECK(desk.isOnBoard(desk.osei));
  must(desk.session.absorb(second.handOver()));
  CHECK_FALSE(desk.isOnBoard(desk.osei));
  CHECK(must(desk.session.child(desk.osei)).value.left->why == LeftBecause::movedAway);
}

TEST_CASE("Whoever takes a student who left to the chair is told", "[case-473]") {
  LeavingDesk desk;
  desk.leave(desk.osei, desk.today, LeftBecause::withdrawn);
  const auto card = must(desk.session.identityCard(desk.osei, desk.day));
  CHECK(card.school ==
        "Cobble Lantern Elementary (LEFT THE PROGRAM Nov 17, 2026: withdrawn by family)");
}

TEST_CASE("Who leaves with the school year is expected until then: on return visits, and on a list",
          "[case-461]") {
  LeavingDesk desk;
  must(desk.session.endVisit(desk.by, {desk.mina, desk.day, chairside::DayEnd::absent, {}}));
  desk.leave(desk.mina, dayOf("2027-06-12"), LeftBecause::graduated);
  const auto visits = reports::returnVisits(test::sheetOf(desk));
  CHECK(std::ranges::count(visits, desk.mina, &reports::ReturnVisit::child) == 1);

  test::Clinic other;
  auto& book = other.session;
  const std::string list = "Student ID,First,Last,DOB,Grade,Room\n70101,Pia,Oake,2019-05-02,2,4\n";
  const auto looked = [&] {
    auto made = must(session::RosterDraft::open(book, list, other.school));
    must(made.look(book, {must(book.terms()).front(), other.school, other.clock.now().date()}));
    return made;
  };
  must(looked().write(book, other.by));
  const auto pia = must(book.findChildren("pia")).front().child;
  must(book.leaveProgram(other.by, {pia}, {dayOf("2027-06-12"), LeftBecause::graduated}));
  CHECK(session::countsOf(looked().plan()) == "0 new, 0 changed, 1 unchanged, 0 not on this list");
  CHECK(must(book.child(pia)).value.left);
}

TEST_CASE("A date of leaving more than a year ahead, or before the birth, is a slip",
          "[case-462]") {
  LeavingDesk desk;
  for (const auto* date : {"2028-06-12", "1926-11-17"})
    CHECK(codeOf(desk.session.leaveProgram(
              desk.by, {desk.osei}, {dayOf(date), LeftBecause::movedAway})) == ErrorCode::ruleDate);
  CHECK_FALSE(must(desk.session.child(desk.osei)).value.left);
}

TEST_CASE("Who moves to another school of the program is expected there, but not whom the family "
          "withdrew",
          "[case-463]") {
  LeavingDesk desk;
  auto& book = desk.session;
  const auto other = must(book.enterSchool(desk.by, {"Alder Hollow Elementary", "AH"}));
  desk.leave(desk.osei, desk.today);
  must(book.moveChild(desk.by, desk.osei, other, "2", "4", "moved"));
  CHECK_FALSE(must(book.child(desk.osei)).value.left);
  desk.leave(desk.mina, desk.today, LeftBecause::withdrawn);
  CHECK(codeOf(book.moveChild(desk.by, desk.mina, other, "2", "4", "moved")) ==
        ErrorCode::ruleReason);
  CHECK(must(book.child(desk.mina)).value.left);
}

TEST_CASE("Who comes back after a day was closed does not join that day", "[case-464]") {
  LeavingDesk desk;
  desk.standardVisit(desk.mina);
  desk.leave(desk.osei, desk.today);
  must(desk.session.signDay(desk.by, {desk.day, desk.hygienist, desk.coordinator}));
  const auto closed = test::sheetOf(desk);
  desk.clock.advance(std::chrono::hours(20));
  must(desk.session.comeBack(desk.by, desk.osei, "the family moved back"));
  const auto later = test::sheetOf(desk);
  CHECK(later.equation.consented == closed.equation.consented);
  CHECK(later.lines.size() == closed.lines.size());
  CHECK(later.stillToSee.size() == closed.stillToSee.size());
}

TEST_CASE("Back and handed out agree when a student leaves with a form that came back, and when a "
          "school is closed",
          "[case-483]") {
  LeavingDesk desk;
  auto& book = desk.session;
  const auto missing = desk.childWithoutForm("Wren");
  const auto room = must(book.child(desk.osei)).value.room;
  must(book.enterHandout(desk.by, {desk.term, desk.school, room, desk.today, 3}));
  const auto counted = [&] { return must(book.formCounts(desk.term, desk.today)); };
  REQUIRE(counted().size() == 1);
  CHECK(counted()[0].back() == 2);
  CHECK(counted()[0].missing() == 1);
  desk.leave(desk.osei, desk.today);
  CHECK(counted()[0].handedOut == 3);
  CHECK(counted()[0].back() == 2);
  CHECK(counted()[0].left == 1);
  CHECK(counted()[0].yes == 1);
  CHECK(counted()[0].missing() == 1);
  desk.leave(missing, desk.today); // and without a form: no one waits for it
  CHECK(counted()[0].back() == 2);
  CHECK(counted()[0].missing() == 0);
  CHECK(desk.forms(desk.today) == 1);

  // Of a term in which the student had no form, nothing came back.
  const auto next =
      must(book.enterTerm(desk.by, {"Spring 2027", dayOf("2027-01-11"), dayOf("2027-05-28"), {}}));
  CHECK(must(book.formCounts(next, desk.today)).front().left == 0);

  // A closed school is in the count of all with neither, and asked for by name with both.
  must(book.cancelDay(desk.by, desk.day, "the school is closed"));
  must(book.closeSchool(desk.by, desk.school, desk.today, "merged with another"));
  CHECK(counted().empty());
  const auto named = must(book.formCounts(desk.term, desk.today, desk.school));
  REQUIRE(named.size() == 1);
  CHECK(named[0].handedOut == 3);
  CHECK(named[0].back() == 2);
}

TEST_CASE("A form that comes for a student who left is asked about, wherever it is entered",
          "[case-484]") {
  LeavingDesk desk;
  auto& book = desk.session;
  auto form = desk.form(desk.osei);
  form.note = "a second form";
  CHECK(must(book.leftQuestion(desk.osei)).empty());
  desk.leave(desk.osei, desk.tomorrow, LeftBecause::withdrawn);
  CHECK(must(book.leftQuestion(desk.osei)).empty()); // expected today still
  desk.leave(desk.osei, desk.today, LeftBecause::withdrawn);
  const auto number = must(book.child(desk.osei)).value.number;
  CHECK(must(book.leftQuestion(desk.osei)) ==
        "student " + number +
            " left the program on November 17, 2026 (withdrawn by family). The form would be kept, "
            "but the student stays off every day's list until recorded as back (Desk, Students, "
            "Came back)");
  const auto before = must(book.consents(desk.osei)).size();
  CHECK(codeOf(book.enterConsent(desk.by, form)) == ErrorCode::ruleConsentForm);
  form.allowed = form.allowed.without({roster::Service::photo});
  CHECK(codeOf(book.enterForm(desk.by, {form})) == ErrorCode::ruleConsentForm);
  CHECK(codeOf(book.enterForm(desk.by, {form}, {.isSecond = session::Confirmed::yes})) ==
        ErrorCode::ruleConsentForm);
  CHECK(must(book.consents(desk.osei)).size() == before);
  must(book.enterForm(desk.by, {form}, {.ofWhoLeft = session::Confirmed::yes}));
  form.note = "a third form";
  must(book.enterConsent(desk.by, form, {}, session::Confirmed::yes));
  CHECK(must(book.consents(desk.osei)).size() == before + 2);
  CHECK_FALSE(desk.isOnBoard(desk.osei)); // as the question says
}

TEST_CASE(
    "A new form on a school's list, of a student whom the family withdrew, waits for a person",
    "[case-484]") {
  test::Clinic desk;
  auto& book = desk.session;
  const auto today = desk.clock.now().date();
  const session::RosterAim aim{must(book.terms()).front(), desk.school, today};
  const auto looked = [&](const std::string& cells) {
    auto made = must(session::RosterDraft::open(
        book, "Student ID,First,Last,DOB,Grade,Room,Consent\n" + cells, desk.school));
    must(made.look(book, aim));
    return made;
  };
  must(looked("70103,Ned,Fern,2019-07-04,2,4,\n").write(book, desk.by));
  const auto ned = must(book.findChildren("ned")).front().child;
  const std::string withForm = "70103,Ned,Fern,2019-07-04,2,5,no\n";
  const auto early = looked(withForm);
  CHECK(early.plan().forms() == 1);
  must(book.leaveProgram(desk.by, {ned}, {today, LeftBecause::withdrawn}));
  const auto late = looked(withForm);
  REQUIRE(late.plan().held.size() == 1);
  CHECK(late.plan().held.front().problems.front().where == "consent");
  CHECK(late.plan().changed.empty());
  // One that was planned before is refused by the import itself.
  auto import = early.plan().import(aim, "");
  import.changed.front().was = must(book.child(ned));
  import.changed.front().card.left = import.changed.front().was.value.left;
  CHECK(codeOf(book.importRoster(desk.by, import)) == ErrorCode::ruleConsentForm);
  CHECK(must(book.consents(ned)).empty());
  // Without the form the row is imported; once the student is back, the form is too.
  CHECK(looked("70103,Ned,Fern,2019-07-04,2,5,\n").plan().changed.size() == 1);
  must(book.comeBack(desk.by, ned, "the family asked for it"));
  must(looked(withForm).write(book, desk.by));
  CHECK(must(book.consents(ned)).size() == 1);
}

TEST_CASE("A reason of \"other\" is said in words, and the words name no one", "[case-485]") {
  LeavingDesk desk;
  auto& book = desk.session;
  const Leaving left{desk.tomorrow, LeftBecause::other};
  CHECK(codeOf(book.leaveProgram(desk.by, {desk.osei}, left)) == ErrorCode::ruleReason);
  CHECK(codeOf(book.leaveProgram(desk.by, {desk.osei}, left, " \t")) == ErrorCode::ruleReason);
  CHECK(codeOf(book.leaveProgram(desk.by, {desk.mina, desk.osei}, left, "as Osei told us")) ==
        ErrorCode::textMalformed);
  CHECK_FALSE(must(book.child(desk.osei)).value.left);
  must(book.leaveProgram(desk.by, {desk.osei}, left, " taught at home "));
  CHECK(must(book.revisions<roster::Child>(desk.osei)).back().stamp.reason ==
        "other: taught at home");
  // A reason that says it by itself takes words too, and needs none.
  must(book.leaveProgram(desk.by, {desk.mina}, {desk.tomorrow, LeftBecause::movedAway},
                         "to another county"));
  CHECK(must(book.revisions<roster::Child>(desk.mina)).back().stamp.reason ==
        "moved away: to another county");
}
