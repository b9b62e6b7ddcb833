#include "roster/program.h"
#include "store/book.h"
#include "store/migration.h"
#include "store/transaction.h"
#include "support/scratch.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <cmath>
#include <fstream>
#include <iostream>

// The file as numbers, each as a ratio within one run: docs/benchmarks.md, The file. The logbooks
// are made by test_session "[.large]" and lie in the folder GK_BOOKS, or beside this program.

namespace gk::test {

namespace {

using store::Access;
using store::Book;
using store::Durability;

const base::Instant benchDay{base::Milliseconds(1'794'924'000'000)};

template <class Work>
double secondsOf(Work work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

double medianOf(std::vector<double> values) {
  std::ranges::nth_element(values, values.begin() + std::ssize(values) / 2);
  return values.at(values.size() / 2);
}

template <class T>
T must(base::Result<T> result) {
  if (!result) FAIL(result.error().detail);
  return std::move(*result);
}

constexpr int mostChildren = 100'000;

base::Path keptAs(int children) {
  const char* named = std::getenv("GK_BOOKS");
  return base::Path(named != nullptr ? named : GK_BIN_DIR) /
         ("large-" + std::to_string(children) + ".gkbook");
}
bool areKept() {
  return std::filesystem::exists(keptAs(mostChildren));
}

std::int64_t countOf(store::Connection& book, const std::string& sql) {
  auto row = book.prepare(sql);
  row.step();
  return row.column<std::int64_t>(0);
}

std::vector<std::string> recordTables() {
  std::vector<std::string> tables;
  for (const auto& table : store::newestSchema().records)
    tables.push_back(table.name);
  return tables;
}

/// An empty logbook that is the same one as `like`.
base::Path emptyLike(const base::Path& like, const base::Path& path) {
  auto made = must(store::createBook(path, Durability::bulk, benchDay));
  made.prepare("ATTACH DATABASE ? AS other").bindAll(std::string_view(like.native())).run();
  made.execute("INSERT INTO main.book SELECT * FROM other.book; DETACH DATABASE other");
  made.finish();
  return path;
}

/// The most memory that this process has had since the last reset, in MB.
double mostMemory() {
  std::ifstream status("/proc/self/status");
  std::string line;
  while (std::getline(status, line))
    if (line.starts_with("VmHWM:")) return std::atof(line.c_str() + 6) / 1024;
  return 0;
}
void resetMemory() {
  std::ofstream("/proc/self/clear_refs") << "5";
}

} // namespace

TEST_CASE("Bytes of an entry, and a child's card against the size of the book", "[.bench]") {
  if (!areKept()) return;
  std::vector<std::pair<double, double>> cards;
  for (const int children : {mostChildren / 100, mostChildren / 10, mostChildren}) {
    const auto path = keptAs(children);
    const auto bytes = static_cast<double>(std::filesystem::file_size(path));
    base::SeededRandom random(7);
    std::vector<roster::ChildId> asked;
    std::int64_t entries = 0;
    {
      store::Connection file(path, Access::readOnly, Durability::bulk);
      entries = countOf(file, "SELECT count(*) FROM entry");
      auto all = file.prepare("SELECT entry FROM child");
      while (all.step())
        asked.push_back(all.column<roster::ChildId>(0));
    }
    std::vector<roster::ChildId> some;
    for (int i = 0; i < 500; ++i)
      some.push_back(asked[random.below(asked.size())]);
    auto book = must(Book::open(path, base::LaptopId(base::Uuid{}), Access::readOnly,
                                Durability::bulk, benchDay, store::Checkup::skip));
    std::vector<double> times;
    std::size_t rows = 0;
    for (int again = 0; again < 3; ++again)
      for (const auto& child : some) {
        times.push_back(secondsOf([&] { rows += must(book.entriesAbout(child)).size(); }));
      }
    times.erase(times.begin(), times.begin() + 500);
    const double median = medianOf(times);
    cards.emplace_back(children, median);
    std::cout << children << " children: " << entries << " entries, " << bytes / 1e6 << " MB, "
              << bytes / static_cast<double>(entries) << " bytes an entry; a card " << 1e6 * median
              << " us (" << static_cast<double>(rows) / 1500 << " rows)" << std::endl;
  }
  const auto exponent = [&](std::size_t from, std::size_t to) {
    return std::log(cards[to].second / cards[from].second) /
           std::log(cards[to].first / cards[from].first);
  };
  std::cout << "a card's exponent: " << exponent(0, 2) << " (" << exponent(0, 1) << ", "
            << exponent(1, 2) << "), ratio " << cards[2].second / cards[0].second << std::endl;
  CHECK(exponent(0, 2) < 0.2);
}

TEST_CASE("An act against a bare commit of the same bytes with the same settings", "[.bench]") {
  const Scratch folder;
  base::SeededRandom random(3);
  const base::LaptopId laptop(base::makeUuid7(benchDay, random));
  constexpr int acts = 1500;
  auto book =
      must(Book::create(folder / "acts.gkbook", laptop, Durability::everyAct, benchDay,
                        {std::vector<std::uint8_t>(16, 1), 3, 65536,
                         std::vector<std::uint8_t>(24, 2), std::vector<std::uint8_t>(48, 3)},
                        random));
  { std::ofstream(folder / "bare.db"); }
  store::Connection bare(folder / "bare.db", Access::readWrite, Durability::everyAct);
  bare.execute("CREATE TABLE jar (id INTEGER PRIMARY KEY, bytes BLOB NOT NULL) STRICT");
  const auto before = std::filesystem::file_size(folder / "acts.gkbook");
  std::size_t size = 350;
  std::vector<double> ours;
  std::vector<double> theirs;
  for (int i = 0; i < acts; ++i) {
    ours.push_back(secondsOf([&] {
      must(book.act({}, {benchDay, {}}, [](store::Act& act) {
        for (int row = 0; row < 3; ++row)
          act.add(roster::School{"Cobble Lantern Elementary", "CL"});
      }));
    }));
    const std::vector<std::uint8_t> bytes(size, 7);
    theirs.push_back(secondsOf([&] {
      store::Transaction transaction(bare);
      bare.prepare("INSERT INTO jar (bytes) VALUES (?)")
          .bindAll(std::span<const std::uint8_t>(bytes))
          .run();
      transaction.commit();
    }));
    size = std::max<std::size_t>(
        100, (std::filesystem::file_size(folder / "acts.gkbook") - before) / ours.size());
  }
  std::cout << "an act of 3 rows, " << size << " bytes: median " << 1e6 * medianOf(ours)
            << " us; a bare commit " << 1e6 * medianOf(theirs) << " us; ratio "
            << medianOf(ours) / medianOf(theirs) << std::endl;
}

TEST_CASE("A merge against INSERT ... SELECT", "[.bench]") {
  if (!areKept()) return;
  const Scratch folder;
  const auto other = keptAs(mostChildren);
  double rows = 0;
  const auto plain = emptyLike(other, folder / "plain.gkbook");
  resetMemory();
  const double copied = secondsOf([&] {
    store::Connection book(plain, Access::readWrite, Durability::everyAct);
    book.prepare("ATTACH DATABASE ? AS other").bindAll(std::string_view(other.native())).run();
    store::Transaction transaction(book);
    auto tables = recordTables();
    tables.insert(tables.begin(), {"hand", "entry"});
    tables.emplace_back("act");
    for (const auto& table : tables) {
      book.execute("INSERT INTO main.\"" + table + "\" SELECT * FROM other.\"" + table + '"');
      rows += static_cast<double>(book.changes());
    }
    transaction.commit();
  });
  std::cout << "INSERT ... SELECT: " << rows << " rows in " << copied << " s, " << rows / copied
            << " rows/s, " << mostMemory() << " MB" << std::endl;
  for (const bool isRenumbered : {false, true}) {
    const auto path = emptyLike(other, folder / (isRenumbered ? "other.gkbook" : "same.gkbook"));
    base::SeededRandom random(11);
    auto book = must(Book::open(path, base::LaptopId(base::makeUuid7(benchDay, random)),
                                Access::readWrite, Durability::everyAct, benchDay));
    if (isRenumbered)
      must(book.act({}, {benchDay, {}}, [](store::Act& act) {
        act.add(roster::School{"Cobble Lantern", "CL"});
      }));
    resetMemory();
    const double merged = secondsOf([&] { must(book.absorb(other, benchDay)); });
    std::cout << (isRenumbered ? "a merge with other numbers: " : "a merge: ") << merged << " s, "
              << rows / merged << " rows/s, " << copied / merged << " of the speed, "
              << mostMemory() << " MB" << std::endl;
  }
}

} // namespace gk::test
