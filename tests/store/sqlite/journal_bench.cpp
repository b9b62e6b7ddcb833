#include "broken/broken_books.h"
#include "store/sqlite/transaction.h"
#include "support/scratch.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <iostream>

namespace gk::test {

namespace {

/// Milliseconds a one-row act took, sorted.
std::vector<double> commitTimes(store::Connection& book, int acts) {
  std::vector<double> times;
  for (int act = 0; act < acts; ++act) {
    const auto start = std::chrono::steady_clock::now();
    store::Transaction transaction(book);
    book.prepare("INSERT INTO jar (id, shelf, label) VALUES (?1, ?2, ?3)")
        .bindAll(1000 + act, 1, std::string(120, 'p'))
        .run();
    transaction.commit();
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
    times.push_back(took.count());
  }
  std::sort(times.begin(), times.end());
  return times;
}

void report(std::string_view name, std::string_view pragmas) {
  const Scratch scratch;
  writeBook(scratch / "larkmere.gkbook");
  store::Connection book(scratch / "larkmere.gkbook", store::Access::readWrite,
                         store::Durability::everyAct);
  book.execute(pragmas);
  const auto times = commitTimes(book, 1000);
  std::cout << name << ": median " << times[500] << " ms, 99th percentile " << times[990]
            << " ms, worst " << times[999] << " ms\n";
}

} // namespace

TEST_CASE("cost of one committed act by journal", "[.bench]") {
  report("rollback, EXTRA (chosen)", "PRAGMA synchronous = EXTRA");
  report("rollback, FULL", "PRAGMA synchronous = FULL");
  report("WAL, FULL", "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL");
}

TEST_CASE("acknowledged rows in a copy of the open file by journal", "[.bench]") {
  for (const std::string mode : {"DELETE", "WAL"}) {
    const Scratch scratch;
    writeBook(scratch / "larkmere.gkbook", 0);
    store::Connection book(scratch / "larkmere.gkbook", store::Access::readWrite,
                           store::Durability::everyAct);
    book.execute("PRAGMA journal_mode = " + mode);
    commitTimes(book, 50);
    std::filesystem::copy_file(scratch / "larkmere.gkbook", scratch / "copy.gkbook");
    store::Connection copy(scratch / "copy.gkbook", store::Access::readWrite,
                           store::Durability::everyAct);
    auto count = copy.prepare("SELECT count(*) FROM jar");
    REQUIRE(count.step());
    std::cout << mode << ": " << count.column<int>(0) << " of 50 acts in the copy\n";
  }
}

TEST_CASE("time to read the rows of one program term", "[.bench]") {
  const Scratch scratch;
  constexpr int rows = 20'000; // five thousand children with four placements each
  writeBook(scratch / "larkmere.gkbook", rows);
  store::Connection book(scratch / "larkmere.gkbook", store::Access::readWrite,
                         store::Durability::everyAct);
  const auto start = std::chrono::steady_clock::now();
  auto jars = book.prepare("SELECT id, shelf, label FROM jar ORDER BY id");
  std::size_t bytes = 0;
  while (jars.step())
    bytes += std::get<2>(jars.columns<std::int64_t, std::int64_t, std::string>()).size();
  const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
  CHECK(bytes == 200UL * rows);
  std::cout << rows << " rows read in " << took.count() << " ms\n";
}

} // namespace gk::test
