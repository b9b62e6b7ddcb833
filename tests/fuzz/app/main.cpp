// One target for libFuzzer, by its name: `GK_TARGET` is given by the build.
#include "fuzz/targets.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

namespace {

const gk::test::FuzzTarget& target() {
  for (const auto& one : gk::test::fuzzTargets())
    if (one.name == GK_TARGET) return one;
  std::abort();
}

} // namespace

/// Writes the seeds into the folder of GK_SEEDS, where the fuzzer is then told to begin.
extern "C" int LLVMFuzzerInitialize(int* /*count*/, char*** /*words*/) {
  if (const char* folder = std::getenv("GK_SEEDS")) {
    std::filesystem::create_directories(folder);
    int number = 0;
    for (const auto& seed : target().seeds())
      std::ofstream(std::filesystem::path(folder) / ("seed-" + std::to_string(number++)),
                    std::ios::binary)
          << seed;
  }
  return 0;
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  target().run({bytes, size});
  return 0;
}
