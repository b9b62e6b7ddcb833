#include "base/random.h"
#include "fuzz/targets.h"

#include <catch2/catch.hpp>

using namespace gk::test;

// What the fuzzer does for a minute each night, for a moment: every target on its seeds, whole, cut
// short and with a byte changed.
TEST_CASE("Every parser of bytes from outside lives through its seeds and what is near them",
          "[case-265]") {
  gk::base::SeededRandom random(265);
  for (const auto& target : fuzzTargets()) {
    INFO(target.name);
    target.run({});
    for (auto seed : target.seeds()) {
      const auto run = [&](const std::string& text) {
        target.run({reinterpret_cast<const std::uint8_t*>(text.data()), text.size()});
      };
      run(seed);
      if (seed.empty()) continue;
      for (int i = 0; i < 20; ++i) {
        auto changed = seed;
        changed[random.below(changed.size())] = static_cast<char>(random.below(256));
        run(changed);
        run(seed.substr(0, random.below(seed.size())));
      }
    }
  }
  SUCCEED("none of them died");
}
