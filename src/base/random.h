#pragma once

#include <array>
#include <cstdint>
#include <span>

namespace gk::base {

/// Randomness is passed in.
class Random {
 public:
  virtual ~Random() = default;
  virtual void fill(std::span<std::uint8_t> bytes) = 0;

  std::uint64_t next();
  /// Uniform in [0, 1) with 53 bits.
  double uniform();
  /// Uniform in [0, bound). Precondition: bound > 0.
  std::uint64_t below(std::uint64_t bound);
};

/// The operating system's generator, fit for keys.
class SystemRandom final : public Random {
 public:
  void fill(std::span<std::uint8_t> bytes) override;
};

/// xoshiro256** (Blackman and Vigna 2021) seeded by splitmix64: repeatable, for the demo, tests
/// and simulations. Never for the keys of a real book.
class SeededRandom final : public Random {
 public:
  explicit SeededRandom(std::uint64_t seed);
  void fill(std::span<std::uint8_t> bytes) override;

 private:
  std::uint64_t step();
  std::array<std::uint64_t, 4> state_;
};

} // namespace gk::base
