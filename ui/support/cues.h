#pragma once

#include "base/time/clock.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace gk::ui {

/// What the step timer says. Each is told by its rhythm alone, since a compressor roars and a pitch
/// is easily lost; low and short enough not to frighten a child.
enum class Cue {
  start,   ///< one low note
  tick,    ///< every 5 s: one soft tick
  nearEnd, ///< each of the last 3 s: a tick, so three
  target,  ///< two long notes
  over     ///< past the limit: one short note, again and again
};

struct Note {
  base::Milliseconds on{};
  base::Milliseconds off{}; ///< the rest after it
  int hertz = 0;
  double loudness = 1.0; ///< of the volume, 0 to 1
  bool operator==(const Note&) const = default;
};

/// The cue's notes, in order.
std::vector<Note> pattern(Cue cue);

/// Whether the cue's flash is lit so long after its beginning: the twin of its sound, each note
/// seen for at least a tenth of a second.
bool isLit(Cue cue, base::Milliseconds since);
/// When the flash is over.
base::Milliseconds length(Cue cue);

/// What is to be heard after `from` and up to `to`, both counted from the start of a run; however
/// late it is asked, nothing is told twice, and of several ticks missed only the last is told. The
/// target is never missed. Past `limit` the short note comes every second.
std::vector<Cue> cuesBetween(base::Milliseconds from, base::Milliseconds to, base::Seconds target,
                             base::Seconds limit);

/// The cue as 16-bit samples of one channel, with soft edges so that nothing clicks. `volume` is in
/// percent; 0 is silence of the same length.
std::vector<std::int16_t> samples(Cue cue, int volume, int samplesPerSecond);

} // namespace gk::ui
