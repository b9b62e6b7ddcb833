#include "bench/books.h"
#include "bench/cost.h"
#include "bench/measures.h"
#include "bench/page.h"

#include <array>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>

namespace gk::bench {

namespace {

std::vector<int> sizes() {
  const char* given = std::getenv("GK_SIZES");
  std::istringstream words(given == nullptr ? "1000 10000" : given);
  std::vector<int> out;
  for (int size = 0; words >> size;)
    out.push_back(size);
  return out;
}

base::Path folderOfBooks() {
  const char* given = std::getenv("GK_BOOKS");
  return given == nullptr ? base::Path(GK_BIN_DIR) : base::Path(given);
}

double loadNow() {
  double minute = 0;
  return ::getloadavg(&minute, 1) == 1 ? minute : 0;
}

std::string today() {
  const std::time_t now = std::time(nullptr);
  std::tm parts{};
  ::gmtime_r(&now, &parts);
  std::array<char, 11> text{};
  const auto size = std::strftime(text.data(), text.size(), "%Y-%m-%d", &parts);
  return {text.data(), size};
}

std::string textOf(const base::Path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

base::Path benchmarksPage() {
  return base::Path(GK_SOURCE_DIR) / "docs/benchmarks.md";
}

} // namespace

// tests/bench/run says how.
TEST_CASE("The logbook's costs keep to their targets", "[.bench]") {
  Figures figures;
  const double loadBefore = loadNow();
  measureAct(figures);
  std::vector<Kept> logbooks;
  for (const int children : sizes())
    logbooks.push_back({keptBook(folderOfBooks(), children), children});
  measureLookUps(logbooks, figures);
  for (const auto& [book, children] : logbooks) {
    measureFile(book, children, figures);
    measureScans(book, children, figures);
    measureTotals(book, children, figures);
    measureMerge(book, children, figures);
  }
  figures.addExponents();
  if (sizes().back() >= 1'000'000)
    figures.add({"a child's card, largest over smallest",
                 figures.growthOf("a child's card, as the chair reads it").value(), "",
                 Target{Keep::atMost, 1.5}});
  figures.print(std::cout);
  if (std::getenv("GK_WRITE_TABLE") != nullptr) {
    const auto page = withTable(textOf(benchmarksPage()),
                                asMeasured(figures, today(), {loadBefore, loadNow()}, sizes()));
    REQUIRE(page);
    std::ofstream(benchmarksPage(), std::ios::binary | std::ios::trunc) << *page;
  }
  CHECK(figures.allMet());
}

TEST_CASE("A figure meets its target at the bound and misses it past it") {
  CHECK(Figure{"a ratio", 3, "", Target{Keep::atMost, 3}}.isMet());
  CHECK_FALSE(Figure{"a ratio", 3.01, "", Target{Keep::atMost, 3}}.isMet());
  CHECK(Figure{"a speed", 0.5, "", Target{Keep::atLeast, 0.5}}.isMet());
  CHECK_FALSE(Figure{"a speed", 0.49, "", Target{Keep::atLeast, 0.5}}.isMet());
  CHECK(Figure{"a time", 7, "s", {}}.isMet());
}

TEST_CASE("A cost that grows with the logbook has exponent one and one that does not has none") {
  CHECK(exponentOf(1000, 2, 100'000, 200) == Approx(1));
  CHECK(exponentOf(1000, 2, 100'000, 2) == Approx(0));
  Figures figures;
  figures.addCost("scan", Growth::scan, 1000, 1, "s");
  figures.addCost("scan", Growth::scan, 10'000, 10, "s");
  figures.addExponents();
  CHECK(figures.allMet());
  figures.addCost("look-up", Growth::lookUp, 1000, 1, "us");
  figures.addCost("look-up", Growth::lookUp, 10'000, 10, "us");
  figures.addExponents();
  CHECK_FALSE(figures.allMet());
  CHECK(figures.growthOf("look-up") == Approx(10));
}

TEST_CASE("A page takes the table between its marks and keeps all else") {
  const std::string begins(tableBegins);
  const std::string ends(tableEnds);
  const auto before = "before\n" + begins + "\n\nan old table\n\n" + ends + "\nafter\n";
  const auto after = withTable(before, "| a |\n");
  REQUIRE(after);
  CHECK(*after == "before\n" + begins + "\n\n| a |\n\n" + ends + "\nafter\n");
  CHECK(withTable(*after, "| a |\n") == after);
  for (const auto& page : {std::string("no marks"), begins + "\n", ends + "\n",
                           ends + "\n" + begins + "\n", before + begins, before + ends})
    CHECK_FALSE(withTable(page, "| a |\n"));
}

TEST_CASE("What is put into the page says when and with what it was measured") {
  Figures figures;
  figures.add({"a ratio", 3, "", Target{Keep::atMost, 2}});
  CHECK(
      asMeasured(figures, "2026-11-17", {0.52, 3}, {1000, 10'000, 100'000}) ==
      "Measured 2026-11-17, load 0.5 at the beginning and 3.0 at the end, logbooks of 1000, 10000 "
      "and 100000 children.\n\n| | measured | target | |\n|---|---|---|---|\n"
      "| a ratio | 3.00 | at most 2.00 | MISSED |\n");
}

TEST_CASE("The page of the benchmarks has a place for the table, with a table in it") {
  const auto page = textOf(benchmarksPage());
  REQUIRE(withTable(page, "x"));
  const auto begins = page.find(tableBegins);
  const auto table = page.substr(begins, page.find(tableEnds) - begins);
  CHECK(table.find("Measured 20") != std::string::npos);
  CHECK(table.find("| | measured | target | |") != std::string::npos);
}

} // namespace gk::bench
