#include "ui/support/cues.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace gk;
using base::Milliseconds;
using base::Seconds;
using ui::Cue;

namespace {

constexpr int rate = 8000;

/// All cues of a run that is looked at in steps of this size.
std::vector<std::pair<int, Cue>> heard(Milliseconds step, Seconds target, Seconds limit,
                                       Seconds until) {
  std::vector<std::pair<int, Cue>> all;
  Milliseconds told{0};
  for (auto now = step; now <= until; now += step) {
    for (const auto cue : ui::cuesBetween(told, now, target, limit))
      all.emplace_back(static_cast<int>(now.count()), cue);
    told = now;
  }
  return all;
}

/// Lengths of sound and silence in milliseconds, as a stopwatch would take them from the samples.
std::vector<int> rhythm(Cue cue) {
  const auto pcm = ui::samples(cue, 100, rate);
  std::vector<int> lengths;
  std::size_t from = 0;
  bool loud = true;
  const auto quietFrom = [&](std::size_t at) { // 5 ms without a single sample
    const auto end = std::min(at + rate / 200, pcm.size());
    return std::all_of(pcm.begin() + static_cast<long>(at), pcm.begin() + static_cast<long>(end),
                       [](auto sample) { return sample == 0; });
  };
  for (std::size_t at = 0; at < pcm.size(); ++at) {
    if (quietFrom(at) != loud) continue;
    lengths.push_back(static_cast<int>((at - from) * 1000 / rate));
    from = at;
    loud = !loud;
  }
  lengths.push_back(static_cast<int>((pcm.size() - from) * 1000 / rate));
  return lengths;
}

} // namespace

TEST_CASE("Over twenty seconds the ticks come at 5, 10 and 15, three at the end, then two notes") {
  const std::vector<std::pair<int, Cue>> expected{
      {5000, Cue::tick},     {10000, Cue::tick},    {15000, Cue::tick},
      {17000, Cue::nearEnd}, {18000, Cue::nearEnd}, {19000, Cue::nearEnd},
      {20000, Cue::target},  {31000, Cue::over},    {32000, Cue::over}};
  CHECK(heard(Milliseconds(100), Seconds(20), Seconds(30), Seconds(32)) == expected);
}

TEST_CASE("A tick that is due with one of the last three is told once") {
  const std::vector<std::pair<int, Cue>> expected{
      {5000, Cue::nearEnd}, {6000, Cue::nearEnd}, {7000, Cue::nearEnd}, {8000, Cue::target}};
  CHECK(heard(Milliseconds(100), Seconds(8), Seconds(18), Seconds(10)) == expected);
}

TEST_CASE("A look that comes late tells the target and nothing that is past") {
  CHECK(ui::cuesBetween(Milliseconds(4000), Milliseconds(21000), Seconds(20), Seconds(30)) ==
        std::vector{Cue::target});
  CHECK(ui::cuesBetween(Milliseconds(4000), Milliseconds(16500), Seconds(20), Seconds(30)) ==
        std::vector{Cue::tick});
  CHECK(
      ui::cuesBetween(Milliseconds(21000), Milliseconds(22000), Seconds(20), Seconds(30)).empty());
}

TEST_CASE("Cues are told apart by rhythm alone") {
  const auto start = rhythm(Cue::start);
  const auto target = rhythm(Cue::target);
  REQUIRE(start.size() == 1);
  CHECK(start[0] == Approx(500).margin(10));
  REQUIRE(target.size() == 3);
  CHECK(target[0] == Approx(700).margin(10));
  CHECK(target[1] == Approx(250).margin(10));
  CHECK(target[2] == Approx(700).margin(10));
  CHECK(rhythm(Cue::tick)[0] == Approx(40).margin(10));
  CHECK(rhythm(Cue::nearEnd)[0] == Approx(80).margin(10));
  CHECK(rhythm(Cue::over)[0] == Approx(150).margin(10));
}

TEST_CASE("Samples follow the volume, begin and end softly and never clip") {
  const auto loudest = [](const std::vector<std::int16_t>& pcm) {
    int most = 0;
    for (const auto sample : pcm)
      most = std::max(most, std::abs(int{sample}));
    return most;
  };
  const auto full = ui::samples(Cue::start, 100, rate);
  const auto half = ui::samples(Cue::start, 50, rate);
  CHECK(full.size() == half.size());
  CHECK(loudest(half) == Approx(loudest(full) / 2.0).margin(2));
  CHECK(loudest(full) < 32767);
  CHECK(loudest(ui::samples(Cue::start, 0, rate)) == 0);
  CHECK(loudest(ui::samples(Cue::tick, 100, rate)) < loudest(full) / 2);
  CHECK(full.front() == 0);
  CHECK(std::abs(int{full.back()}) < 3000);
}

TEST_CASE("The flash has the rhythm of the sound and stays long enough to be seen") {
  CHECK(ui::isLit(Cue::target, Milliseconds(0)));
  CHECK(ui::isLit(Cue::target, Milliseconds(699)));
  CHECK_FALSE(ui::isLit(Cue::target, Milliseconds(800)));
  CHECK(ui::isLit(Cue::target, Milliseconds(960)));
  CHECK_FALSE(ui::isLit(Cue::target, ui::length(Cue::target)));
  CHECK(ui::isLit(Cue::tick, Milliseconds(99)));
  CHECK_FALSE(ui::isLit(Cue::tick, Milliseconds(100)));
}
