#pragma once

#include "base/random.h"
#include "reports/publish/published.h"

#include <filesystem>
#include <string>

namespace gk::test {

struct Pages {
  int pages = 0;
  int cells = 0;       ///< counts on all pages
  int withheld = 0;    ///< of them
  int totalsAlone = 0; ///< pages on which no school has a row of its own
  int refused = 0;     ///< pages that may not go out
  int ofState = 0;     ///< state reports that went out
};

/// Programs drawn child by child, over three fall terms, of which the tables go out one after
/// another: what was sealed in one is due in the next, some terms put tables out twice, and some
/// programs show care openly or two schools as one; to funder and principals, to the state, or to
/// both. Writes what goes out as it is sent (the annex in CSV and as a workbook, the state's report
/// likewise, the funder's page and each principal's as web pages and workbooks) into
/// `folder`/program/term-issue/, and beside them `public.csv`, what anybody can look up, and
/// `truth.csv` with the count behind every cell, by which the attack's ranges are judged and which
/// the attack does not read.
Pages writeRandomPrograms(const std::filesystem::path& folder, int programs, base::Random& random);

} // namespace gk::test
