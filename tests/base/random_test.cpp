#include "base/random.h"

#include <catch2/catch.hpp>
#include <map>

using namespace gk::base;

TEST_CASE("The repeatable generator gives the known numbers of its method") {
  // xoshiro256** with its state filled by splitmix64 from 0, as the reference C of both
  // (prng.di.unimi.it/xoshiro256starstar.c and splitmix64.c, Blackman and Vigna) gives them.
  SeededRandom random(0);
  CHECK(random.next() == 0x99EC5F36CB75F2B4ULL);
  CHECK(random.next() == 0xBF6E1F784956452AULL);
  CHECK(random.next() == 0x1A5F849D4933E6E0ULL);
  CHECK(random.next() == 0x6AA594F1262D2D2CULL);
}

TEST_CASE("One starting number gives one sequence and another gives another") {
  SeededRandom first(42);
  SeededRandom second(42);
  SeededRandom other(43);
  bool differs = false;
  for (int i = 0; i < 100; ++i) {
    const auto value = first.next();
    CHECK(value == second.next());
    differs = differs || value != other.next();
  }
  CHECK(differs);
}

TEST_CASE("A length that is no whole word is filled to its last byte") {
  std::array<std::uint8_t, 13> bytes{};
  bool lastMoved = false;
  SeededRandom random(7);
  for (int i = 0; i < 8; ++i) {
    random.fill(bytes);
    lastMoved = lastMoved || bytes.back() != 0;
  }
  CHECK(lastMoved);
}

TEST_CASE("A fraction lies from zero to below one and averages a half") {
  SeededRandom random(11);
  double sum = 0;
  for (int i = 0; i < 10'000; ++i) {
    const double value = random.uniform();
    REQUIRE(value >= 0.0);
    REQUIRE(value < 1.0);
    sum += value;
  }
  CHECK(sum / 10'000 == Approx(0.5).margin(0.015)); // five standard errors of 0.0029
}

TEST_CASE("A number below a bound reaches every value about equally often") {
  SeededRandom random(13);
  std::map<std::uint64_t, int> counts;
  for (int i = 0; i < 6'000; ++i)
    ++counts[random.below(6)];
  REQUIRE(counts.size() == 6);
  for (const auto& [value, count] : counts) {
    CHECK(value < 6);
    CHECK(count == Approx(1000).margin(145)); // five standard errors of 28.9
  }
  CHECK(random.below(1) == 0);
}

TEST_CASE("The system's generator does not repeat itself") {
  SystemRandom random;
  CHECK(random.next() != random.next());
}
