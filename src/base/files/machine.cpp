#include "base/files/machine.h"

#include "base/files/files.h"
#include "base/text/text.h"

namespace gk::base {

namespace {

std::optional<std::string> firstWord(const Path& file) {
  const auto text = readFile(file);
  if (!text || isBlank(*text)) return std::nullopt;
  return std::string(trim(*text));
}

} // namespace

Machine thisMachine() {
  return {firstWord("/etc/machine-id"), firstWord("/proc/sys/kernel/random/boot_id")};
}

} // namespace gk::base
