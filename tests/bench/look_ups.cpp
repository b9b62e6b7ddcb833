#include "bench/books.h"
#include "bench/cost.h"
#include "bench/measures.h"
#include "session/session.h"
#include "store/book.h"
#include "store/values/where.h"
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

/// A logbook that is asked, in two ways, and who in it.
struct Asked {
  int children;
  store::Book book;
  session::Session session;
  roster::DayId day;
  std::vector<std::pair<roster::ChildId, std::string>> some;
  std::vector<double> times = {};
};

Asked opened(const Kept& kept, const session::World& world) {
  auto book =
      must(store::Book::open(kept.path, base::LaptopId(base::Uuid{}), store::Access::readOnly,
                             store::Durability::bulk, world.clock.now().at, store::Checkup::skip));
  auto session = must(session::Session::open(
      kept.path, base::LaptopId(base::makeUuid7(world.clock.now().at, world.random)), world,
      store::Access::readOnly, session::BookKind::throwaway));
  must(session.unlock(test::Clinic::passphrase));
  const auto day = must(session.openDayNow()).id;
  return {kept.children, std::move(book), std::move(session), day, someChildren(kept.path)};
}

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
        const double took = processorCost([&] { ask(logbook, logbook.some.at(i)); });
        if (turn > 0) logbook.times.push_back(took * 1e6);
      }
  for (const auto& logbook : logbooks)
    figures.addCost(what, Growth::lookUp, logbook.children, medianOf(logbook.times), "us");
}

/// What the chair shows of a child, names opened, as ui/models/chair_file.cpp reads it.
void readCard(session::Session& session, roster::ChildId child, roster::DayId day) {
  must(session.child(child));
  must(session.identityCard(child, day));
  must(session.screenings(child));
  must(session.placements(child));
  must(session.fields(child, day));
  must(session.earlierPlacements(child, day));
  must(session.varnishes(child));
  must(session.afterCures(child, day));
  must(session.referrals(child));
}

void addBoards(std::vector<Asked>& logbooks, Figures& figures) {
  std::size_t lines = 0; // 120 children or all there are
  for (auto& logbook : logbooks)
    logbook.times.clear();
  for (int turn = 0; turn < 7; ++turn)
    for (auto& logbook : logbooks) {
      const double took =
          processorCost([&] { lines = must(logbook.session.board(logbook.day)).size(); });
      logbook.times.push_back(took * 1e6 / static_cast<double>(lines));
    }
  for (const auto& logbook : logbooks)
    figures.addCost("a line of the day's board", Growth::lookUp, logbook.children,
                    medianOf(logbook.times), "us");
}

} // namespace

void measureLookUps(const std::vector<Kept>& kept, Figures& figures) {
  base::ManualClock clock(base::atLocal(base::Date::parse("2026-11-17").value(),
                                        std::chrono::hours(9), std::chrono::minutes(0)));
  base::SeededRandom random(1);
  std::vector<Asked> logbooks;
  for (const auto& one : kept)
    logbooks.push_back(opened(one, {clock, random}));
  addLookUps("a child's card, as the chair reads it", logbooks, figures,
             [](auto& logbook, const auto& child) {
               readCard(logbook.session, child.first, logbook.day);
             });
  if (const auto& largest = logbooks.back(); largest.children >= 1'000'000)
    figures.add({"the same, in milliseconds", medianOf(largest.times) / 1000, "ms",
                 Target{Keep::atMost, 16}});
  addLookUps("the entries of a child", logbooks, figures, [](auto& logbook, const auto& child) {
    must(logbook.book.entriesAbout(child.first));
  });
  addLookUps("a child by number", logbooks, figures, [](auto& logbook, const auto& child) {
    must(logbook.book.template current<roster::Child>(store::numberIs(child.second)));
  });
  addBoards(logbooks, figures);
}

} // namespace gk::bench
