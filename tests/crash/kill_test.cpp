#include "store/book_file.h"
#include "support/clinic.h"

#include <csignal>
#include <sys/wait.h>
#include <unistd.h>

using namespace gk;
using test::must;

namespace {

/// A clinic day of three children, one of them stopped half way; every act is acknowledged with
/// one byte, after the verb that made it has returned from its commit.
void clinicDay(const base::Path& book, session::BookKind kind, int acknowledge) {
  test::Clinic clinic(book, kind);
  const auto told = clinic.session.onChanged([&](const session::Change&) {
    base::require(::write(acknowledge, "+", 1) == 1, "an act could not be acknowledged");
  });
  clinic.standardVisit(clinic.child("Mina", "Tolliver-Reed"));
  const auto wren = clinic.child("Wren", "Castlebury");
  clinic.seat(wren);
  clinic.screenFour(wren);
  const auto right = must(clinic.session.isolate(clinic.by, clinic.field(wren, {16, 46})));
  clinic.etchToFlow(right, {16, 46});
  must(clinic.session.wet(clinic.by, {right,
                                      {dentition::toothAt(46)},
                                      chairside::WetStage::beforeCureEnds,
                                      chairside::WetCause::saliva,
                                      {}}));
  // One key, several rows: one tooth is rinsed and frosty and the other is not, and its etch runs.
  must(clinic.session.enterStep(clinic.by, clinic.run(right, chairside::Step::etch, {46}, 22)));
  auto dull = clinic.run(right, chairside::Step::dry, {46});
  dull.result = chairside::StepResult::notFrosty;
  must(clinic.session.work(
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
  must(clinic.session.stopTeeth(clinic.by, right, {dentition::toothAt(16), dentition::toothAt(46)},
                                "child left"));
  clinic.standardVisit(clinic.child("Pia", "Lindenholt"));
}

/// After which numbers of rows the book stands between two acts.
std::vector<std::int64_t> actEnds(store::Connection& book) {
  auto statement =
      book.prepare("SELECT max(sequence) AS last FROM entry GROUP BY act ORDER BY last");
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

TEST_CASE("A day killed at 25 random points keeps every acknowledged act and none by halves",
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
  {
    auto book = must(store::openBook(folder / "whole.gkbook", store::Access::readOnly,
                                     store::Durability::everyAct, {}));
    whole = actEnds(book);
  }
  REQUIRE(acts > 50);
  REQUIRE(whole.size() > acts);
  const std::size_t morning = whole.size() - acts; // acts of setting up, before the day

  base::SeededRandom random(25);
  for (int round = 0; round < 25; ++round) {
    const auto path = folder / ("killed-" + std::to_string(round) + ".gkbook");
    const auto acknowledged =
        killedDay(path, 1 + random.below(acts - 1), std::chrono::microseconds(random.below(3000)));
    CAPTURE(round, acknowledged);
    // Opened for writing first: that is what rolls a half-written act back.
    auto book = must(store::openBook(path, store::Access::readWrite, store::Durability::everyAct,
                                     {base::Milliseconds(1)}));
    CHECK(must(store::integrity(book)).empty());
    const auto kept = actEnds(book);
    CHECK(kept.size() >= morning + acknowledged);
    REQUIRE(kept.size() <= whole.size());
    CHECK(std::equal(kept.begin(), kept.end(), whole.begin()));
  }
}
