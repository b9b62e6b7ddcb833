#pragma once

#include <optional>
#include <string>

namespace gk::base {

/// What tells one computer from another, and one start of it from the next. Each is unknown where
/// it could not be read.
struct Machine {
  std::optional<std::string> id{};
  std::optional<std::string> boot{};
};

/// Of the computer that the program runs on: /etc/machine-id, which systemd makes once for each
/// installation (machine-id(5)), and the kernel's own boot_id (proc(5), sys/kernel/random).
Machine thisMachine();

} // namespace gk::base
