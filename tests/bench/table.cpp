#include "bench/books.h"
#include "bench/cost.h"
#include "bench/measures.h"

#include <catch2/catch.hpp>
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

} // namespace

// tests/bench/run says how.
TEST_CASE("The logbook's costs keep to their targets", "[.bench]") {
  Figures figures;
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

} // namespace gk::bench
