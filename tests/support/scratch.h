#pragma once

#include "base/files/files.h"

#include <utility>

namespace gk::test {

/// A new empty folder that goes away with this object.
class Scratch {
 public:
  Scratch();
  ~Scratch();
  Scratch(Scratch&& other) noexcept : path_(std::exchange(other.path_, {})) {}
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;

  [[nodiscard]] const base::Path& path() const { return path_; }
  [[nodiscard]] base::Path operator/(const std::string& name) const { return path_ / name; }

 private:
  base::Path path_;
};

/// A folder on another device than a Scratch's, as a drive would be: in memory.
class OtherDisk {
 public:
  OtherDisk();
  ~OtherDisk();
  OtherDisk(const OtherDisk&) = delete;
  OtherDisk& operator=(const OtherDisk&) = delete;
  /// False where the machine has none.
  [[nodiscard]] bool isThere() const { return !path_.empty(); }
  [[nodiscard]] std::filesystem::path operator/(const std::string& name) const {
    return path_ / name;
  }

 private:
  std::filesystem::path path_;
};

} // namespace gk::test
