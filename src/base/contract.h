#pragma once

#include <source_location>
#include <string_view>

namespace gk::base {

/// A bug, not a mishap: says where on standard error and aborts. Safe at any moment, because every
/// act is already committed.
[[noreturn]] void fail(std::string_view what,
                       std::source_location where = std::source_location::current());

/// Always on, in every build.
inline void require(bool claim, std::string_view what,
                    std::source_location where = std::source_location::current()) {
  if (!claim) fail(what, where);
}

} // namespace gk::base
