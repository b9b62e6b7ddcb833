#include "session/undo/undo_history.h"

#include <algorithm>
#include <iterator>
#include <map>

namespace gk::session {

namespace {

constexpr int rowsAtOnce = 64;

bool isUndo(const store::HistoryLine& row) {
  return row.verb == ruleOf(Verb::undo).name;
}

} // namespace

base::Result<std::optional<PastAct>> PastActs::next() {
  // Until the rows of the newest act are all here: one row of the act before shows it.
  while (!isAll_ && (read_.empty() || read_.front().act == read_.back().act)) {
    auto page = book_.newestBefore(before_, rowsAtOnce);
    if (!page) return page.error();
    isAll_ = page->size() < static_cast<std::size_t>(rowsAtOnce);
    if (!page->empty()) before_ = page->back().stamp.sequence;
    std::ranges::move(*page, std::back_inserter(read_));
  }
  if (read_.empty()) return std::optional<PastAct>{};
  const auto act = read_.front().act;
  const auto end = std::ranges::find_if(read_, [&](const auto& row) { return row.act != act; });
  PastAct past{act, ruleNamed(read_.front().verb), {}};
  past.rows.assign(std::make_move_iterator(read_.begin()), std::make_move_iterator(end));
  read_.erase(read_.begin(), end);
  std::ranges::reverse(past.rows);
  return std::optional(std::move(past));
}

namespace {

/// What the thing went through, up to each of its rows; `seen` is called after every one.
template <class Seen>
std::vector<SubjectState> replay(const std::vector<store::HistoryLine>& rowsOfSubject, Seen seen) {
  std::vector<SubjectState> states;
  for (const auto& row : rowsOfSubject) {
    const auto entry = row.stamp.entry;
    const bool retracts = row.kind == "retraction";
    if (isUndo(row)) {
      if (!states.empty()) states.pop_back();
      if (!retracts && !states.empty()) states.back().carried = entry;
    } else if (retracts) {
      states.clear();
    } else {
      states.push_back({entry, entry});
    }
    if (!states.empty()) seen(states.back());
  }
  return states;
}

} // namespace

base::EntryId meantBy(const std::vector<store::HistoryLine>& rowsOfSubject, base::EntryId carried) {
  auto meant = carried;
  replay(rowsOfSubject, [&](const SubjectState& state) {
    if (state.carried == carried) meant = state.meant;
  });
  return meant;
}

std::vector<SubjectState> statesOf(const std::vector<store::HistoryLine>& rowsOfSubject) {
  return replay(rowsOfSubject, [](const SubjectState&) {});
}

} // namespace gk::session
