#include "base/text/text.h"
#include "layout/checker.h"

#include <algorithm>
#include <optional>
#include <regex>

namespace gk::layout {

namespace {

/// "board" for ui/board/board_card.h; empty for what lies in no room.
std::string roomOf(std::string_view path) {
  const auto parts = base::split(path, '/');
  return parts.size() > 2 && parts[0] == "ui" ? std::string(parts[1]) : std::string();
}

/// As a whole number, counted from the ground; none for an unknown room.
std::optional<std::size_t> floorOf(const std::string& room) {
  const auto found =
      std::ranges::find_if(floors(), [&](const auto& rooms) { return rooms.contains(room); });
  if (found == floors().end()) return std::nullopt;
  return static_cast<std::size_t>(found - floors().begin());
}

} // namespace

const std::vector<std::set<std::string>>& floors() {
  static const std::vector<std::set<std::string>> all{
      {"support"},
      {"look", "drafts"},
      {"paper", "models", "mouth", "keys"},
      {"asking", "lists", "help"},
      {"widgets"},
      {"files", "visit", "safety", "forms"},
      {"setup"},
      {"field", "close_out", "board", "desk", "consent", "prints", "planning"},
      {"chair", "totals"},
      {"windows"},
      {"app"}};
  return all;
}

Findings checkFaceWalls(const SourceFile& file) {
  if (!file.path.starts_with("ui/")) return {};
  const auto mine = roomOf(file.path);
  const auto floor = floorOf(mine);
  if (!floor) return {file.path + ": lies in no room"};
  Findings findings;
  static const std::regex include("^\\s*#\\s*include\\s*[<\"]([^>\"]+)[>\"]");
  std::size_t number = 0;
  for (const auto line : base::split(file.text, '\n')) {
    ++number;
    const std::string text(line);
    std::smatch hit;
    if (!std::regex_search(text, hit, include)) continue;
    const auto other = roomOf(hit.str(1));
    if (other.empty() || other == mine) continue;
    const auto below = floorOf(other);
    if (!below || *below >= *floor)
      findings.push_back(file.path + ":" + std::to_string(number) + ": ui/" + mine +
                         " may not include ui/" + other);
  }
  return findings;
}

Findings checkNames(const SourceFile& file, const Uses& uses) {
  const std::string face = file.path.starts_with("ui/")           ? "ui"
                           : file.path.starts_with("src/office/") ? "office"
                                                                  : "";
  if (face.empty()) return {};
  const auto& mine = uses.at(face);
  Findings findings;
  static const std::regex name("\\b([a-z]+)::");
  std::size_t number = 0;
  for (const auto line : base::split(file.text, '\n')) {
    ++number;
    const std::string text(line);
    for (std::sregex_iterator hit(text.begin(), text.end(), name), end; hit != end; ++hit)
      if (const auto other = hit->str(1);
          uses.contains(other) && other != face && !mine.contains(other))
        findings.push_back(file.path + ":" + std::to_string(number) + ": " + face + " names " +
                           other + "::, which it may not include");
  }
  return findings;
}

} // namespace gk::layout
