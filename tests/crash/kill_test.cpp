#include "store/audit.h"
#include "store/book_file.h"
#include "support/clinic.h"
#include "support/long_checks.h"

#include <csignal>
#include <iostream>
#include <sys/wait.h>
#include <unistd.h>

using namespace gk;
using test::must;

namespace {

/// Two students of a list from the school office, with their forms.
std::vector<session::NewChild> rosterOf(test::Clinic& clinic) {
  std::vector<session::NewChild> list;
  for (const auto& [number, first] : {std::pair{"3001", "Lupe"}, std::pair{"3002", "Calla"}})
    list.push_back(
        {{.number = roster::withCheckDigit(number),
          .birth = {2019, 5},
          .school = clinic.school,
          .grade = "2",
          .room = "7",
          .note = {}},
         {.first = first, .last = "Dovecote", .birth = must(base::Date::parse("2019-05-02"))},
         [&](roster::ChildId child) { return clinic.form(child); }});
  return list;
}

/// What another laptop did meanwhile: one child seen whole, in a copy of the book.
base::Path otherLaptop(test::Clinic& clinic, const base::Path& book, roster::ChildId child) {
  const auto copy = book.parent_path() / (book.stem().string() + "-other.gkbook");
  must(clinic.session.backUp(copy));
  auto session = must(session::Session::open(
      copy, base::LaptopId(base::makeUuid7(clinic.clock.now().at, clinic.random)),
      {clinic.clock, clinic.random}, store::Access::readWrite, session::BookKind::throwaway));
  must(session.unlock(test::Clinic::passphrase));
  must(session.seat(
      clinic.by,
      {child, clinic.day, {chairside::Identifier::spokenName, chairside::Identifier::birthDate}}));
  must(session.screen(clinic.by, clinic.fourSound(child)));
  must(session.endVisit(
      clinic.by, {child, clinic.day, chairside::DayEnd::screenedNotTreated, "ran out of time"},
      session::Confirmed::yes));
  must(session.finish());
  return copy;
}

/// A clinic day over chair, board, import, merge and close-out, with undo and redo, one child
/// stopped half way; every act is acknowledged with one byte, after the verb that made it has
/// returned from its commit.
void clinicDay(const base::Path& book, session::BookKind kind, int acknowledge) {
  test::Clinic clinic(book, kind);
  auto& session = clinic.session;
  const auto pia = clinic.child("Pia", "Lindenholt");
  const auto idris = clinic.child("Idris", "Mallowfield");
  const auto other = otherLaptop(clinic, book, idris);
  const auto told = session.onChanged([&](const session::Change&) {
    base::require(::write(acknowledge, "+", 1) == 1, "an act could not be acknowledged");
  });
  clinic.standardVisit(clinic.child("Mina", "Tolliver-Reed"));
  const auto wren = clinic.child("Wren", "Castlebury");
  clinic.seat(wren);
  clinic.screenFour(wren);
  const auto right = must(session.isolate(clinic.by, clinic.field(wren, {16, 46})));
  clinic.etchToFlow(right, {16, 46});
  must(session.wet(clinic.by, {right,
                               {dentition::toothAt(46)},
                               chairside::WetStage::beforeCureEnds,
                               chairside::WetCause::saliva,
                               {}}));
  const session::UndoAt here{base::Station::chair, clinic.day, wren};
  must(session.undo(clinic.by, here, "the other tooth"));
  must(session.redo(clinic.by, here));
  // One key, several rows: one tooth is rinsed and frosty and the other is not, and its etch runs.
  must(session.enterStep(clinic.by, clinic.run(right, chairside::Step::etch, {46}, 22)));
  auto dull = clinic.run(right, chairside::Step::dry, {46});
  dull.result = chairside::StepResult::notFrosty;
  must(session.work(
      clinic.by,
      {.steps = {clinic.run(right, chairside::Step::rinse, {46}, 12), dull},
       .wets = {{right,
                 {dentition::toothAt(16)},
                 chairside::WetStage::beforeCureEnds,
                 chairside::WetCause::tongue,
                 {}}},
       .timer = chairside::TimerStart{right,
                                      chairside::Step::etch,
                                      clinic.run(right, chairside::Step::etch, {46}).teeth,
                                      base::Seconds(20),
                                      {}}}));
  must(session.enterStep(clinic.by, clinic.run(right, chairside::Step::rinse, {46}, 12)));
  must(session.stopTeeth(clinic.by, right, {dentition::toothAt(16), dentition::toothAt(46)},
                         "child left"));
  clinic.end(wren, chairside::DayEnd::screenedNotTreated, "child left");
  for (const auto& child : must(session.enrolRoster(clinic.by, rosterOf(clinic))))
    clinic.end(child, chairside::DayEnd::absent);
  must(session.absorb(other));
  clinic.standardVisit(pia);
  must(session.countOut(clinic.by, clinic.day, followup::Paper::runnersList, 1));
  must(session.countPaper(
      clinic.by, {.day = clinic.day, .paper = followup::Paper::runnersList, .out = 1, .back = 1}));
  must(session.noteBackup(clinic.by, {clinic.day, "copy.gkbook"}));
  must(session.signDay({clinic.hygienist, {}}, {clinic.day, clinic.hygienist, clinic.coordinator}));
}

/// Rows of a merge: those that this book's own laptop did not write.
std::int64_t broughtRows(store::Connection& book) {
  auto statement = book.prepare("SELECT count(*) FROM every_entry WHERE laptop <> (SELECT laptop "
                                "FROM every_entry ORDER BY id LIMIT 1)");
  statement.step();
  return statement.column<std::int64_t>(0);
}

/// After which numbers of rows the book stands between two acts.
std::vector<std::int64_t> actEnds(store::Connection& book) {
  auto statement =
      book.prepare("SELECT max(sequence) AS last FROM every_entry WHERE laptop = (SELECT laptop "
                   "FROM every_entry ORDER BY id LIMIT 1) GROUP BY act ORDER BY last");
  std::vector<std::int64_t> ends;
  while (statement.step())
    ends.push_back(statement.column<std::int64_t>(0));
  return ends;
}

/// Runs the day in another process and kills it once `after` acts were acknowledged and a moment
/// more has passed; how many were acknowledged in the end.
std::size_t killedDay(const base::Path& book, std::size_t after, std::chrono::microseconds moment) {
  int ends[2];
  base::require(::pipe(ends) == 0, "no pipe");
  const pid_t child = ::fork();
  if (child == 0) {
    ::close(ends[0]);
    clinicDay(book, session::BookKind::real, ends[1]);
    ::_exit(0);
  }
  ::close(ends[1]);
  std::size_t acknowledged = 0;
  char byte = 0;
  while (acknowledged < after && ::read(ends[0], &byte, 1) == 1)
    ++acknowledged;
  const auto until = std::chrono::steady_clock::now() + moment;
  while (std::chrono::steady_clock::now() < until) {
  }
  ::kill(child, SIGKILL);
  int status = 0;
  ::waitpid(child, &status, 0);
  while (::read(ends[0], &byte, 1) == 1)
    ++acknowledged;
  ::close(ends[0]);
  return acknowledged;
}

} // namespace

