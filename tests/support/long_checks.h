#pragma once

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <string>

namespace gk::test {

/// The long checks run sampled, and whole where GROOVEKEEPER_LONG is set, as .ci/nightly does.
inline bool isLong() {
  return std::getenv("GROOVEKEEPER_LONG") != nullptr;
}
/// A sanitizer takes twenty times as long and looks at paths, not at numbers: a fifth of the
/// sample.
inline int rounds(int sampled, int whole) {
#ifdef GK_SANITIZED
  sampled = std::max(1, sampled / 5);
#endif
  return isLong() ? whole : sampled;
}
/// The same of what is walked: one of so many.
inline std::uint64_t oneOf(std::uint64_t sampled) {
#ifdef GK_SANITIZED
  sampled *= 5;
#endif
  return isLong() ? 1 : sampled;
}
/// GROOVEKEEPER_FROM, where a long walk goes on that was stopped; and GROOVEKEEPER_TO, where it
/// ends, so that two processors share it.
inline std::uint64_t fromOr(std::uint64_t first) {
  const char* given = std::getenv("GROOVEKEEPER_FROM");
  return given ? std::stoull(given) : first;
}
inline std::uint64_t toOr(std::uint64_t last) {
  const char* given = std::getenv("GROOVEKEEPER_TO");
  return given ? std::min<std::uint64_t>(last, std::stoull(given)) : last;
}
/// GROOVEKEEPER_SEED, so that another run draws another sample and a failed one can be repeated.
inline std::uint64_t seedOr(std::uint64_t usual) {
  const char* given = std::getenv("GROOVEKEEPER_SEED");
  return given ? std::stoull(given) : usual;
}

} // namespace gk::test
