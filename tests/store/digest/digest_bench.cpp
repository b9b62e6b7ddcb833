#include "broken/broken_books.h"
#include "roster/program/program.h"
#include "store/audit.h"
#include "store/records/every_table.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>
#include <chrono>
#include <iostream>

namespace gk::test {

namespace {

template <class Work>
double millisecondsOf(Work work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start)
      .count();
}

/// Steps through every row of every table and touches each value, as a bare reader would.
std::size_t readAll(store::Connection& book) {
  std::size_t touched = 0;
  auto tables = book.prepare("SELECT name FROM sqlite_schema WHERE type = 'table'");
  while (tables.step()) {
    const auto name = tables.column<std::string>(0);
    auto columns = book.prepare("SELECT count(*) FROM pragma_table_info(?)");
    columns.bind(1, std::string_view(name));
    columns.step();
    const auto count = columns.column<int>(0);
    auto rows = book.prepare("SELECT * FROM \"" + name + '"');
    while (rows.step())
      for (int i = 0; i < count; ++i)
        touched += rows.cell(i).bytes.size();
  }
  return touched;
}

} // namespace

// GK_BOOK names the logbook.
TEST_CASE("Cost of looking a logbook over", "[.bench]") {
  const char* named = std::getenv("GK_BOOK");
  if (named == nullptr) return;
  store::Connection book(named, store::Looking::locked);
  std::size_t touched = 0;
  for (int again = 0; again < 3; ++again) {
    const auto read = millisecondsOf([&] { touched = readAll(book); });
    const auto pages = millisecondsOf([&] { store::checkPages(book, "main", book.path()); });
    std::size_t faults = 0;
    const auto history = millisecondsOf(
        [&] { faults = store::historyFaults(book, "main", store::newestSchema()).size(); });
    const auto newest = millisecondsOf(
        [&] { faults += store::newestFaults(book, store::newestSchema(), 200).size(); });
    const auto all = millisecondsOf([&] { faults += store::pageFaults(book).size(); });
    CHECK(faults == 0);
    std::cout << "read " << read << " ms, quick check of pages " << pages << ", digests " << history
              << ", newest 200 acts " << newest << ", integrity and references " << all << " ("
              << touched << " bytes of text)\n";
  }
}

TEST_CASE("Cost of an act with its digest", "[.bench]") {
  const Scratch folder;
  base::SeededRandom random(3);
  const base::LaptopId laptop(base::makeUuid7(someMorning, random));
  constexpr int acts = 2000;
  for (const auto durability : {store::Durability::bulk, store::Durability::everyAct}) {
    const auto path =
        folder / (durability == store::Durability::bulk ? "bulk.gkbook" : "every.gkbook");
    auto book =
        store::Book::create(path, laptop, durability, someMorning,
                            {std::vector<std::uint8_t>(16, 1), 3, 65536,
                             std::vector<std::uint8_t>(24, 2), std::vector<std::uint8_t>(48, 3)},
                            random);
    REQUIRE(book);
    const auto took = millisecondsOf([&] {
      for (int i = 0; i < acts; ++i)
        REQUIRE(book->act({}, {someMorning, {}}, [](store::Act& act) {
          for (int row = 0; row < 3; ++row)
            act.add(roster::School{"Cobble Lantern", "CL"});
        }));
    });
    std::cout << (durability == store::Durability::bulk ? "bulk: " : "durable: ")
              << 1000 * took / acts << " us an act of 3 rows\n";
  }
}

} // namespace gk::test
