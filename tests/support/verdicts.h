#pragma once

#include <catch2/catch.hpp>

#include <cstdlib>
#include <fstream>

namespace gk::test {

/// Writes a line for each case as it ends into the file that GROOVEKEEPER_VERDICTS names, so that
/// one process runs a whole folder and ctest still names every case (tests/discover.cmake).
/// Included by each main, once.
class VerdictWriter final : public Catch::TestEventListenerBase {
 public:
  using TestEventListenerBase::TestEventListenerBase;

  void testCaseEnded(const Catch::TestCaseStats& stats) override {
    const char* const file = std::getenv("GROOVEKEEPER_VERDICTS");
    if (!file) return;
    // Opened each time: a case that ends the process leaves what came before.
    std::ofstream(file, std::ios::app)
        << (stats.totals.assertions.allOk() && !stats.aborting ? "passed " : "failed ")
        << stats.testInfo.name << '\n';
  }
};

// By its bare name: Catch makes a variable's name of what stands here.
CATCH_REGISTER_LISTENER(VerdictWriter)

} // namespace gk::test
