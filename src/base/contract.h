#pragma once

#include <string_view>

namespace gk::base {

/// A bug, not a mishap: says where on standard error and aborts. Safe at any moment, because every
/// act is already committed. (The built-ins stand in for std::source_location, which clang-tidy 14
/// cannot read.)
[[noreturn]] void fail(std::string_view what, const char* file = __builtin_FILE(),
                       int line = __builtin_LINE());

/// Always on, in every build.
inline void require(bool claim, std::string_view what, const char* file = __builtin_FILE(),
                    int line = __builtin_LINE()) {
  if (!claim) fail(what, file, line);
}

} // namespace gk::base