TEST_CASE("A day killed at random points keeps every acknowledged act and none by halves",
          "[case-68]") {
  test::Scratch folder;
  int ends[2];
  REQUIRE(::pipe(ends) == 0);
  clinicDay(folder / "whole.gkbook", session::BookKind::throwaway, ends[1]);
  ::close(ends[1]);
  std::size_t acts = 0;
  char byte = 0;
  while (::read(ends[0], &byte, 1) == 1)
    ++acts;
  ::close(ends[0]);
  std::vector<std::int64_t> whole;
  std::int64_t brought = 0;
  {
    auto book = must(store::openBook(folder / "whole.gkbook", store::Access::readOnly,
                                     store::Durability::everyAct, {}));
    whole = actEnds(book);
    brought = broughtRows(book);
  }
  REQUIRE(acts > 60);
  REQUIRE(brought > 0);
  // Acts of setting up, before the day; the merge is acknowledged and is no act of this laptop.
  const std::size_t morning = whole.size() - (acts - 1);

  const auto seed = test::seedOr(25);
  base::SeededRandom random(seed);
  const int points = test::rounds(25, 200);
  std::size_t merged = 0;
  std::size_t lost = 0;
  for (int round = 0; round < points; ++round) {
    const auto path = folder / ("killed-" + std::to_string(round) + ".gkbook");
    const auto acknowledged =
        killedDay(path, 1 + random.below(acts - 1), std::chrono::microseconds(random.below(3000)));
    CAPTURE(seed, round, acknowledged);
    // Opened for writing first: that is what rolls a half-written act back.
    auto book = must(store::openBook(path, store::Access::readWrite, store::Durability::everyAct,
                                     {base::Milliseconds(1)}));
    CHECK(must(store::integrity(book)).empty());
    CHECK(store::historyFaults(book, "main", store::newestSchema()).empty());
    const auto kept = actEnds(book);
    const auto rows = broughtRows(book);
    CHECK((rows == 0 || rows == brought)); // a merge is there whole or not at all
    const std::size_t found = kept.size() + (rows > 0 ? 1 : 0);
    CHECK(found >= morning + acknowledged);
    if (found < morning + acknowledged) ++lost;
    if (rows > 0) ++merged;
    REQUIRE(kept.size() <= whole.size());
    CHECK(std::equal(kept.begin(), kept.end(), whole.begin()));
  }
  std::cout << "killed at " << points << " points of " << acts << " acts (seed " << seed << "), "
            << merged << " of them after the merge: " << lost << " acknowledged acts lost\n";
}
