#pragma once

#include "base/enum_names.h"
#include "reports/day/close_out.h"
#include "reports/print/table.h"

namespace gk::reports {

namespace close_out {
/// The parts of the sheet, in the order of screen, paper and file: what is to be done, what was,
/// and what comes next.
enum Section {
  sums,
  urgent,
  blockers,
  questions,
  referrals,
  letters,
  supplies,
  papers,
  incidents,
  effort,
  confirmed,
  laptops,
  eachChild,
  unfinishedTeeth,
  exceptions,
  counts,
  lateEntries,
  toSee
};
} // namespace close_out

/// A table for each section, in their order: what is printed and shown.
std::vector<Table> closeOutTables(const CloseOut& day);

/// The same for a program that reads it, with the day itself, its signatures and who is still to be
/// seen; the words of an incident stay in the logbook.
std::vector<Table> closeOutFile(const CloseOut& day);

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::close_out::Section> =
    std::to_array<std::string_view>({"equation", "urgent", "blockers", "questions", "referrals",
                                     "letters", "supplies", "papers", "incidents", "effort",
                                     "placements_confirmed", "laptops", "children", "unfinished",
                                     "exceptions", "counts", "late_entries", "return_visits"});
