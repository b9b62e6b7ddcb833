#pragma once

namespace gk::ui {

/// In the order of reports::closeOutTables.
namespace close_out {
enum Section {
  sums,
  blockers,
  questions,
  urgent,
  eachChild,
  unfinishedTeeth,
  exceptions,
  counts,
  supplies,
  letters,
  referrals,
  incidents,
  papers,
  effort,
  laptops,
  lateEntries,
  confirmed,
  toSee
};
} // namespace close_out

} // namespace gk::ui
