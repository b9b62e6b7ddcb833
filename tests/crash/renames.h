#pragma once

#include <cstdint>

namespace gk::test {

/// The renames and hard links of this process, by which a whole file takes its name. SQLite makes
/// none of them, so FaultDisk cannot see them.
struct Renames {
  /// Counted from here. At that one, the first being 1, the process dies by SIGKILL; 0 is never.
  static void begin(std::uint64_t diesAt, bool afterIt);
  [[nodiscard]] static std::uint64_t count();
};

} // namespace gk::test
