#pragma once

#include "base/enum_names.h"
#include "base/identity/entry.h"

#include <string>

namespace gk::followup {

using PaperCountId = base::Id<struct PaperCountTag>;

/// Sheets that name children and leave the case.
enum class Paper { letters, runnersList, nurseSheets, other };

/// The sheets of one sort, counted out and in on a day. Of letters the records tell what went out
/// and was handed over, so `out` is what they told when the rest was counted.
struct PaperCount {
  using Key = PaperCountId;
  base::DayId day;
  Paper paper = Paper::other;
  int out = 0;
  int back = 0; ///< in the locked case again
  int handed = 0;
  int shredded = 0;
  std::string reason{}; ///< why they do not add up
  bool operator==(const PaperCount&) const = default;

  /// Sheets that no one can show; below zero when more came in than went out.
  [[nodiscard]] int missing() const { return out - back - handed - shredded; }
};

/// Fails with `numberMalformed` when a count is below zero.
base::Result<base::Done> checkPaper(const PaperCount& count);

} // namespace gk::followup

template <>
inline constexpr auto gk::base::enumNames<gk::followup::Paper> =
    std::to_array<std::string_view>({"letters", "runner's list", "nurse's sheets", "other sheets"});
