#include "session/rights/act_words.h"

#include "base/text/text.h"
#include "chairside/placement.h"
#include "followup/display_names.h"

#include <algorithm>

namespace gk::session {

using base::Result;
using chairside::Step;
using chairside::StepResult;
using chairside::StepRun;

namespace {

std::string teethWords(const std::vector<dentition::ToothSurfaces>& teeth) {
  if (teeth.size() == 1) return teeth.front().tooth.words();
  return base::counted(teeth.size(), "tooth", "teeth");
}

std::string stepWords(const StepRun& run) {
  switch (run.step) {
  case Step::etch:
    return run.result == StepResult::interrupted ? "Etch stopped" : "Etch";
  case Step::rinse:
    return "Rinse";
  case Step::dry:
    return run.result == StepResult::notFrosty ? "Not frosty" : "Dry";
  case Step::flow:
    return "Sealant placed";
  case Step::cure:
    return run.result == StepResult::interrupted ? "Cure stopped" : "Cure";
  case Step::check:
    return "Check";
  }
  base::fail("no such step");
}

Result<std::vector<base::Recorded<StepRun>>> runsOf(store::Book& book,
                                                    const std::vector<store::HistoryLine>& rows) {
  std::vector<base::Recorded<StepRun>> runs;
  for (const auto& row : rows) {
    if (row.kind != "step_run") continue;
    auto found = book.history<StepRun>(store::rowsOf("e.id", row.stamp.entry));
    if (!found) return found.error();
    runs.insert(runs.end(), found->begin(), found->end());
  }
  return runs;
}

} // namespace

Result<std::string> actWords(store::Book& book, const VerbRule& rule,
                             const std::vector<store::HistoryLine>& rows) {
  auto runs = runsOf(book, rows);
  if (!runs) return runs.error();
  std::vector<std::string> words;
  for (const auto& run : *runs)
    words.push_back(stepWords(run.value) + ", " + teethWords(run.value.teeth));
  if (!words.empty()) return base::join(words, "; ");
  for (const auto& row : rows) {
    if (row.kind != "day_outcome") continue;
    const auto outcome =
        book.history<chairside::DayOutcome>(store::rowsOf("e.id", row.stamp.entry));
    if (!outcome) return outcome.error();
    for (const auto& one : *outcome)
      return std::string(rule.words) + ": " + std::string(base::displayName(one.value.end));
  }
  return std::string(rule.words);
}

bool hasFlowed(store::Book& book, const std::vector<store::HistoryLine>& rows) {
  const auto runs = runsOf(book, rows);
  // What cannot be read is treated with care: undo asks for a reason then.
  return !runs ||
         std::ranges::any_of(*runs, [](const auto& run) { return run.value.step >= Step::flow; });
}

} // namespace gk::session
