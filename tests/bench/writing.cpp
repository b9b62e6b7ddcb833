#include "bench/books.h"
#include "bench/cost.h"
#include "bench/measures.h"
#include "store/sqlite/transaction.h"
#include "support/clinic.h"

#include <fstream>

namespace gk::bench {

using store::Access;
using store::Book;
using store::Durability;
using test::must;

namespace {

const base::Instant benchDay{base::Milliseconds(1'794'924'000'000)};

} // namespace

namespace {

/// Every row of the other logbook into an empty one, by SQL alone; how many.
double copyBare(const base::Path& other, const base::Path& plain) {
  store::Connection book(plain, Access::readWrite, Durability::everyAct);
  book.prepare("ATTACH DATABASE ? AS other").bindAll(std::string_view(other.native())).run();
  store::Transaction transaction(book);
  auto tables = recordTables();
  tables.insert(tables.begin(), {"hand", "entry"});
  tables.emplace_back("act");
  double rows = 0;
  for (const auto& table : tables) {
    book.execute("INSERT INTO main.\"" + table + "\" SELECT * FROM other.\"" + table + '"');
    rows += static_cast<double>(book.changes());
  }
  transaction.commit();
  return rows;
}

} // namespace

void measureMerge(const base::Path& other, int children, Figures& figures) {
  // The small ones are over in a blink, so that one measuring of them is mostly luck.
  const int turns = children <= 10'000 ? 3 : 1;
  double rows = 0;
  std::vector<double> merges;
  std::vector<double> speeds;
  for (int turn = 0; turn < turns; ++turn) {
    const test::Scratch folder;
    const auto plain = emptyLike(other, folder / "plain.gkbook");
    const double copied = processorCost([&] { rows = copyBare(other, plain); });
    std::filesystem::remove(plain);
    const auto path = emptyLike(other, folder / "merged.gkbook");
    base::SeededRandom random(11);
    auto book = must(Book::open(path, base::LaptopId(base::makeUuid7(benchDay, random)),
                                Access::readWrite, Durability::everyAct, benchDay));
    forgetMemory();
    merges.push_back(processorCost([&] { must(book.absorb(other, benchDay)); }));
    speeds.push_back(copied / merges.back());
  }
  const auto size = ", " + std::to_string(children) + " children";
  figures.addCost("a merge, verified", Growth::scan, children, medianOf(merges), "s");
  figures.add({"rows of it" + size, rows / 1e6, "million", {}});
  // The target is of a million rows. A merge of some hundred thousand has its opening and closing
  // to carry besides; of fewer, those are most of it.
  figures.add(
      {"its speed over that of INSERT ... SELECT" + size, medianOf(speeds), "",
       rows < 1e5 ? std::nullopt : std::optional(Target{Keep::atLeast, rows < 1e6 ? 0.4 : 0.5})});
  figures.add({"most memory of it" + size, mostMemory(), "MB", Target{Keep::atMost, 300}});
}

void measureAct(Figures& figures) {
  const test::Scratch folder;
  base::SeededRandom random(3);
  const base::LaptopId laptop(base::makeUuid7(benchDay, random));
  constexpr int acts = 600;
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
  std::vector<double> waits; // of theirs, for the disk
  for (int i = 0; i < acts; ++i) {
    ours.push_back(wallCost([&] {
      must(book.act({}, {benchDay, {}}, [](store::Act& act) {
        for (int row = 0; row < 3; ++row)
          act.add(roster::School{"Cobble Lantern Elementary", "CL"});
      }));
    }));
    const std::vector<std::uint8_t> bytes(size, 7);
    double worked = 0;
    theirs.push_back(wallCost([&] {
      worked = processorCost([&] {
        store::Transaction transaction(bare);
        bare.prepare("INSERT INTO jar (bytes) VALUES (?)")
            .bindAll(std::span<const std::uint8_t>(bytes))
            .run();
        transaction.commit();
      });
    }));
    waits.push_back(theirs.back() - worked);
    size = std::max<std::size_t>(
        100, (std::filesystem::file_size(folder / "acts.gkbook") - before) / ours.size());
  }
  figures.add({"an act of 3 rows, durable", 1e3 * medianOf(ours), "ms", {}});
  figures.add({"a bare commit of as many bytes (" + std::to_string(size) + "), same settings",
               1e3 * medianOf(theirs),
               "ms",
               {}});
  // Where a sync costs nothing, as on a disk in memory, this compares processor time: no laptop's
  // disk is like that.
  const bool isSynced = medianOf(waits) >= 1e-3;
  figures.add({"the act over the commit", medianOf(ours) / medianOf(theirs), "",
               isSynced ? std::optional(Target{Keep::atMost, 1.3}) : std::nullopt});
}

} // namespace gk::bench
