#pragma once

#include "base/random.h"
#include "reports/published.h"

#include <filesystem>
#include <string>

namespace gk::test {

/// Programs drawn child by child, over three autumn terms, of which the tables go out one after
/// another: what was sealed in one is due in the next, some terms put tables out twice, and some
/// programs show care openly or schools as one. Writes the pages as they are printed, CSV, into
/// `folder`/program/term-issue/, and beside them `truth.csv` with the count behind every cell, by
/// which the attack's ranges are judged and which the attack does not read.
struct Pages {
  int cells = 0;    ///< counts on all pages
  int withheld = 0; ///< of them
  int tables = 0;   ///< that left schools or all out
};
Pages writeRandomPrograms(const std::filesystem::path& folder, int programs, base::Random& random);

} // namespace gk::test
