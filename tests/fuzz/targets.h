#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gk::test {

using FuzzBytes = std::span<const std::uint8_t>;

/// A parser of bytes from outside: given anything, it gives a value or a code, and never dies.
struct FuzzTarget {
  std::string_view name;
  void (*run)(FuzzBytes bytes);
  std::vector<std::string> (*seeds)();
};

const std::vector<FuzzTarget>& fuzzTargets();

} // namespace gk::test
