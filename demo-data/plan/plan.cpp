#include "plan/plan.h"

#include "base/contract.h"

#include <algorithm>

namespace gk::demo {

namespace {

using chairside::DayEnd;
using chairside::Urgency;
using Plans = std::vector<ChildPlan>;

constexpr std::array firsts{16, 26, 36, 46};
constexpr std::array seconds{17, 27, 37, 47};

bool isBig(const std::string& grade) {
  return grade.size() == 1 && grade >= "6";
}

/// Sealed from `from` on, so that which tooth is left out differs from child to child.
void sealSome(ChildPlan& plan, const std::array<int, 4>& teeth, int count, std::size_t from) {
  for (int i = 0; i < count; ++i) {
    const auto tooth = teeth.at((from + static_cast<std::size_t>(i)) % teeth.size());
    plan.molars[tooth] =
        (from + static_cast<std::size_t>(tooth)) % 9 == 0 ? Spot::sealEarly : Spot::seal;
  }
}

/// The right half is done and the left half begun when the child will not go on.
ChildPlan unfinished(const Share& share) {
  ChildPlan plan{.grade = share.grade, .end = DayEnd::sealedUnfinished};
  const auto& teeth = share.seconds > 0 ? seconds : firsts;
  base::require(share.firsts + share.seconds == 2, "an unfinished child has two teeth sealed");
  plan.molars = {{teeth[0], Spot::seal},
                 {teeth[3], Spot::seal},
                 {teeth[1], Spot::stopped},
                 {teeth[2], Spot::stopped}};
  if (share.seconds > 0)
    for (int tooth : firsts)
      plan.molars[tooth] = Spot::elsewhere;
  return plan;
}

ChildPlan sealed(const Share& share, std::size_t place) {
  if (share.unfinished) return unfinished(share);
  ChildPlan plan{.grade = share.grade, .end = DayEnd::sealedComplete};
  sealSome(plan, firsts, share.firsts, place);
  sealSome(plan, seconds, share.seconds, place);
  // Sixth graders mostly had their first molars sealed elsewhere years ago.
  if (isBig(share.grade))
    for (int tooth : firsts)
      plan.molars.try_emplace(tooth, Spot::elsewhere);
  return plan;
}

ChildPlan notTreated(const std::string& grade) {
  ChildPlan plan{.grade = grade, .varnish = false, .end = DayEnd::screenedNotTreated};
  for (int tooth : isBig(grade) ? seconds : firsts)
    plan.molars[tooth] = Spot::stopped;
  if (isBig(grade))
    for (int tooth : firsts)
      plan.molars[tooth] = Spot::elsewhere;
  return plan;
}

/// Nothing to seal: sealed elsewhere, filled, or not up yet.
ChildPlan noNeed(const std::string& grade, std::size_t place) {
  ChildPlan plan{.grade = grade, .end = DayEnd::screenedNoneNeeded};
  if (grade == "K") return plan;
  for (int tooth : firsts)
    plan.molars[tooth] = Spot::elsewhere;
  plan.molars[firsts.at(place % 4)] = Spot::filled;
  if (place % 3 == 0) plan.molars[firsts.at((place + 2) % 4)] = Spot::filled;
  return plan;
}

std::vector<int> openFirsts(const ChildPlan& plan) {
  std::vector<int> open;
  if (plan.end == DayEnd::sealedComplete && !isBig(plan.grade))
    for (int tooth : firsts)
      if (!plan.molars.contains(tooth)) open.push_back(tooth);
  return open;
}

/// The first molars that were not sealed have a reason; a cavity where the child has decay.
void explainOpenFirsts(Plans& plans) {
  constexpr std::array reasons{Spot::filled, Spot::partlyUp, Spot::filled, Spot::elsewhere};
  std::size_t turn = 0;
  for (auto& plan : plans) {
    bool decayToShow = plan.urgency != Urgency::none;
    for (int tooth : openFirsts(plan)) {
      plan.molars[tooth] = decayToShow ? Spot::cavity : reasons.at(turn++ % reasons.size());
      decayToShow = false;
    }
    if (!decayToShow) continue;
    const auto filling =
        std::ranges::find_if(plan.molars, [](const auto& at) { return at.second == Spot::filled; });
    if (filling != plan.molars.end())
      filling->second = Spot::cavity;
    else
      plan.primaryCavity = true;
  }
}

/// Spread evenly over those screened; the urgent ones last, where little or nothing is to be
/// sealed.
void spreadDecay(Plans& plans, const SchoolTerm& term) {
  const auto screened = static_cast<std::size_t>(term.screened);
  const auto urgent = static_cast<std::size_t>(term.urgent);
  const auto decayed = static_cast<std::size_t>(term.early) + urgent;
  for (std::size_t i = 0; i < decayed; ++i) {
    auto& plan = plans.at((i * screened + screened / 2) / decayed);
    plan.urgency = i + urgent >= decayed ? Urgency::urgent : Urgency::early;
  }
}

/// Those who would not open for a sealant had no varnish either; then some who were stopped.
void leaveOutVarnish(Plans& plans, const SchoolTerm& term) {
  auto without = term.screened - term.varnish;
  for (auto& plan : plans) {
    if (plan.end != DayEnd::screenedNotTreated) continue;
    plan.varnish = without <= 0;
    --without;
  }
  for (auto end : {DayEnd::sealedUnfinished, DayEnd::screenedNoneNeeded})
    for (auto& plan : plans) {
      if (plan.end != end || without <= 0) continue;
      plan.varnish = false;
      --without;
    }
}

void addUp(const Plans& plans, const SchoolTerm& term) {
  const auto count = [&](auto claim) {
    return static_cast<int>(std::ranges::count_if(plans, claim));
  };
  const auto seen = [](const ChildPlan& plan) { return plan.end < DayEnd::recheckOnly; };
  const auto teeth = [&](const std::array<int, 4>& which) {
    int sum = 0;
    for (const auto& plan : plans)
      for (int tooth : which)
        if (const auto at = plan.molars.find(tooth); at != plan.molars.end())
          sum += at->second == Spot::seal || at->second == Spot::sealEarly ? 1 : 0;
    return sum;
  };
  base::require(std::ssize(plans) == term.consented, "consented children do not add up");
  base::require(count(seen) == term.screened, "screened children do not add up");
  base::require(teeth(firsts) == term.firstMolars, "first molars do not add up");
  base::require(teeth(seconds) == term.secondMolars, "second molars do not add up");
  base::require(count([&](const auto& plan) { return seen(plan) && plan.varnish; }) == term.varnish,
                "varnish does not add up");
  base::require(count([](const auto& plan) { return plan.urgency == Urgency::early; }) ==
                    term.early,
                "early decay does not add up");
  base::require(count([](const auto& plan) { return plan.end == DayEnd::sealedUnfinished; }) ==
                    term.unfinished,
                "unfinished children do not add up");
}

} // namespace

int ChildPlan::count(Spot spot) const {
  return static_cast<int>(
      std::ranges::count_if(molars, [&](const auto& at) { return at.second == spot; }));
}

std::vector<int> deal(int total, std::size_t among) {
  std::vector<int> parts;
  const int count = static_cast<int>(among);
  for (int i = 0; i < count; ++i)
    parts.push_back(total / count + (i < total % count ? 1 : 0));
  return parts;
}

std::vector<ChildPlan> planSchool(const SchoolTerm& term, const std::vector<Share>& shares,
                                  const std::vector<std::string>& grades) {
  Plans plans;
  base::require(std::ssize(shares) == term.sealed, "sealed children do not add up");
  for (std::size_t i = 0; i < shares.size(); ++i)
    plans.push_back(sealed(shares.at(i), i));
  std::size_t turn = 0;
  const auto grade = [&] { return grades.at(turn++ % grades.size()); };
  const auto isMolarGrade = [&] {
    auto next = grade();
    while (next == "K")
      next = grade();
    return next;
  };
  for (int i = term.sealed; i < term.needing; ++i)
    plans.push_back(notTreated(isMolarGrade()));
  for (int i = term.needing; i < term.screened; ++i)
    plans.push_back(noNeed(grade(), static_cast<std::size_t>(i)));
  const auto unseen = [&](int children, DayEnd end) {
    for (int i = 0; i < children; ++i)
      plans.push_back({.grade = grade(), .varnish = false, .end = end});
  };
  unseen(term.absent, DayEnd::absent);
  unseen(term.declined, DayEnd::declined);
  unseen(term.left, DayEnd::leftSchool);
  spreadDecay(plans, term);
  explainOpenFirsts(plans);
  leaveOutVarnish(plans, term);
  addUp(plans, term);
  return plans;
}

} // namespace gk::demo
