#include "exchange/setup/json_fields.h"

#include "base/text/text.h"

#include <algorithm>
#include <set>

namespace gk::exchange {

using base::Error;
using base::ErrorCode;
using Kind = JsonNode::Kind;

namespace {

/// More than any name, address of a law or remark of a setup (ours).
constexpr std::size_t longestText = 1000;
/// In one list (ours): each entry is held against all others, so a logbook is not kept busy for
/// hours by a file.
constexpr std::size_t mostEntries = 1000;

std::string kindWords(Kind kind) {
  switch (kind) {
  case Kind::null:
    return "null";
  case Kind::boolean:
    return "true or false";
  case Kind::whole:
    return "a whole number";
  case Kind::fraction:
    return "a number";
  case Kind::text:
    return "text in quotes";
  case Kind::list:
    return "a list in [ ]";
  case Kind::object:
    return "an object in { }";
  }
  return {};
}

/// Each that stands there more than once, in the order of the file.
std::optional<std::size_t> firstRepeated(const JsonNode& node) {
  std::vector<std::size_t> places(node.members.size());
  for (std::size_t i = 0; i < places.size(); ++i)
    places[i] = i;
  std::ranges::sort(places, {}, [&](std::size_t place) {
    return std::pair<std::string_view, std::size_t>(node.members[place].first, place);
  });
  std::optional<std::size_t> first;
  for (std::size_t i = 1; i < places.size(); ++i)
    if (node.members[places[i]].first == node.members[places[i - 1]].first)
      first = std::min(first.value_or(places[i]), places[i]);
  return first;
}

} // namespace

std::string pathOf(std::string_view folder, std::string_view name) {
  return std::string(folder) + "/" + std::string(name);
}

std::string pathOf(std::string_view folder, std::size_t place) {
  return pathOf(folder, std::to_string(place));
}

Error jsonError(ErrorCode code, const std::string& at, const JsonNode& node,
                const std::string& why) {
  return {code,
          (at.empty() ? "the document" : at) + ", line " + std::to_string(node.line) + ": " + why};
}

JsonFields::JsonFields(const JsonNode& node, std::string at, std::string_view only)
    : node_(node), at_(std::move(at)), only_(only) {
  if (node.kind != Kind::object)
    problem_ = jsonError(ErrorCode::documentMalformed, at_, node,
                         "an object in { } belongs there, not " + kindWords(node.kind));
}

void JsonFields::refuse(ErrorCode code, std::string_view name, const JsonNode& node,
                        const std::string& why) {
  if (!problem_) problem_ = jsonError(code, pathOf(at_, name), node, why);
}

const JsonNode* JsonFields::find(std::string_view name) {
  asked_.push_back(name);
  if (problem_ || (!only_.empty() && only_ != name)) return nullptr;
  const auto found =
      std::ranges::find(node_.members, name, &std::pair<std::string, JsonNode>::first);
  return found == node_.members.end() ? nullptr : &found->second;
}

const JsonNode* JsonFields::at(std::string_view name, Kind kind) {
  const auto* node = find(name);
  if (!node) return nullptr;
  if (node->kind == kind && node->items.size() <= mostEntries) return node;
  if (node->kind == kind) {
    refuse(ErrorCode::documentMalformed, name, *node,
           "the list has more than " + base::counted(mostEntries, "entry", "entries"));
    return nullptr;
  }
  refuse(ErrorCode::documentMalformed, name, *node,
         kindWords(kind) + " belongs there, not " + kindWords(node->kind));
  return nullptr;
}

bool JsonFields::says(std::string_view name) const {
  return std::ranges::any_of(node_.members,
                             [&](const auto& member) { return member.first == name; });
}

std::vector<std::string> JsonFields::said() const {
  std::vector<std::string> names;
  for (const auto& name : asked_)
    if (says(name)) names.emplace_back(name);
  return names;
}

void JsonFields::need(std::initializer_list<std::string_view> names) {
  for (const auto& name : names)
    if (!problem_ && !says(name))
      problem_ = jsonError(ErrorCode::documentMalformed, at_, node_,
                           "\"" + std::string(name) + "\" is missing");
}

void JsonFields::text(std::string_view name, std::string& into) {
  const auto* node = at(name, Kind::text);
  if (!node) return;
  const auto bare = base::trim(node->text);
  if (bare.size() > longestText)
    return refuse(ErrorCode::textMalformed, name, *node,
                  "the text is longer than " + std::to_string(longestText) + " bytes");
  if (const auto sound = base::soundText(bare); !sound)
    return refuse(sound.error().code, name, *node, sound.error().detail);
  if (bare.find('\n') != std::string_view::npos || bare.find('\r') != std::string_view::npos)
    return refuse(ErrorCode::textMalformed, name, *node, "the text has more than one line");
  into = bare;
}

std::optional<base::Date> JsonFields::dateIn(std::string_view path, const JsonNode& node,
                                             bool isExpiry) {
  if (node.kind != Kind::text) {
    refuse(ErrorCode::documentMalformed, path, node,
           "text in quotes belongs there, not " + kindWords(node.kind));
    return std::nullopt;
  }
  // As files write them; what a person may type besides is for forms.
  const bool isMonth = isExpiry && node.text.size() == 7 && node.text[4] == '-';
  const auto date = isMonth ? base::parseExpiry(node.text) : base::Date::parse(node.text);
  if (date) return *date;
  refuse(ErrorCode::dateMalformed, path, node,
         std::string("that is not a calendar date; write it like 2026-11-17") +
             (isExpiry ? ", or the month like 2027-03" : ""));
  return std::nullopt;
}

void JsonFields::date(std::string_view name, base::Date& into) {
  if (const auto* node = find(name)) into = dateIn(name, *node, false).value_or(into);
}

void JsonFields::expiry(std::string_view name, base::Date& into) {
  if (const auto* node = find(name)) into = dateIn(name, *node, true).value_or(into);
}

void JsonFields::date(std::string_view name, std::optional<base::Date>& into) {
  const auto* node = find(name);
  if (!node) return;
  if (node->kind == Kind::null)
    into.reset();
  else if (const auto date = dateIn(name, *node, false))
    into = date;
}

void JsonFields::whole(std::string_view name, int& into, int least, int most) {
  const auto* node = at(name, Kind::whole);
  if (!node) return;
  if (node->number < least || node->number > most)
    return refuse(ErrorCode::numberMalformed, name, *node,
                  "the number must be from " + std::to_string(least) + " to " +
                      std::to_string(most));
  into = static_cast<int>(node->number);
}

void JsonFields::whole(std::string_view name, std::optional<int>& into, int least, int most) {
  const auto* node = find(name);
  if (!node) return;
  if (node->kind == Kind::null) return into.reset();
  int number = into.value_or(least);
  whole(name, number, least, most);
  if (!problem_) into = number;
}

void JsonFields::seconds(std::string_view name, base::Seconds& into, int least, int most) {
  auto count = static_cast<int>(into.count());
  whole(name, count, least, most);
  into = base::Seconds(count);
}

void JsonFields::flag(std::string_view name, bool& into) {
  if (const auto* node = at(name, Kind::boolean)) into = node->isTrue;
}

void JsonFields::dates(std::string_view name, std::vector<base::Date>& into) {
  const auto* list = at(name, Kind::list);
  if (!list) return;
  std::set<base::Date> dates;
  for (std::size_t i = 0; i < list->items.size() && !problem_; ++i) {
    const auto path = pathOf(name, i);
    const auto date = dateIn(path, list->items[i], false);
    if (date && !dates.insert(*date).second)
      refuse(ErrorCode::documentMalformed, path, list->items[i], "that date is there twice");
  }
  if (!problem_) into.assign(dates.begin(), dates.end());
}

std::optional<std::size_t> JsonFields::wordIn(std::string_view path, const JsonNode& node,
                                              std::span<const std::string_view> words,
                                              std::string_view more) {
  std::vector<std::string> fits;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (node.kind == Kind::text && node.text + std::string(more) == words[i]) return i;
    fits.emplace_back(words[i].substr(0, words[i].size() - more.size()));
  }
  refuse(node.kind == Kind::text ? ErrorCode::textMalformed : ErrorCode::documentMalformed, path,
         node, "one of these words belongs there: " + base::join(fits, ", "));
  return std::nullopt;
}

base::Result<base::Done> JsonFields::end() const {
  if (problem_) return *problem_;
  if (!only_.empty()) return base::Done{};
  std::vector<std::string> names(asked_.begin(), asked_.end());
  std::ranges::sort(names);
  for (std::size_t i = 0; i < node_.members.size(); ++i)
    if (std::ranges::find(asked_, node_.members[i].first) == asked_.end())
      return jsonError(ErrorCode::documentMalformed, at_, node_.members[i].second,
                       "name " + std::to_string(i + 1) +
                           " of that object is not known; known are: " + base::join(names, ", "));
  if (const auto place = firstRepeated(node_))
    return jsonError(ErrorCode::documentMalformed, pathOf(at_, node_.members[*place].first),
                     node_.members[*place].second, "that name is there twice");
  return base::Done{};
}

} // namespace gk::exchange
