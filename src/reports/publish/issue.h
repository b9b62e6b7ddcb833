#pragma once

#include "base/identity/entry.h"
#include "followup/copies/issued_report.h"
#include "reports/print/table.h"

#include <span>

namespace gk::reports {

/// The cells of the tables as an issued report keeps them: neither titles with their dates nor
/// notes.
std::string figuresOf(std::span<const Table> tables);

/// One figure, row or part in which two issues of a report differ.
struct Difference {
  std::string where;  ///< "Findings, Cobble Lantern Elementary, Urgent"
  std::string before; ///< empty, as `after`, where a whole row or part is new or gone
  std::string after;
  bool operator==(const Difference&) const = default;
};

/// In the order of `after`, then what is gone. Both as `figuresOf` writes them.
std::vector<Difference> differences(const std::string& before, const std::string& after);

/// What an issue is called, and the sentence that is printed on it.
struct Version {
  int number = 1;
  std::string words; ///< "Version 2, differs from version 1 of November 17, 2026 by 1 figure: ..."
};

/// `earlier` are all issues of this report, term and choice, as they were entered. Unchanged
/// figures keep their number, and so does what is only shown in another way: other schools or
/// grades as one row, other counts hidden. `release` has the counts of what leaves the program, as
/// `toLines`. Two laptops that each issued a version of one number keep it, since paper has it; the
/// next issue takes a number above both and says so.
Version versionOf(std::span<const base::Recorded<followup::IssuedReport>> earlier,
                  const std::string& figures, const std::string& release = {});

/// The number alone, for where there is no room: "version 2".
std::string shortVersion(std::string_view words);

} // namespace gk::reports
