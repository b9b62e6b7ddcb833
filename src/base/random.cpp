#include "base/random.h"

#include "base/contract.h"

#include <algorithm>
#include <bit>
#include <cerrno>
#include <cstring>
#include <sys/random.h>

namespace gk::base {

std::uint64_t Random::next() {
  std::array<std::uint8_t, 8> bytes{};
  fill(bytes);
  return std::bit_cast<std::uint64_t>(bytes);
}

double Random::uniform() {
  return static_cast<double>(next() >> 11U) * 0x1.0p-53;
}

std::uint64_t Random::below(std::uint64_t bound) {
  require(bound > 0, "below(0)");
  const std::uint64_t unfair = (0 - bound) % bound; // 2^64 mod bound
  for (;;) {
    const std::uint64_t value = next();
    if (value >= unfair) return value % bound;
  }
}

void SystemRandom::fill(std::span<std::uint8_t> bytes) {
  while (!bytes.empty()) {
    const ssize_t got = getrandom(bytes.data(), bytes.size(), 0);
    if (got < 0 && errno == EINTR) continue;
    require(got > 0, "the operating system gives no randomness");
    bytes = bytes.subspan(static_cast<std::size_t>(got));
  }
}

SeededRandom::SeededRandom(std::uint64_t seed) : state_{} {
  for (auto& word : state_) {
    seed += 0x9E3779B97F4A7C15ULL;
    std::uint64_t z = seed;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
    word = z ^ (z >> 31U);
  }
}

std::uint64_t SeededRandom::step() {
  const std::uint64_t result = std::rotl(state_[1] * 5, 7) * 9;
  const std::uint64_t t = state_[1] << 17U;
  state_[2] ^= state_[0];
  state_[3] ^= state_[1];
  state_[1] ^= state_[2];
  state_[0] ^= state_[3];
  state_[2] ^= t;
  state_[3] = std::rotl(state_[3], 45);
  return result;
}

void SeededRandom::fill(std::span<std::uint8_t> bytes) {
  while (!bytes.empty()) {
    const std::uint64_t word = step();
    const std::size_t count = std::min(bytes.size(), sizeof word);
    std::memcpy(bytes.data(), &word, count);
    bytes = bytes.subspan(count);
  }
}

} // namespace gk::base
