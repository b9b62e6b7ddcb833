#include "exchange/papers.h"

#include "base/contract.h"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace gk::exchange {

namespace {

constexpr std::size_t longestName = 120;

bool isFileName(std::string_view name) {
  return !name.empty() && name.size() <= longestName && name.front() != '.' &&
         std::ranges::all_of(name, [](char c) {
           return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '.' || c == '-';
         });
}

} // namespace

std::string packed(const std::vector<Paper>& papers) {
  auto map = nlohmann::json::object();
  for (const auto& paper : papers) {
    base::require(isFileName(paper.name) && !map.contains(paper.name), "a paper's own file name");
    map[paper.name] = nlohmann::json::binary({paper.bytes.begin(), paper.bytes.end()});
  }
  std::string bytes;
  nlohmann::json::to_cbor(map, bytes);
  return bytes;
}

base::Result<std::vector<Paper>> unpacked(std::string_view bytes) {
  const base::Error notThese{base::ErrorCode::papersUnreadable,
                             "the file holds something else than papers"};
  const auto map = nlohmann::json::from_cbor(bytes, true, false);
  if (!map.is_object()) return notThese;
  std::vector<Paper> papers;
  for (const auto& [name, value] : map.items()) {
    if (!isFileName(name) || !value.is_binary()) return notThese;
    const auto& content = value.get_binary();
    papers.push_back({name, {content.begin(), content.end()}});
  }
  return papers;
}

} // namespace gk::exchange
