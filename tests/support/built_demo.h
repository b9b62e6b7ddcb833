#pragma once

#include "demo.h"
#include "support/clinic.h"

#include <array>
#include <filesystem>
#include <optional>

namespace gk::test {

/// The demo in `folder`. It is built once in a process, since that takes seconds, and then copied.
inline void copyDemo(const base::Path& folder, demo::Until until) {
  static std::array<std::optional<Scratch>, 2> built;
  auto& kept = built.at(until == demo::Until::closed ? 1 : 0);
  if (!kept) {
    kept.emplace();
    must(demo::buildDemo(kept->path(), until));
  }
  std::filesystem::copy(kept->path(), folder,
                        std::filesystem::copy_options::recursive |
                            std::filesystem::copy_options::overwrite_existing);
}

} // namespace gk::test
