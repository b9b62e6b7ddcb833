#include "support/samples/edge_days.h"

#include <utility>

namespace gk::test {

using namespace chairside;
using roster::ConsentState;

namespace {

// No room and no number of a child stands on these sheets: figures there are figures.
constexpr const char* room = "6B";

SampleDay nobodySeen() {
  SampleDay day;
  const std::pair<ConsentState, DayEnd> ways[] = {{ConsentState::yes, DayEnd::absent},
                                                  {ConsentState::yes, DayEnd::declined},
                                                  {ConsentState::yes, DayEnd::notReached}};
  for (const auto& [state, end] : ways)
    day.end(day.child("Mina Tolliver-Reed", state, room), end);
  return day;
}

SampleDay oneSealed() {
  SampleDay day;
  const auto child = day.child("Wren Castlebury", ConsentState::yes, room);
  day.screen(child, {toSeal(16)});
  day.place(child, 16);
  day.end(child, DayEnd::sealedComplete);
  return day;
}

SampleDay withEffort(SampleDay day, int chairs, int minutes) {
  day.records.efforts.push_back(day.make.row<roster::DayEffort>(
      {day.records.id, chairs, std::chrono::minutes{minutes}, {}, 0}));
  return day;
}

SampleDay withCost(SampleDay day, std::vector<roster::CostLine> lines) {
  day.records.costs.push_back(day.make.row<roster::DayCost>({day.records.id, std::move(lines)}));
  return day;
}

SampleDay morePaperBack() {
  auto day = oneSealed();
  day.records.papers.push_back(day.make.row<followup::PaperCount>(
      {day.records.id, followup::Paper::other, 0, 3, 0, 0, "found behind the desk"}));
  return day;
}

SampleDay doesNotAddUp() {
  auto day = oneSealed();
  day.end(day.child("Nell Farrowgate", ConsentState::no, room), DayEnd::absent);
  auto& seen = day.screen(day.child("Hana Brookmere", ConsentState::yes, room));
  seen.untreatedDecay = Tri::yes;
  seen.urgency = Urgency::urgent;
  seen.urgentReason = UrgentReason::swelling;
  return day;
}

SampleDay withExceptions() {
  auto day = oneSealed();
  const auto child = day.records.children.front().id;
  const auto field = day.field(child, 16);
  day.records.placements.back().value.field = field;
  auto& cure = day.step(field, Step::cure, StepResult::interrupted);
  cure.lasted = base::Milliseconds{0};
  cure.target = base::Seconds{0};
  auto& etch = day.step(field, Step::etch, StepResult::shortAccepted);
  etch.lasted = base::Milliseconds{0};
  etch.target = base::Seconds{20};
  day.records.wets.push_back(day.make.row<Wet>(
      {field, {dentition::toothAt(16)}, WetStage::afterFrosty, WetCause::saliva, ""}));
  day.place(child, 36, Attempt::stoppedBeforeSealant);
  return day;
}

SampleDay allToSee() {
  SampleDay day;
  day.records.lastDayHere = true;
  for (const char* name : {"Osei Brackwater", "Jory Amberly"})
    day.child(name, ConsentState::yes, room);
  return day;
}

} // namespace

std::vector<DayAtEdge> daysAtEdge() {
  const std::pair<const char*, SampleDay> days[] = {
      {"nobody", SampleDay()},
      {"nobody seen", nobodySeen()},
      {"nobody seen, chairs open", withEffort(nobodySeen(), 2, 300)},
      {"nobody seen, costs", withCost(nobodySeen(), {{roster::CostKind::staff, 100}})},
      {"one sealed", oneSealed()},
      {"one sealed, a minute", withEffort(oneSealed(), 1, 1)},
      {"one sealed, costs of nothing", withCost(oneSealed(), {})},
      {"more paper back than out", morePaperBack()},
      {"does not add up", doesNotAddUp()},
      {"exceptions", withExceptions()},
      {"all to see", allToSee()}};
  std::vector<DayAtEdge> out;
  for (const auto& [name, day] : days)
    out.push_back({name, day.closeOut()});
  return out;
}

} // namespace gk::test
