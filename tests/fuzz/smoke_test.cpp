#include "base/files/files.h"
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

TEST_CASE("Every target is built for the fuzzer") {
  const auto list = gk::base::readFile(gk::base::Path(GK_SOURCE_DIR) / "tests/CMakeLists.txt");
  REQUIRE(list);
  const std::string_view text = *list;
  const std::string_view begin = "foreach(target ";
  const auto from = text.find(begin);
  REQUIRE(from != std::string_view::npos);
  std::string names;
  for (const auto& target : fuzzTargets())
    names += ' ' + std::string(target.name);
  CHECK(text.substr(from + begin.size(), names.size()) == names.substr(1) + ')');
}
