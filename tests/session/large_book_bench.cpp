#include "support/large_book.h"

#include <catch2/catch.hpp>
#include <iostream>

using namespace gk;

// The logbooks that test_store "[.bench]" and docs/benchmarks.md measure, beside this program.
TEST_CASE("Large logbooks are made to measure with", "[.large]") {
  for (const int children : {1000, 10'000, 100'000}) {
    const auto path = base::Path(GK_BIN_DIR) / ("large-" + std::to_string(children) + ".gkbook");
    std::filesystem::remove(path);
    test::makeLargeBook(path, children);
    std::cout << path << ": " << std::filesystem::file_size(path) << " bytes" << std::endl;
  }
}
