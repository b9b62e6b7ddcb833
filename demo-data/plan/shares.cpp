#include "plan/plan.h"

#include "base/contract.h"

namespace gk::demo {

namespace {

/// Second graders, or the grades in turn where a school has several.
std::string smallGrade(std::string_view code, std::size_t turn) {
  if (code == "CL") return turn % 2 == 0 ? "2" : "3";
  if (code == "FR") return turn % 3 == 0 ? "1" : "2";
  return "2";
}

void addFirsts(std::vector<Share>& shares, std::string_view code, int teeth, int children,
               int unfinished) {
  for (int i = 0; i < unfinished; ++i)
    shares.push_back({smallGrade(code, static_cast<std::size_t>(i)), 2, 0, true});
  const auto parts = deal(teeth - 2 * unfinished, static_cast<std::size_t>(children - unfinished));
  for (std::size_t i = 0; i < parts.size(); ++i)
    shares.push_back({smallGrade(code, i), parts.at(i), 0});
}

/// Sixth graders: second molars, and first molars for those who have some unsealed.
void addSixth(std::vector<Share>& shares, int firsts, int seconds, int children, int unfinished,
              int firstsEach) {
  for (int i = 0; i < unfinished; ++i)
    shares.push_back({"6", 0, 2, true});
  int left = firsts;
  for (int part : deal(seconds - 2 * unfinished, static_cast<std::size_t>(children - unfinished))) {
    shares.push_back({"6", std::min(left, firstsEach), part});
    left -= std::min(left, firstsEach);
  }
  base::require(left == 0, "first molars of sixth graders do not add up");
}

/// One of fall 2025 by the number of its teeth.
Share shareOf2025(std::string_view code, std::size_t turn, int teeth) {
  const bool sixth = code == "EB" || (code == "DM" && turn % 3 == 2);
  return sixth ? Share{"6", teeth - 3, 3} : Share{smallGrade(code, turn), teeth, 0};
}

} // namespace

std::vector<Share> sharesOf2026(const SchoolTerm& term, std::string_view code) {
  std::vector<Share> shares;
  if (code == "EB") {
    addSixth(shares, term.firstMolars, term.secondMolars, term.sealed, term.unfinished, 2);
    return shares;
  }
  // Of Dunlin Marsh's sealed children 11 are sixth graders; seven had a first molar unsealed.
  const int sixth = code == "DM" ? 11 : 0;
  const int firstsOfSixth = code == "DM" ? 7 : 0;
  addFirsts(shares, code, term.firstMolars - firstsOfSixth, term.sealed - sixth, term.unfinished);
  if (sixth > 0) addSixth(shares, firstsOfSixth, term.secondMolars, sixth, 0, 1);
  return shares;
}

std::vector<Share> sharesOf2025(const School& school) {
  std::vector<Share> shares;
  const auto& year = school.oneYear;
  const auto found = deal(year.examined, static_cast<std::size_t>(year.found));
  for (std::size_t i = 0; i < found.size(); ++i)
    shares.push_back(shareOf2025(school.code, i, found.at(i)));

  const int unfinished = school.autumn2025.unfinished;
  for (int i = 0; i < unfinished; ++i) {
    const bool sixth = school.code == "EB" || school.code == "DM";
    shares.push_back(sixth ? Share{"6", 0, 2, true} : Share{"2", 2, 0, true});
  }
  const int children = year.sealed - year.found - unfinished;
  const auto others =
      deal(year.placed - year.examined - 2 * unfinished, static_cast<std::size_t>(children));
  for (std::size_t i = 0; i < others.size(); ++i)
    shares.push_back(shareOf2025(school.code, i, others.at(i)));
  return shares;
}

} // namespace gk::demo
