#pragma once

#include "base/files/files.h"

#include <functional>
#include <string>
#include <vector>

namespace gk::test {

/// A file that was made to hurt, the command that a person would open it with, and what is said.
struct Hostile {
  std::string what;
  /// Makes it of a whole book's copy, or writes it.
  std::function<void(const base::Path& file)> make;
  std::string code; ///< as errorName; "fine" where it hurts no one
};

/// Logbooks: opened for a backup, looked through by check, and merged into another.
std::vector<Hostile> hostileBooks();

/// Lists, tables, letters, passphrases: what is no logbook.
std::vector<Hostile> hostileLists();

/// Runs SQL on a file as another program would.
void runAsStranger(const base::Path& book, const std::string& sql);

} // namespace gk::test
