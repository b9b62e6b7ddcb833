#include "session/cards/merge_edits.h"

namespace gk::session {

void MergeEdits::undoing(base::EntryId entry, const char* why) {
  why_ = why;
  const auto lines = book_.actOf(entry);
  if (!lines) {
    failure_ = lines.error();
    return;
  }
  for (const auto& line : *lines) {
    if (line.kind == "retraction")
      wasRetracted_.insert(*line.stamp.supersedes);
    else
      wasWritten_.insert(line.stamp.entry);
  }
}

void MergeEdits::write(store::Act& act, const std::string& why) {
  for (const auto& move : moves_)
    move(act);
  // In the order in which they were first entered, as the steps of a field count on.
  std::ranges::stable_sort(reinstated_, {}, [](const auto& one) { return one.first; });
  for (const auto& one : reinstated_)
    one.second(act);
  for (const auto& entry : retracted_)
    act.retract(entry, why);
}

} // namespace gk::session
