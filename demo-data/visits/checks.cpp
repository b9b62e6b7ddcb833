#include "visits/checks.h"

#include "base/contract.h"

namespace gk::demo {

namespace {

using followup::CannotAssess;
using followup::CheckAction;
using followup::Held;

// Cobble Lantern: of the 38 children found, the first 24 were cured with L-2, whose output was
// falling; 23 of the school's 26 parts and losses are theirs, 19 of those on upper molars.
constexpr std::size_t curedWithL2 = 24;

struct Outcome {
  Held held;
  int children;
};

std::vector<Outcome> outcomesOf(std::size_t school) {
  const auto& year = county().at(school).oneYear;
  if (school != cobbleLantern)
    return {
        {Held::lost, year.lost}, {Held::part, year.part}, {Held::cannotAssess, year.cannotAssess}};
  return {{Held::part, 1}, {Held::lost, 11}, {Held::part, 11},       {Held::whole, 1},
          {Held::lost, 1}, {Held::part, 2},  {Held::cannotAssess, 3}};
}

/// An upper sealed tooth of the plan where one is wanted and there; else a lower one.
int sealedTooth(const ChildPlan& plan, bool upper) {
  std::optional<int> other;
  for (const auto& [iso, spot] : plan.molars) {
    if (spot != Spot::seal && spot != Spot::sealEarly) continue;
    // The left first: the last upper one in this order is an upper left tooth.
    if ((iso < 30) == upper && (iso / 10 == 2 || iso / 10 == 3)) return iso;
    if (!other || (iso < 30) == upper) other = iso;
  }
  base::require(other.has_value(), "a pupil without a sealed tooth");
  return *other;
}

bool failsAbove(std::size_t school, std::size_t student) {
  if (school == cobbleLantern) return student == 0 || student % 5 != 0;
  return student % 3 != 2;
}

CannotAssess whyNot(std::size_t school, std::size_t student) {
  if (county().at(school).code == "EB") return CannotAssess::banded;
  return student % 2 == 0 ? CannotAssess::childUnable : CannotAssess::coveredByGum;
}

} // namespace

kit::LightId lightOf2025(const Story& story, std::size_t school, std::size_t student) {
  const auto& kit = *story.kit;
  if (county().at(school).laptop == Desk::b) return kit.l3;
  if (school == alderHollow) return student % 4 == 3 ? kit.l2 : kit.l1;
  if (school != cobbleLantern) return kit.l1;
  const auto found = static_cast<std::size_t>(county().at(school).oneYear.found);
  const bool l2 = student < found ? student < curedWithL2 : student % 3 != 0;
  return l2 ? kit.l2 : kit.l1;
}

std::vector<Recheck> planChecks(std::size_t school, const std::vector<Student>& students) {
  const auto& year = county().at(school).oneYear;
  std::vector<Recheck> out;
  for (const auto& [held, children] : outcomesOf(school))
    for (int i = 0; i < children; ++i) {
      const auto place = out.size();
      if (held == Held::whole) {
        out.emplace_back();
        continue;
      }
      const auto tooth = sealedTooth(students.at(place).plan, failsAbove(school, place));
      out.push_back(
          {tooth, held, held == Held::cannotAssess ? whyNot(school, place) : CannotAssess::none});
    }
  base::require(std::ssize(out) <= year.found, "more trouble than children found");
  out.resize(static_cast<std::size_t>(year.found));
  return out;
}

void look(const Chair& chair, roster::ChildId child, const Recheck& recheck,
          CheckAction actionOnPart) {
  using dentition::Surface;
  const auto earlier = chair.tell().must(chair.book.earlierPlacements(child, chair.day));
  chair.tell().mustHold(!earlier.empty(), "a child to recheck has no earlier sealants here");
  for (const auto& one : earlier) {
    if (one.left.isEmpty()) continue; // sealed over since
    const auto& placement = one.placement.value;
    const bool meant = recheck.tooth && placement.tooth == dentition::toothAt(*recheck.tooth);
    const auto held = meant ? recheck.held : Held::whole;
    // A part means the groove or pit beside it; the chewing surface holds.
    const auto of = [&](Surface surface) {
      if (!one.left.has(surface)) return Held::notSealed;
      return held == Held::part && surface == Surface::occlusal ? Held::whole : held;
    };
    followup::RetentionCheck check{.placement = one.placement.id,
                                   .child = child,
                                   .day = chair.day,
                                   .kind = followup::CheckKind::longTerm,
                                   .blinded = placement.placedBy != chair.clinician,
                                   .occlusal = of(Surface::occlusal),
                                   .buccal = of(Surface::buccalPit),
                                   .lingual = of(Surface::lingualGroove)};
    if (meant) check.why = recheck.why;
    if (held == Held::lost) check.action = CheckAction::repairNext;
    if (held == Held::part) {
      check.action = actionOnPart;
      check.lift = actionOnPart == CheckAction::resealToday ? followup::LiftTest::lifted
                                                            : followup::LiftTest::held;
    }
    chair.tell().pass(15);
    chair.tell().must(chair.book.enterCheck(chair.by(), check));
  }
}

void recheckVisit(const Chair& chair, roster::ChildId child, const Recheck& recheck) {
  seat(chair, child);
  look(chair, child, recheck, CheckAction::repairToday);
  if (recheck.held == Held::part) {
    const auto tooth = dentition::toothAt(*recheck.tooth);
    const auto beside =
        tooth.isUpper() ? dentition::Surface::lingualGroove : dentition::Surface::buccalPit;
    Half(chair, child, {{tooth, {beside}}}).sealAll();
  }
  end(chair, child, chairside::DayEnd::recheckOnly);
}

} // namespace gk::demo
