#include "session/values/roll.h"

#include "base/text/text.h"
#include "crypto/secret.h"
#include "roster/child/digits.h"

#include <algorithm>

namespace gk::session {

namespace {

void wipe(Roll::Line& line) {
  for (auto* text : {&line.number, &line.room, &line.name, &line.called, &line.searched})
    crypto::wipe(*text);
}

/// No one has an empty number, so that a line without one is a line taken out.
bool isGone(const Roll::Line& line) {
  return line.number.empty();
}

} // namespace

void Roll::put(Line line) {
  if (const auto known = places_.find(line.child); known != places_.end()) {
    auto& old = lines_[known->second];
    const bool isSameRow = old.entry == line.entry;
    wipe(old);
    if (isSameRow) {
      old = std::move(line);
      return;
    }
  }
  places_.insert_or_assign(line.child, lines_.size());
  lines_.push_back(std::move(line));
}

void Roll::remove(const roster::ChildId& child) {
  const auto known = places_.find(child);
  if (known == places_.end()) return;
  wipe(lines_[known->second]);
  places_.erase(known);
}

void Roll::clear() {
  std::ranges::for_each(lines_, wipe);
  lines_.clear();
  places_.clear();
}

std::vector<Found> Roll::find(const std::string& text, std::size_t limit) const {
  const auto wanted = base::folded(text);
  const auto words = base::split(wanted, ' ');
  const auto digits = roster::digitsIn(text);
  const auto fits = [&](const Line& line) {
    if (!digits.empty() && roster::digitsIn(line.number).starts_with(digits)) return true;
    return !wanted.empty() && std::ranges::all_of(words, [&](auto word) {
      return line.searched.find(word) != std::string::npos;
    });
  };
  std::vector<Found> found;
  for (const auto& line : lines_) {
    if (found.size() == limit) break;
    if (!isGone(line) && fits(line))
      found.push_back(
          {line.child, line.number, line.name.empty() ? line.number : line.name, line.room});
  }
  return found;
}

std::vector<roster::ChildId> Roll::called(const std::string& name) const {
  const auto wanted = base::folded(name);
  std::vector<roster::ChildId> children;
  if (wanted.empty()) return children;
  for (const auto& line : lines_)
    if (!isGone(line) && line.called == wanted) children.push_back(line.child);
  return children;
}

} // namespace gk::session
