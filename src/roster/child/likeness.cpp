#include "roster/child/likeness.h"

#include "base/contract.h"
#include "base/text/text.h"
#include "roster/child/digits.h"

#include <algorithm>

namespace gk::roster {

bool areOneSlipApart(std::string_view one, std::string_view other) {
  if (one.size() > other.size()) std::swap(one, other);
  if (other.size() - one.size() > 1) return false;
  const auto from = static_cast<std::size_t>(std::ranges::mismatch(one, other).in1 - one.begin());
  const auto restOf = [&](std::string_view name, std::size_t skipped) {
    return name.substr(std::min(name.size(), from + skipped));
  };
  if (one.size() < other.size()) return restOf(one, 0) == restOf(other, 1);
  if (restOf(one, 1) == restOf(other, 1)) return true;
  return restOf(one, 2) == restOf(other, 2) && from + 1 < one.size() &&
         one[from] == other[from + 1] && one[from + 1] == other[from];
}

bool areNearDates(base::Date one, base::Date other) {
  const int same = (one.year() == other.year() ? 1 : 0) + (one.month() == other.month() ? 1 : 0) +
                   (one.day() == other.day() ? 1 : 0);
  return same >= 2 ||
         (one.year() == other.year() && one.month() == other.day() && one.day() == other.month());
}

namespace {

/// First and last names that changed places.
bool areSameWords(std::string_view one, std::string_view other) {
  auto words = base::split(one, ' ');
  auto others = base::split(other, ' ');
  std::ranges::sort(words);
  std::ranges::sort(others);
  return words == others;
}

bool areNearNames(const std::string& one, const std::string& other) {
  if (one.empty() || other.empty()) return false;
  return areOneSlipApart(one, other) || areSameWords(one, other);
}

bool isCutOf(const std::string& cut, const std::string& whole) {
  return !cut.empty() && cut.size() + 1 == whole.size() && whole.starts_with(cut);
}

} // namespace

std::optional<Likeness> likeness(const Person& one, const Person& other) {
  const auto anyName = [&](auto same) {
    return same(one.legal, other.legal) || same(one.called, other.called);
  };
  const bool isSameName =
      anyName([](const auto& a, const auto& b) { return !a.empty() && a == b; });
  if (one.birth == other.birth) {
    if (isSameName) return Likeness::nameAndBirth;
    if (anyName(areNearNames)) return Likeness::nearName;
    return std::nullopt;
  }
  if (isSameName && areNearDates(one.birth, other.birth)) return Likeness::nearBirth;
  return std::nullopt;
}

bool areLikeNumbers(std::string_view one, std::string_view other) {
  const auto digits = digitsIn(one);
  const auto others = digitsIn(other);
  const bool isOtherCheckDigit =
      digits.size() > 1 && digits.size() == others.size() && digits.back() != others.back() &&
      digits.compare(0, digits.size() - 1, others, 0, digits.size() - 1) == 0;
  return isOtherCheckDigit || isCutOf(digits, others) || isCutOf(others, digits);
}

bool isTooAlike(Likeness likeness) {
  return likeness != Likeness::nearBirth;
}

std::string_view words(Likeness likeness) {
  switch (likeness) {
  case Likeness::number:
    return "almost the same number";
  case Likeness::nameAndBirth:
    return "the same name and birth date";
  case Likeness::nearName:
    return "the same birth date and almost the same name";
  case Likeness::nearBirth:
    return "the same name and almost the same birth date";
  }
  base::fail("no such likeness");
}

} // namespace gk::roster
