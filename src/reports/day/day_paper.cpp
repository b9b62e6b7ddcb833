#include "reports/day/close_out_parts.h"

#include <algorithm>
#include <map>

namespace gk::reports {

namespace {

using followup::LetterState;
using followup::Paper;
using followup::PaperCount;

/// Each laptop counts its own sheets, so after a merge they add up.
PaperCount sumOf(const DayRecords& records, Paper paper) {
  PaperCount sum{.day = records.id, .paper = paper};
  for (const auto& row : records.papers) {
    if (row.value.paper != paper) continue;
    sum.out += row.value.out;
    sum.back += row.value.back;
    sum.handed += row.value.handed;
    sum.shredded += row.value.shredded;
    if (!row.value.reason.empty()) sum.reason = row.value.reason;
  }
  return sum;
}

/// What is queued has not been on paper yet; what came back undelivered is in the case again.
PaperLine lettersLine(const DayRecords& records) {
  PaperLine line{sumOf(records, Paper::letters)};
  auto& sum = line.count;
  const auto outThen = sum.out;
  sum.out = 0;
  for (const auto& row : records.letters) {
    if (row.value.day != records.id || row.value.state == LetterState::queued) continue;
    sum.out += row.value.prints;
    const bool isHanded = row.value.state == LetterState::handed;
    const bool isBack = row.value.state == LetterState::returned;
    if (isHanded) ++sum.handed;
    if (isBack) ++sum.back;
    if (isHanded || isBack) ++line.known;
  }
  // A reason was given for the sheets of then.
  if (sum.out != outThen) sum.reason.clear();
  return line;
}

} // namespace

std::vector<PaperLine> papersOf(const DayRecords& records) {
  std::vector<PaperLine> out;
  for (std::size_t i = 0; i < base::enumCount<Paper>; ++i) {
    const auto paper = static_cast<Paper>(i);
    const auto line =
        paper == Paper::letters ? lettersLine(records) : PaperLine{sumOf(records, paper)};
    if (line.count.out != 0 || line.count.missing() != 0) out.push_back(line);
  }
  return out;
}

bool wasPaperCounted(const DayRecords& records) {
  return std::ranges::any_of(records.papers,
                             [](const auto& row) { return row.value.paper == Paper::other; });
}

} // namespace gk::reports
