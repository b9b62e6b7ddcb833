#include "roster/child/linkage.h"

#include "base/contract.h"
#include "base/text/text.h"
#include "roster/child/likeness.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace gk::roster {

namespace {

/// Both are near each other's names when a slip of the pen parts them, one begins the other, or one
/// of two family names is shared.
bool isNear(const std::string& one, const std::string& other) {
  if (one.empty() || other.empty()) return false;
  if (areOneSlipApart(one, other)) return true;
  constexpr std::size_t leastBegun = 3; ///< "Sam" and "Samuel"
  const auto& shorter = one.size() < other.size() ? one : other;
  const auto& longer = one.size() < other.size() ? other : one;
  if (shorter.size() >= leastBegun && longer.starts_with(shorter)) return true;
  constexpr std::size_t leastShared = 4; ///< longer than any "de la"
  for (const auto word : base::split(one, ' '))
    for (const auto second : base::split(other, ' '))
      if (word == second && word.size() >= leastShared) return true;
  return false;
}

Agreement names(const std::string& one, const std::string& other) {
  if (one.empty() || other.empty()) return one == other ? Agreement::unsaid : Agreement::near;
  if (one == other) return Agreement::same;
  return isNear(one, other) ? Agreement::near : Agreement::differs;
}

std::string withoutGaps(std::string text) {
  std::erase(text, ' ');
  return text;
}

/// By the first name, the one that is used, or first and middle together, whichever agrees best.
Agreement firstNames(const LinkPerson& one, const LinkPerson& other) {
  auto best = names(one.first, other.first);
  const auto take = [&](const std::string& a, const std::string& b) {
    if (a.empty() || b.empty()) return;
    const auto found = names(a, b);
    if (found == Agreement::same || (found == Agreement::near && best != Agreement::same))
      best = found;
  };
  const auto given = [](const LinkPerson& who) { return withoutGaps(who.first + who.middle); };
  take(one.called, other.called);
  take(one.called, other.first);
  take(one.first, other.called);
  take(given(one), given(other));
  return best;
}

Agreement births(base::Date one, base::Date other) {
  if (one == other) return Agreement::same;
  return areNearDates(one, other) ? Agreement::near : Agreement::differs;
}

/// log2(m/u) of agreement, nearness and difference; 0 where nothing is said. Sources and the
/// working: docs/methods.md, section 10.
struct Weights {
  double mSame, uSame;
  double mNear, uNear;
};

double weight(const Weights& of, Agreement agreement) {
  switch (agreement) {
  case Agreement::unsaid:
    return 0;
  case Agreement::same:
    return std::log2(of.mSame / of.uSame);
  case Agreement::near:
    return std::log2(of.mNear / of.uNear);
  case Agreement::differs:
    return std::log2((1 - of.mSame - of.mNear) / (1 - of.uSame - of.uNear));
  }
  base::fail("no such agreement");
}

constexpr Weights ofFirst{0.90, 1.0 / 100, 0.06, 1.0 / 25};
constexpr Weights ofLast{0.88, 1.0 / 200, 0.07, 1.0 / 50};
/// Eight school years of 365 days are 2,920 birth dates; near ones share two of day, month, year.
constexpr Weights ofBirth{0.95, 1.0 / 2920, 0.04, 48.0 / 2920};
constexpr Weights ofSex{0.98, 0.5, 0, 0};
/// A child who changes districts has another; two children have never the same, but for a slip.
constexpr Weights ofStudentId{0.80, 1.0 / 10000, 0, 0};

} // namespace

LinkAgreements agreements(const LinkPerson& one, const LinkPerson& other) {
  using dentition::Sex;
  LinkAgreements agree{firstNames(one, other), names(one.last, other.last),
                       births(one.birth, other.birth), Agreement::unsaid, Agreement::unsaid};
  // First and last changed places, or all stands in one column.
  const auto whole = [](const LinkPerson& who) {
    auto words = base::split(who.last, ' ');
    for (const auto word : base::split(who.first, ' '))
      words.push_back(word);
    std::erase(words, std::string_view());
    std::ranges::sort(words);
    return words;
  };
  if (whole(one) == whole(other)) agree.first = agree.last = Agreement::same;
  if (one.sex != Sex::notStated && other.sex != Sex::notStated)
    agree.sex = one.sex == other.sex ? Agreement::same : Agreement::differs;
  if (!one.studentId.empty() && !other.studentId.empty())
    agree.studentId = one.studentId == other.studentId ? Agreement::same : Agreement::differs;
  return agree;
}

double linkWeight(const LinkAgreements& agree) {
  return weight(ofFirst, agree.first) + weight(ofLast, agree.last) + weight(ofBirth, agree.birth) +
         weight(ofSex, agree.sex) + weight(ofStudentId, agree.studentId);
}

double linkWeight(const LinkPerson& one, const LinkPerson& other) {
  return linkWeight(agreements(one, other));
}

LinkVerdict verdictOn(const LinkAgreements& agree) {
  using enum Agreement;
  const auto agrees = [](Agreement name) { return name == same || name == unsaid; };
  const bool areNames =
      agrees(agree.first) && agrees(agree.last) && (agree.first == same || agree.last == same);
  if (agree.studentId == same) {
    // Offices give the number of one who left to another, and of siblings one to both.
    const bool isNamed = agree.first == same || (agree.first == near && agree.last != differs) ||
                         (agree.first == unsaid && agrees(agree.last));
    const bool isBorn = agree.birth == same || agree.birth == near;
    return isNamed && isBorn ? LinkVerdict::same : LinkVerdict::unsure;
  }
  const auto weight = linkWeight(agree);
  const bool isSame = areNames && agree.birth == same && agree.studentId != differs;
  if (isSame && weight >= leastSame) return LinkVerdict::same;
  return weight >= leastUnsure ? LinkVerdict::unsure : LinkVerdict::different;
}

} // namespace gk::roster
