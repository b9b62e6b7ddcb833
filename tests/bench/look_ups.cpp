#include "bench/books.h"
#include "bench/cost.h"
#include "bench/measures.h"
#include "session/session.h"
#include "support/clinic.h"

namespace gk::bench {

using test::must;

namespace {

/// Of so many children taken anywhere in the logbook, each asked three times; the first turn warms.
constexpr int asked = 500;

std::vector<std::pair<roster::ChildId, std::string>> someChildren(const base::Path& path) {
  store::Connection file(path, store::Access::readOnly, store::Durability::bulk);
  std::vector<std::pair<roster::ChildId, std::string>> all;
  auto rows = file.prepare("SELECT entry, number FROM child");
  while (rows.step())
    all.emplace_back(rows.column<roster::ChildId>(0), rows.column<std::string>(1));
  base::SeededRandom random(7);
  std::vector<std::pair<roster::ChildId, std::string>> some;
  for (int i = 0; i < asked; ++i)
    some.push_back(all[random.below(all.size())]);
  return some;
}

template <class Question>
double microsecondsOf(const std::vector<std::pair<roster::ChildId, std::string>>& children,
                      Question ask) {
  std::vector<double> times;
  for (int turn = 0; turn < 3; ++turn)
    for (const auto& child : children) {
      const double took = processorCost([&] { ask(child); });
      if (turn > 0) times.push_back(took * 1e6);
    }
  return medianOf(times);
}

} // namespace

void measureLookUps(const base::Path& path, int children, Figures& figures) {
  const auto some = someChildren(path);
  {
    auto book = must(store::Book::open(
        path, base::LaptopId(base::Uuid{}), store::Access::readOnly, store::Durability::bulk,
        base::Instant{base::Milliseconds(1'794'924'000'000)}, store::Checkup::skip));
    const double card =
        microsecondsOf(some, [&](const auto& child) { must(book.entriesAbout(child.first)); });
    figures.addCost("a child's card, every current row", Growth::lookUp, children, card, "us");
    if (children >= 1'000'000)
      figures.add({"the same, in milliseconds", card / 1000, "ms", Target{Keep::atMost, 16}});
    figures.addCost(
        "a child by number", Growth::lookUp, children,
        microsecondsOf(some,
                       [&](const auto& child) {
                         must(book.current<roster::Child>(store::numberIs(child.second)));
                       }),
        "us");
  }
  base::ManualClock clock(base::atLocal(base::Date::parse("2026-11-17").value(),
                                        std::chrono::hours(9), std::chrono::minutes(0)));
  base::SeededRandom random(1);
  auto session = must(session::Session::open(
      path, base::LaptopId(base::makeUuid7(clock.now().at, random)), {clock, random},
      store::Access::readOnly, session::BookKind::throwaway));
  const auto day = must(session.openDayNow());
  std::vector<double> boards;
  std::size_t lines = 0;
  for (int turn = 0; turn < 7; ++turn)
    boards.push_back(1e3 * processorCost([&] { lines = must(session.board(day.id)).size(); }));
  figures.addCost("a line of the day's board", Growth::lookUp, children,
                  1e3 * medianOf(boards) / static_cast<double>(lines), "us");
}

} // namespace gk::bench
