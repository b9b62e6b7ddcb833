#include "reports/inputs.h"
#include "reports/term_totals.h"
#include "session/session.h"
#include "store/connection.h"
#include "support/large_book.h"

#include <catch2/catch.hpp>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iostream>

namespace gk::test {

namespace {

double processorMs() {
  timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
}

template <class Work>
double costOf(Work work) {
  const auto start = processorMs();
  work();
  return processorMs() - start;
}

/// Megabytes; what the process holds at this moment.
double residentMb() {
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);)
    if (line.starts_with("VmRSS:")) return std::stod(line.substr(6)) / 1024;
  return 0;
}

int childrenAskedFor() {
  const char* given = std::getenv("GK_CHILDREN");
  return given == nullptr ? 100'000 : std::stoi(given);
}

/// As a bare reader would: every value of every row, nothing kept.
std::size_t stepThroughAll(store::Connection& book) {
  std::size_t touched = 0;
  auto tables = book.prepare("SELECT name, ncol FROM pragma_table_list WHERE type = 'table' AND "
                             "schema = 'main' AND name NOT LIKE 'sqlite%'");
  while (tables.step()) {
    const auto [name, columns] = tables.columns<std::string, int>();
    auto rows = book.prepare("SELECT * FROM \"" + name + '"');
    while (rows.step())
      for (int i = 0; i < columns; ++i)
        touched += rows.cell(i).bytes.size();
  }
  return touched;
}

base::Path keptLargeBook(int children) {
  const base::Path kept =
      base::Path(GK_BIN_DIR) / ("large-" + std::to_string(children) + ".gkbook");
  if (!std::filesystem::exists(kept)) {
    const auto half = kept.string() + ".half"; // of a run that was cut off
    std::filesystem::remove(half);
    makeLargeBook(half, children);
    std::filesystem::rename(half, kept);
  }
  return kept;
}

} // namespace

// GK_CHILDREN says how large. Processor time, so that whoever else works here counts less.
TEST_CASE("Cost of the totals of terms against a bare reading of the rows", "[.bench]") {
  Scratch folder;
  const auto copy = folder / "large.gkbook";
  std::filesystem::copy_file(keptLargeBook(childrenAskedFor()), copy);
  base::ManualClock clock(base::atLocal(base::Date::parse("2026-11-17").value(),
                                        std::chrono::hours(9), std::chrono::minutes(0)));
  base::SeededRandom random(1);
  const base::LaptopId laptop(base::makeUuid7(clock.now().at, random));
  auto session = must(session::Session::open(copy, laptop, {clock, random}, store::Access::readOnly,
                                             session::BookKind::throwaway));
  std::size_t touched = 0;
  const auto bare = costOf([&] {
    store::Connection book(copy, store::Looking::locked);
    touched = stepThroughAll(book);
  });
  std::cout << "bare reading of every row: " << bare << " ms (" << touched << " bytes), resident "
            << residentMb() << " MB\n";
  double sum = 0;
  for (const auto& term : must(session.terms())) {
    double counted = 0;
    const auto read = costOf([&] {
      const auto records =
          must(session.termRecords(term.id, clock.now().date(), session::Reach::term));
      counted = costOf([&] { CHECK(reports::termTotals(records).total.sealed >= 0); });
    });
    std::cout << term.value.name << ": read " << read - counted << " ms, counted " << counted
              << " ms, resident " << residentMb() << " MB\n";
    sum += read;
  }
  std::cout << "all terms: " << sum << " ms, " << sum / bare << " times the bare reading\n";
}

} // namespace gk::test
