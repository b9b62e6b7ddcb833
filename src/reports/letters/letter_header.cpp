#include "reports/letters/letter_header.h"

#include "base/text/text.h"

#include <algorithm>

namespace gk::reports {

namespace {

using base::Done;
using base::Error;
using base::ErrorCode;
using base::Result;

std::string replaced(std::string text, std::string_view what, std::string_view by) {
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size()))
    text.replace(at, what.size(), by);
  return text;
}

Error wrong(std::string why) {
  return {ErrorCode::letterTemplate, std::move(why)};
}

Result<Done> readList(const std::string& value, std::array<std::string, 12>& months) {
  const auto names = base::split(value, ',');
  if (names.size() != months.size())
    return wrong("\"months\" takes twelve names with commas between them");
  for (std::size_t i = 0; i < months.size(); ++i) {
    months[i] = base::trim(names[i]);
    if (months[i].empty()) return wrong("a name in \"months\" is blank");
  }
  return Done{};
}

Result<Done> readDirection(const std::string& value, bool& rightToLeft) {
  if (value != "ltr" && value != "rtl")
    return wrong("\"direction\" is ltr, or rtl for a script that runs from right to left");
  rightToLeft = value == "rtl";
  return Done{};
}

Result<Done> readApproval(const std::string& value, LetterHeader& header) {
  if (value == "no") return Done{};
  const auto comma = value.rfind(',');
  const auto name = base::trim(std::string_view(value).substr(0, comma));
  const auto date = comma == std::string::npos
                        ? Result<base::Date>(wrong(""))
                        : base::Date::parse(base::trim(std::string_view(value).substr(comma + 1)));
  if (!date || name.empty())
    return wrong("\"approved\" is no, or who approved the letter and when: NAME, 2026-09-01");
  header.approvedBy = name;
  header.approvedOn = *date;
  return Done{};
}

Result<Done> readPattern(const std::string& value, std::string& pattern,
                         std::initializer_list<std::string_view> needed) {
  for (const auto word : needed)
    if (value.find(word) == std::string::npos)
      return wrong("this line needs " + std::string(word) + " in it");
  pattern = value;
  return Done{};
}

} // namespace

std::string LetterHeader::dateWords(base::Date date) const {
  auto words = replaced(datePattern, "{day}", std::to_string(date.day()));
  words = replaced(words, "{month}", months.at(date.month() - 1));
  return replaced(words, "{year}", std::to_string(date.year()));
}

std::string LetterHeader::pageWords(int page, int pages) const {
  return replaced(replaced(pagePattern, "{pages}", std::to_string(pages)), "{page}",
                  std::to_string(page));
}

std::string LetterHeader::roomWords(const std::string& room) const {
  return replaced(roomPattern, "{room}", room);
}

const std::vector<std::string_view>& headerKeys() {
  static const std::vector<std::string_view> keys{
      "language",    "also",       "direction",  "approved",    "draft", "months", "date",
      "upper right", "upper left", "lower left", "lower right", "page",  "room"};
  return keys;
}

Result<Done> readHeaderLine(std::string_view key, const std::string& value, LetterHeader& header) {
  if (value.empty()) return wrong("this line has nothing after its colon");
  if (key == "direction") return readDirection(value, header.rightToLeft);
  if (key == "approved") return readApproval(value, header);
  if (key == "months") return readList(value, header.months);
  if (key == "date") return readPattern(value, header.datePattern, {"{day}", "{month}", "{year}"});
  if (key == "page") return readPattern(value, header.pagePattern, {"{page}", "{pages}"});
  if (key == "room") return readPattern(value, header.roomPattern, {"{room}"});
  if (key == "also") {
    for (const auto name : base::split(value, ','))
      header.alsoAs.emplace_back(base::trim(name));
    return Done{};
  }
  const std::map<std::string_view, std::string LetterHeader::*> plain{
      {"language", &LetterHeader::language},      {"draft", &LetterHeader::draftMark},
      {"upper right", &LetterHeader::upperRight}, {"upper left", &LetterHeader::upperLeft},
      {"lower left", &LetterHeader::lowerLeft},   {"lower right", &LetterHeader::lowerRight}};
  const auto at = plain.find(key);
  if (at == plain.end()) {
    std::vector<std::string> known(headerKeys().begin(), headerKeys().end());
    return wrong("no line of the header has this name; there are: " + base::join(known, ", "));
  }
  header.*at->second = value;
  return Done{};
}

} // namespace gk::reports
