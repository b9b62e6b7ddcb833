#include "base/text/text.h"
#include "roster/list/roster_cells.h"

#include <algorithm>
#include <array>
#include <iterator>

namespace gk::roster {

namespace {

/// Whether a part may stand within a word ("methacrylate") or must begin one ("asma", "plasma").
enum class Stands { anywhere, asBeginning };

/// What a school's word can mean for a material (docs: workflow of medical alerts).
struct HealthWord {
  std::string_view part; ///< of the folded text
  FlagKind kind;
  FlagAction action;
  Stands where = Stands::anywhere;
};
constexpr std::array healthWords{
    HealthWord{"acryl", FlagKind::acrylateAllergy, FlagAction::stop},
    HealthWord{"acril", FlagKind::acrylateAllergy, FlagAction::stop},
    HealthWord{"resin", FlagKind::acrylateAllergy, FlagAction::stop},
    HealthWord{"latex", FlagKind::latexAllergy, FlagAction::stop},
    HealthWord{"rubber", FlagKind::latexAllergy, FlagAction::stop},
    HealthWord{"caucho", FlagKind::latexAllergy, FlagAction::stop},
    HealthWord{"rosin", FlagKind::rosinReaction, FlagAction::stop},
    HealthWord{"colophon", FlagKind::rosinReaction, FlagAction::stop},
    HealthWord{"colofonia", FlagKind::rosinReaction, FlagAction::stop},
    HealthWord{"pine nut", FlagKind::rosinReaction, FlagAction::ask},
    HealthWord{"adhesive", FlagKind::rosinReaction, FlagAction::ask},
    HealthWord{"asthma", FlagKind::asthma, FlagAction::ask},
    HealthWord{"asma", FlagKind::asthma, FlagAction::ask, Stands::asBeginning},
    HealthWord{"inhal", FlagKind::asthma, FlagAction::ask},
    HealthWord{"seizure", FlagKind::seizure, FlagAction::ask},
    HealthWord{"epilep", FlagKind::seizure, FlagAction::ask},
    HealthWord{"convuls", FlagKind::seizure, FlagAction::ask},
    HealthWord{"heart", FlagKind::heart, FlagAction::ask},
    HealthWord{"cardiac", FlagKind::heart, FlagAction::ask},
    HealthWord{"pacemaker", FlagKind::heart, FlagAction::ask},
    HealthWord{"marcapasos", FlagKind::heart, FlagAction::ask},
    HealthWord{"bleed", FlagKind::bleeding, FlagAction::ask},
    HealthWord{"hemophil", FlagKind::bleeding, FlagAction::ask},
    HealthWord{"hemofil", FlagKind::bleeding, FlagAction::ask},
    HealthWord{"diabet", FlagKind::diabetes, FlagAction::ask},
    HealthWord{"immun", FlagKind::immune, FlagAction::ask},
    HealthWord{"shunt", FlagKind::shunt, FlagAction::ask},
    HealthWord{"wheelchair", FlagKind::wheelchair, FlagAction::ask},
    HealthWord{"hearing", FlagKind::hearingOrLanguage, FlagAction::ask},
    HealthWord{"autis", FlagKind::sensoryOrBehavior, FlagAction::ask},
    HealthWord{"sensory", FlagKind::sensoryOrBehavior, FlagAction::ask},
    HealthWord{"adhd", FlagKind::sensoryOrBehavior, FlagAction::ask},
    HealthWord{"gag", FlagKind::strongGag, FlagAction::ask, Stands::asBeginning}};

template <std::size_t Count>
bool isOneOf(std::string_view word, const std::array<std::string_view, Count>& words) {
  return std::ranges::find(words, word) != words.end();
}

bool isLetter(char c) {
  return c >= 'a' && c <= 'z';
}

bool contains(std::string_view text, const HealthWord& word) {
  for (auto at = text.find(word.part); at != std::string_view::npos;
       at = text.find(word.part, at + 1))
    if (word.where == Stands::anywhere || at == 0 || !isLetter(text[at - 1])) return true;
  return false;
}

/// Says that there is nothing, as the whole of a part.
bool isNothingSaid(std::string_view part) {
  constexpr auto words = std::to_array<std::string_view>({"",
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
                                                          "no health concerns",
                                                          "none reported",
                                                          "not known",
                                                          "ninguna",
                                                          "ninguno",
                                                          "false",
                                                          "x none",
                                                          "no conditions",
                                                          "nada"});
  return isOneOf(part, words);
}

/// "no latex allergy", "not allergic to latex", "no known allergies", "sin alergias": begins with
/// no, and holds nothing but what the no is of. "No latex" alone may be an instruction, and what
/// follows the allergy without a "to" may be another one: neither is a no.
bool isDenied(const std::string& part) {
  constexpr auto deniers = std::to_array<std::string_view>({"no", "not", "sin", "denies", "never"});
  constexpr auto fillers = std::to_array<std::string_view>(
      {"known", "any", "reported", "drug", "food",      "seasonal", "medication", "tiene",
       "es",    "has", "history",  "of",   "conocidas", "conocida", "a",          "al",
       "la",    "el",  "to",       "or",   "o",         "ni",       "the"});
  constexpr auto ofAllergy = std::to_array<std::string_view>({"to", "a", "al", "of"});
  std::vector<std::string_view> words;
  for (const auto word : base::split(part, ' '))
    if (!word.empty()) words.push_back(word);
  if (words.size() < 2 || !isOneOf(words.front(), deniers)) return false;
  const auto isAllergy = [](std::string_view word) {
    return word.starts_with("allerg") || word.starts_with("alerg");
  };
  const auto allergy = std::find_if(words.begin(), words.end(), isAllergy);
  if (allergy == words.end()) return false;
  const auto isKnown = [&](std::string_view word) {
    return isOneOf(word, fillers) ||
           std::ranges::any_of(healthWords, [&](const auto& one) { return contains(word, one); });
  };
  if (!std::all_of(words.begin() + 1, allergy, isKnown)) return false;
  const auto behind = allergy + 1;
  if (behind == words.end()) return true;
  if (!isOneOf(*behind, ofAllergy) &&
      !std::all_of(behind, words.end(), [&](auto word) { return isOneOf(word, fillers); }))
    return false;
  return std::all_of(behind, words.end(), isKnown);
}

/// The folded text between marks, and where the sense turns: "no latex allergy but asthma".
std::vector<std::string> partsOfHealth(std::string_view text) {
  std::string plain;
  for (const char c : text)
    plain += std::string_view(";,.:/\n\r\t()[]+&|").find(c) == std::string_view::npos ? c : ';';
  // "n/a" is one word.
  const auto whole = base::folded(text);
  if (isNothingSaid(whole)) return {};
  auto folded = base::folded(plain);
  for (const std::string_view turn :
       {" but ", " except ", " and ", " pero ", " excepto ", " y ", " however "})
    for (auto at = folded.find(turn); at != std::string::npos; at = folded.find(turn, at))
      folded.replace(at, turn.size(), ";");
  std::vector<std::string> parts;
  for (const auto part : base::split(folded, ';'))
    parts.emplace_back(base::trim(part));
  return parts;
}

} // namespace

std::vector<HealthRead> readHealth(std::string_view text) {
  std::vector<HealthRead> found;
  bool isUnclear = false;
  for (const auto& part : partsOfHealth(text)) {
    if (isNothingSaid(part) || isDenied(part)) continue;
    bool isFound = false;
    for (const auto& one : healthWords) {
      if (!contains(part, one)) continue;
      isFound = true;
      addStrictest(found, {one.kind, one.action});
    }
    isUnclear = isUnclear || !isFound;
  }
  if (found.empty() && isUnclear) found.push_back({FlagKind::other, FlagAction::ask});
  return found;
}

void addStrictest(std::vector<HealthRead>& all, HealthRead one) {
  const auto known = std::ranges::find(all, one.kind, &HealthRead::kind);
  if (known == all.end())
    all.push_back(one);
  else
    known->action = std::min(known->action, one.action);
}

} // namespace gk::roster
