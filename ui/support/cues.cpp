#include "ui/support/cues.h"

#include "base/contract.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace gk::ui {

using base::Milliseconds;
using base::Seconds;

namespace {

constexpr Seconds tickEvery{5};
constexpr int lastSeconds = 3;
constexpr Milliseconds leastLit{100};
/// Long enough that the edge of a note is no click.
constexpr Milliseconds edge{8};
/// Of the whole range at full volume: room for a loudspeaker's own gain.
constexpr double fullScale = 0.8 * 32767.0;

Milliseconds lit(const Note& note) {
  return std::max(note.on, leastLit);
}

} // namespace

std::vector<Note> pattern(Cue cue) {
  switch (cue) {
  case Cue::start:
    return {{Milliseconds(500), Milliseconds(0), 262}};
  case Cue::tick:
    return {{Milliseconds(40), Milliseconds(0), 880, 0.3}};
  case Cue::nearEnd:
    return {{Milliseconds(80), Milliseconds(0), 880}};
  case Cue::target:
    return {{Milliseconds(700), Milliseconds(250), 523}, {Milliseconds(700), Milliseconds(0), 523}};
  case Cue::over:
    return {{Milliseconds(150), Milliseconds(0), 392}};
  }
  base::fail("no such cue");
}

bool isLit(Cue cue, Milliseconds since) {
  for (const auto& note : pattern(cue)) {
    if (since < Milliseconds(0)) return false;
    if (since < lit(note)) return true;
    since -= lit(note) + note.off;
  }
  return false;
}

Milliseconds length(Cue cue) {
  Milliseconds all{0};
  for (const auto& note : pattern(cue))
    all += lit(note) + note.off;
  return all;
}

std::vector<Cue> cuesBetween(Milliseconds from, Milliseconds to, Seconds target, Seconds limit) {
  std::vector<Cue> cues;
  const auto passed = [&](Milliseconds moment) { return from < moment && moment <= to; };
  if (target == Seconds{0} || to <= from) return cues;
  const auto whole = std::chrono::floor<Seconds>(to);
  std::optional<Cue> tick;
  for (auto second = std::chrono::floor<Seconds>(from) + Seconds(1); second <= whole; ++second) {
    if (!passed(second)) continue;
    if (second < target) {
      if (second >= target - Seconds(lastSeconds))
        tick = Cue::nearEnd;
      else if (second % tickEvery == Seconds(0))
        tick = Cue::tick;
    } else if (second > target && second > limit) {
      tick = Cue::over;
    }
  }
  if (passed(target)) {
    cues.push_back(Cue::target);
    if (tick && *tick != Cue::over) tick.reset(); // it is past
  }
  if (tick) cues.push_back(*tick);
  return cues;
}

std::vector<std::int16_t> samples(Cue cue, int volume, int samplesPerSecond) {
  std::vector<std::int16_t> out;
  const auto count = [&](Milliseconds time) {
    return static_cast<int>(time.count() * samplesPerSecond / 1000);
  };
  for (const auto& note : pattern(cue)) {
    const int on = count(note.on);
    const double rise = std::max(1, std::min(count(edge), on / 2));
    for (int i = 0; i < on; ++i) {
      const double envelope = std::min({1.0, i / rise, (on - i) / rise});
      const double turn = 2.0 * std::numbers::pi * note.hertz * i / samplesPerSecond;
      const double height = fullScale * volume / 100.0 * note.loudness * envelope * std::sin(turn);
      out.push_back(static_cast<std::int16_t>(std::lround(height)));
    }
    out.insert(out.end(), static_cast<std::size_t>(count(note.off)), 0);
  }
  return out;
}

} // namespace gk::ui
