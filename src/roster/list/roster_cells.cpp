#include "roster/list/roster_cells.h"

#include "base/text/text.h"
#include "roster/child/child.h"

#include <algorithm>
#include <array>

namespace gk::roster {

namespace {

using Words = std::vector<std::string>;

bool isAmong(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::ranges::find(words, word) != words.end();
}

Words blankParted(std::string_view text) {
  Words words;
  for (const auto part : base::split(text, ' '))
    if (!base::trim(part).empty()) words.emplace_back(base::trim(part));
  return words;
}

std::string joined(Words::const_iterator from, Words::const_iterator to) {
  return base::join({from, to}, " ");
}

/// Part of the last name that follows it.
bool isParticle(const std::string& word) {
  return isAmong(base::folded(word),
                 {"de", "del", "la",  "las", "los",   "da",  "das", "do",  "dos", "di",
                  "du", "le",  "van", "von", "der",   "den", "ter", "ten", "bin", "ibn",
                  "al", "el",  "abu", "san", "santa", "st",  "mac", "mc",  "o",   "y"});
}

std::string withSuffix(std::string last, const std::string& suffix) {
  if (suffix.empty()) return last;
  return last.empty() ? suffix : last + " " + suffix;
}

/// Takes a suffix off the end, where something stands before it.
std::string takeSuffix(Words& words) {
  if (words.size() < 2 || !isSuffix(words.back())) return {};
  auto suffix = words.back();
  words.pop_back();
  return suffix;
}

} // namespace

bool isSuffix(std::string_view word) {
  return isAmong(base::folded(word), {"jr", "sr", "ii", "iii", "iv", "2nd", "3rd"});
}

NameParts splitName(std::string_view text) {
  std::string suffix;
  std::vector<std::string_view> parts;
  for (const auto part : base::split(text, ',')) {
    const auto trimmed = base::trim(part);
    if (trimmed.empty()) continue;
    // "Reed, Mina, Jr." and "Reed, Jr., Mina".
    if (!parts.empty() && isSuffix(trimmed))
      suffix = std::string(trimmed);
    else
      parts.push_back(trimmed);
  }
  NameParts name;
  if (parts.empty()) return name;
  if (parts.size() > 1) {
    auto last = blankParted(parts[0]);
    if (const auto own = takeSuffix(last); suffix.empty()) suffix = own;
    Words given;
    for (std::size_t i = 1; i < parts.size(); ++i)
      std::ranges::move(blankParted(parts[i]), std::back_inserter(given));
    if (const auto own = takeSuffix(given); suffix.empty()) suffix = own;
    name.last = withSuffix(joined(last.begin(), last.end()), suffix);
    if (!given.empty()) name.first = given.front();
    if (given.size() > 1) name.middle = joined(given.begin() + 1, given.end());
    return name;
  }
  auto words = blankParted(parts[0]);
  if (const auto own = takeSuffix(words); suffix.empty()) suffix = own;
  if (words.size() == 1) {
    name.first = words.front();
    name.last = suffix;
    return name;
  }
  auto lastFrom = words.end() - 1;
  while (lastFrom - 1 > words.begin() && isParticle(*(lastFrom - 1)))
    --lastFrom;
  name.first = words.front();
  name.middle = joined(words.begin() + 1, lastFrom);
  name.last = withSuffix(joined(lastFrom, words.end()), suffix);
  return name;
}

namespace {

/// Without what stands in brackets behind it: "K (Full Day)".
std::string_view withoutBrackets(std::string_view text) {
  const auto open = text.find('(');
  if (open == std::string_view::npos || open == 0) return text;
  return base::trim(text.substr(0, open));
}

/// "2a", "2b" of "2-B": a class of a grade. No grade is a letter off one.
std::string withoutSection(std::string word) {
  const auto isDigit = [&](std::size_t at) { return word[at] >= '0' && word[at] <= '9'; };
  const auto end = word.size() - 1;
  if (word.size() < 2 || word.size() > 3 || word[end] < 'a' || word[end] > 'h') return word;
  for (std::size_t i = 0; i < end; ++i)
    if (!isDigit(i)) return word;
  return word.substr(0, end);
}

} // namespace

std::optional<GradeRead> readGrade(std::string_view text) {
  text = withoutBrackets(base::trim(text));
  auto word = base::folded(text);
  // Some count on below kindergarten.
  if (text.starts_with('-'))
    return isAmong(word, {"1", "2"}) ? std::optional(GradeRead{{}, true}) : std::nullopt;
  if (text.ends_with(".0")) word = base::folded(text.substr(0, text.size() - 2));
  std::ranges::replace(word, ':', ' ');
  Words words = blankParted(word);
  // "Grade 1", "1st grade", "Grade: 1", "gr 1", "G1": the rest says it.
  std::erase_if(words, [](const auto& one) {
    return isAmong(one, {"grade", "gr", "grd", "g", "level", "year", "grado", "class"});
  });
  word = base::join(words, "");
  if (word.size() > 1 && word.front() == 'g' && word[1] >= '0' && word[1] <= '9') word.erase(0, 1);
  if (word.starts_with("gr") && word.size() > 2 && word[2] >= '0' && word[2] <= '9')
    word.erase(0, 2);
  if (!word.empty()) word = withoutSection(std::move(word));
  if (isAmong(word, {"k", "kg", "kn", "kdg", "kdgn", "kgn", "kind", "kinder", "kindergarten",
                     "kindergarden", "k5", "kf", "0", "00",
                     // Half days and whole ones.
                     "kam", "kpm", "ka", "kp", "kfd", "khd", "kfull", "khalf", "kfullday",
                     "khalfday", "kmorning", "kafternoon"}))
    return GradeRead{"K"};
  if (isAmong(word, {"pk",
                     "prek",
                     "prekindergarten",
                     "prekinder",
                     "preschool",
                     "ps",
                     "p3",
                     "p4",
                     "pk3",
                     "pk4",
                     "prek3",
                     "prek4",
                     "k3",
                     "k4",
                     "t",
                     "tk",
                     "transitionalkindergarten",
                     "transitionalk",
                     "ek",
                     "early"}))
    return GradeRead{{}, true};
  constexpr std::array<std::string_view, 12> ordinals{"first", "second", "third",    "fourth",
                                                      "fifth", "sixth",  "seventh",  "eighth",
                                                      "ninth", "tenth",  "eleventh", "twelfth"};
  constexpr std::array<std::string_view, 12> numbers{"one",  "two", "three",  "four",
                                                     "five", "six", "seven",  "eight",
                                                     "nine", "ten", "eleven", "twelve"};
  for (std::size_t i = 0; i < ordinals.size(); ++i)
    if (word == ordinals.at(i) || word == numbers.at(i)) return GradeRead{std::to_string(i + 1)};
  for (const std::string_view end : {"st", "nd", "rd", "th"})
    if (word.size() > end.size() && word.ends_with(end)) {
      word.resize(word.size() - end.size());
      break;
    }
  if (word.size() > 2 && word.starts_with('0')) return std::nullopt;
  if (auto grade = parseGrade(word)) return GradeRead{std::move(*grade)};
  return std::nullopt;
}

namespace {

std::optional<dentition::Sex> sexCalled(std::string_view word) {
  using dentition::Sex;
  if (isAmong(word, {"", "u", "unknown", "not stated", "n/a", "?", "not specified", "unspecified",
                     "undisclosed"}))
    return Sex::notStated;
  if (isAmong(word, {"f", "female", "girl", "fem", "g", "nina", "femenino", "mujer"}))
    return Sex::female;
  if (isAmong(word, {"m", "male", "boy", "b", "nino", "masculino", "hombre"})) return Sex::male;
  if (isAmong(word, {"x", "other", "o", "nonbinary", "non binary", "nb", "otro"}))
    return Sex::other;
  return std::nullopt;
}

} // namespace

std::optional<dentition::Sex> readSex(std::string_view text) {
  auto word = base::folded(text);
  if (const auto whole = sexCalled(word)) return whole;
  // "F - Female", "Male (M)": each word says the same.
  for (char& c : word)
    if (std::string_view("/()[]:;,=").find(c) != std::string_view::npos) c = ' ';
  std::optional<dentition::Sex> said;
  for (const auto& one : blankParted(word)) {
    const auto sex = sexCalled(one);
    if (!sex || (said && *said != *sex)) return std::nullopt;
    said = sex;
  }
  return said;
}

std::string readLanguage(std::string_view text) {
  const auto written = base::trim(text);
  // "Spanish; Castilian", "English (US)", "Spanish/Español": the first says it.
  auto first = written.substr(0, written.find_first_of(";,/|(\n"));
  if (const auto dash = first.find(" - "); dash != std::string_view::npos)
    first = first.substr(0, dash);
  auto word = base::folded(first);
  // "es-MX", "en_US": a country behind the code.
  if (word.size() == 5 && (word[2] == ' ' || word[2] == '_')) word.resize(2);
  if (isAmong(word, {"en", "eng", "english", "ingles"})) return "English";
  if (isAmong(word, {"es", "sp", "spa", "esp", "spanish", "espanol", "castellano", "castilian"}))
    return "Spanish";
  return std::string(written);
}

bool isGone(std::string_view status) {
  const auto word = base::folded(status);
  if (word.starts_with("transferred in") || word.starts_with("transfer in")) return false;
  return std::ranges::any_of(
      std::to_array<std::string_view>({"withdrawn", "withdrew", "withdrawal", "w/d", "inactive",
                                       "exited", "exit", "transferred", "dropped",
                                       "no longer enrolled", "not enrolled"}),
      [&](auto one) { return word.starts_with(one); });
}

namespace {

/// The word alone may be a name, so that something follows.
bool startsWithWord(const std::string& text, std::string_view word) {
  return text.starts_with(word) && text.size() > word.size() &&
         std::string_view(" :0123456789(").find(text[word.size()]) != std::string_view::npos;
}

bool startsWithAny(std::string_view cell, std::initializer_list<std::string_view> words) {
  const auto text = base::folded(cell);
  return std::ranges::any_of(words, [&](auto word) { return startsWithWord(text, word); });
}

} // namespace

bool isFooterWord(std::string_view cell) {
  const auto text = base::folded(cell);
  if (isAmong(text, {"total", "totals", "grand total", "subtotal", "sub total"})) return true;
  // "Room 4 Total", "Hill totals:"; and what a mark means, "* = new student".
  for (const std::string_view end :
       {" total", " totals", " total:", " totals:", " subtotal", " count:"})
    if (text.ends_with(end)) return true;
  if (text.starts_with('*') && text.find('=') != std::string::npos) return true;
  return startsWithAny(cell, {"total",
                              "totals",
                              "grand total",
                              "subtotal",
                              "sub total",
                              "count",
                              "number of students",
                              "student count",
                              "students",
                              "page",
                              "printed",
                              "report",
                              "end of report",
                              "end of list",
                              "generated",
                              "run date",
                              "run on",
                              "date",
                              "legend",
                              "as of",
                              "sum",
                              "average",
                              "confidential",
                              "records",
                              "record count",
                              "total students",
                              "printed on",
                              "printed by",
                              "***"});
}

bool isGroupWord(std::string_view cell) {
  return startsWithAny(cell, {"teacher", "homeroom", "home room", "room", "class", "grade",
                              "section", "school", "group", "room number"});
}

} // namespace gk::roster
