#include "bench/books.h"
#include "bench/cost.h"
#include "bench/measures.h"
#include "session/session.h"
#include "support/clinic.h"

namespace gk::bench {

using test::must;

namespace {

/// Of so many children taken anywhere in a logbook, each asked three times; the first turn warms.
constexpr std::size_t asked = 500;

std::vector<std::pair<roster::ChildId, std::string>> someChildren(const base::Path& path) {
  store::Connection file(path, store::Access::readOnly, store::Durability::bulk);
  std::vector<std::pair<roster::ChildId, std::string>> all;
  auto rows = file.prepare("SELECT entry, number FROM child");
  while (rows.step())
    all.emplace_back(rows.column<roster::ChildId>(0), rows.column<std::string>(1));
  base::SeededRandom random(7);
  std::vector<std::pair<roster::ChildId, std::string>> some;
  for (std::size_t i = 0; i < asked; ++i)
    some.push_back(all[random.below(all.size())]);
  return some;
}

/// A logbook that is asked, and who in it.
struct Asked {
  int children;
  store::Book book;
  std::vector<std::pair<roster::ChildId, std::string>> some;
  std::vector<double> times = {};
};

/// Median microseconds of a question in each logbook. They take turns child by child: what else the
/// machine does at a moment then slows all of them, and not the one that is measured just then.
template <class Question>
void addLookUps(const std::string& what, std::vector<Asked>& logbooks, Figures& figures,
                Question ask) {
  for (auto& logbook : logbooks)
    logbook.times.clear();
  for (int turn = 0; turn < 3; ++turn)
    for (std::size_t i = 0; i < asked; ++i)
      for (auto& logbook : logbooks) {
        const double took = processorCost([&] { ask(logbook.book, logbook.some.at(i)); });
        if (turn > 0) logbook.times.push_back(took * 1e6);
      }
  for (const auto& logbook : logbooks)
    figures.addCost(what, Growth::lookUp, logbook.children, medianOf(logbook.times), "us");
}

store::Book opened(const base::Path& path) {
  return must(store::Book::open(
      path, base::LaptopId(base::Uuid{}), store::Access::readOnly, store::Durability::bulk,
      base::Instant{base::Milliseconds(1'794'924'000'000)}, store::Checkup::skip));
}

/// A session is long and open beside the others, in turns as the look-ups.
struct Board {
  int children;
  session::Session session;
  roster::DayId day;
  std::size_t lines = 0;
  std::vector<double> times = {};
};

void addBoards(const std::vector<Kept>& kept, Figures& figures) {
  base::ManualClock clock(base::atLocal(base::Date::parse("2026-11-17").value(),
                                        std::chrono::hours(9), std::chrono::minutes(0)));
  base::SeededRandom random(1);
  std::vector<Board> boards;
  for (const auto& [path, children] : kept) {
    auto session = must(session::Session::open(
        path, base::LaptopId(base::makeUuid7(clock.now().at, random)), {clock, random},
        store::Access::readOnly, session::BookKind::throwaway));
    const auto day = must(session.openDayNow()).id;
    boards.push_back({children, std::move(session), day});
  }
  for (int turn = 0; turn < 7; ++turn)
    for (auto& board : boards)
      board.times.push_back(
          1e6 * processorCost([&] { board.lines = must(board.session.board(board.day)).size(); }));
  for (const auto& board : boards)
    figures.addCost("a line of the day's board", Growth::lookUp, board.children,
                    medianOf(board.times) / static_cast<double>(board.lines), "us");
}

} // namespace

void measureLookUps(const std::vector<Kept>& kept, Figures& figures) {
  std::vector<Asked> logbooks;
  for (const auto& [path, children] : kept)
    logbooks.push_back({children, opened(path), someChildren(path)});
  addLookUps("a child's card, every current row", logbooks, figures,
             [](auto& book, const auto& child) { must(book.entriesAbout(child.first)); });
  if (const auto& largest = logbooks.back(); largest.children >= 1'000'000)
    figures.add({"the same, in milliseconds", medianOf(largest.times) / 1000, "ms",
                 Target{Keep::atMost, 16}});
  addLookUps("a child by number", logbooks, figures, [](auto& book, const auto& child) {
    must(book.template current<roster::Child>(store::numberIs(child.second)));
  });
  addBoards(kept, figures);
}

} // namespace gk::bench
