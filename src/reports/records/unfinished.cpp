#include "reports/records/unfinished.h"

#include "reports/records/doubtful.h"
#include "reports/records/words.h"

#include <algorithm>

namespace gk::reports {

namespace {

using chairside::Attempt;
using chairside::Decision;
using dentition::Tooth;

/// A wish that something other than the tooth's state stood in the way of.
bool isPutOff(Decision decision) {
  return decision == Decision::childDeclined || decision == Decision::cannotIsolate ||
         decision == Decision::notToday;
}

bool isMeant(const chairside::Screening& screening, const Tooth& tooth) {
  return std::ranges::any_of(screening.teeth, [&](const auto& finding) {
    return finding.tooth == tooth &&
           (chairside::isTreatment(finding.decision) || isPutOff(finding.decision));
  });
}

/// Back from today, look by look, as long as the tooth was meant and not finished since.
base::Date firstMeant(const DayView& view, const roster::ChildId& child, const Tooth& tooth) {
  const auto& records = view.records;
  const auto dateOf = [&](const roster::DayId& day) { return records.earlierDays.at(day); };
  std::optional<base::Date> finished;
  for (const auto& row : records.earlierPlacements)
    if (row.value.child == child && row.value.tooth == tooth &&
        row.value.attempt == Attempt::complete)
      finished = std::max(finished, std::optional(dateOf(row.value.day)));
  std::vector<const chairside::Screening*> looks;
  for (const auto& row : records.earlierScreenings)
    if (row.value.child == child) looks.push_back(&row.value);
  std::ranges::stable_sort(looks, std::ranges::greater(),
                           [&](const auto* look) { return dateOf(look->day); });
  auto first = records.day.date;
  for (const auto* look : looks) {
    const auto on = dateOf(look->day);
    if (!isMeant(*look, tooth) || (finished && on <= *finished)) break;
    first = on;
  }
  return first;
}

/// When it can be finished, as far as the plan of the term says.
std::string nextStep(const DayView& view, const roster::ChildId& child) {
  const bool isUrgent = std::ranges::any_of(view.screenings.of(child), [](const auto* row) {
    return row->value.urgency == chairside::Urgency::urgent;
  });
  if (isUrgent) return "the urgent care first";
  if (const auto& next = view.records.nextDayHere) return "finish here on " + next->words();
  return "no day left here: next term, or a dentist";
}

} // namespace

std::vector<UnfinishedTooth> unfinishedOf(const DayView& view) {
  std::vector<UnfinishedTooth> out;
  for (const auto& child : view.lineUp()) {
    const auto* outcome = view.outcome(child);
    const auto* known = view.child(child);
    std::set<Tooth> told;
    const auto add = [&](const Tooth& tooth, std::string how, const std::string& why) {
      if (view.isFinished(child, tooth) || !told.insert(tooth).second) return;
      out.push_back({child, view.shown(child), tooth, view.tooth(tooth), std::move(how),
                     !why.empty() || !outcome ? why : outcome->reason, known ? known->room : "",
                     firstMeant(view, child, tooth), nextStep(view, child)});
    };
    for (const auto* row : view.placements.of(child))
      if (row->value.attempt != Attempt::complete)
        add(row->value.tooth, named(row->value.attempt), row->value.note);
    for (const auto* row : view.screenings.of(child)) {
      for (const auto& finding : row->value.teeth) {
        if (chairside::isTreatment(finding.decision))
          add(finding.tooth, named(finding.decision) + ", nothing placed", finding.note);
        else if (isPutOff(finding.decision))
          add(finding.tooth, "not placed",
              finding.note.empty() ? named(finding.decision) : finding.note);
      }
    }
  }
  return out;
}

std::set<roster::ChildId> childrenToLookBackOn(const DayRecords& records) {
  const Names nobody;
  std::set<roster::ChildId> children;
  for (const auto& tooth : unfinishedOf(DayView(records, nobody)))
    children.insert(tooth.child);
  for (const auto& check : stillDoubtful(records.checks, {}))
    children.insert(check.value.child);
  return children;
}

} // namespace gk::reports
