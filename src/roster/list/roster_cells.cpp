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

std::optional<GradeRead> readGrade(std::string_view text) {
  auto word = base::folded(text);
  // Some count on below kindergarten.
  if (base::trim(text).starts_with('-'))
    return isAmong(word, {"1", "2"}) ? std::optional(GradeRead{{}, true}) : std::nullopt;
  if (const auto point = std::string(base::trim(text)); point.ends_with(".0"))
    word = base::folded(std::string_view(point).substr(0, point.size() - 2));
  Words words = blankParted(word);
  // "Grade 1", "1st grade", "gr 1", "G1": the rest says it.
  std::erase_if(words, [](const auto& one) {
    return isAmong(one, {"grade", "gr", "grd", "g", "level", "year", "grado", "class"});
  });
  word = base::join(words, "");
  if (word.size() > 1 && word.front() == 'g' && word[1] >= '0' && word[1] <= '9') word.erase(0, 1);
  if (word.starts_with("gr") && word.size() > 2 && word[2] >= '0' && word[2] <= '9')
    word.erase(0, 2);
  if (isAmong(word, {"k", "kg", "kn", "kdg", "kdgn", "kgn", "kind", "kinder", "kindergarten",
                     "kindergarden", "k5", "kf", "0", "00"}))
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

std::optional<dentition::Sex> readSex(std::string_view text) {
  using dentition::Sex;
  const auto word = base::folded(text);
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

namespace {

/// What a school's word can mean for a material (docs: workflow of medical alerts). Looked for in
/// this order, so that the strictest is said.
struct HealthWord {
  std::string_view part; ///< of the folded text
  FlagKind kind;
  FlagAction action;
};
constexpr std::array healthWords{
    HealthWord{"acrylate", FlagKind::acrylateAllergy, FlagAction::stop},
    HealthWord{"resin", FlagKind::acrylateAllergy, FlagAction::stop},
    HealthWord{"latex", FlagKind::latexAllergy, FlagAction::stop},
    HealthWord{"rubber", FlagKind::latexAllergy, FlagAction::stop},
    HealthWord{"rosin", FlagKind::rosinReaction, FlagAction::stop},
    HealthWord{"colophony", FlagKind::rosinReaction, FlagAction::stop},
    HealthWord{"pine nut", FlagKind::rosinReaction, FlagAction::ask},
    HealthWord{"adhesive", FlagKind::rosinReaction, FlagAction::ask},
    HealthWord{"asthma", FlagKind::asthma, FlagAction::ask},
    HealthWord{"inhaler", FlagKind::asthma, FlagAction::ask},
    HealthWord{"seizure", FlagKind::seizure, FlagAction::ask},
    HealthWord{"epilep", FlagKind::seizure, FlagAction::ask},
    HealthWord{"heart", FlagKind::heart, FlagAction::ask},
    HealthWord{"cardiac", FlagKind::heart, FlagAction::ask},
    HealthWord{"bleed", FlagKind::bleeding, FlagAction::ask},
    HealthWord{"hemophil", FlagKind::bleeding, FlagAction::ask},
    HealthWord{"diabet", FlagKind::diabetes, FlagAction::ask},
    HealthWord{"immun", FlagKind::immune, FlagAction::ask},
    HealthWord{"shunt", FlagKind::shunt, FlagAction::ask},
    HealthWord{"wheelchair", FlagKind::wheelchair, FlagAction::ask},
    HealthWord{"hearing", FlagKind::hearingOrLanguage, FlagAction::ask},
    HealthWord{"autis", FlagKind::sensoryOrBehavior, FlagAction::ask},
    HealthWord{"sensory", FlagKind::sensoryOrBehavior, FlagAction::ask},
    HealthWord{"adhd", FlagKind::sensoryOrBehavior, FlagAction::ask},
    HealthWord{"gag", FlagKind::strongGag, FlagAction::ask}};

} // namespace

std::optional<HealthRead> readHealth(std::string_view text) {
  const auto word = base::folded(text);
  if (isAmong(word, {"",
                     "none",
                     "no",
                     "n",
                     "n/a",
                     "na",
                     "nil",
                     "0",
                     "nka",
                     "nkda",
                     "nkfa",
                     "none known",
                     "no known allergies",
                     "no allergies",
                     "no health concerns",
                     "none reported",
                     "not known",
                     "ninguna",
                     "ninguno",
                     "false",
                     "x none",
                     "no conditions"}))
    return std::nullopt;
  for (const auto& one : healthWords)
    if (word.find(one.part) != std::string::npos) return HealthRead{one.kind, one.action};
  return HealthRead{FlagKind::other, FlagAction::ask};
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
  if (isAmong(base::folded(cell), {"total", "totals", "grand total", "subtotal", "sub total"}))
    return true;
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
