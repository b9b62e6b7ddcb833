#include "reports/day/close_out.h"

#include "reports/day/close_out_parts.h"
#include "reports/merges/merge_questions.h"
#include "reports/records/words.h"

#include <algorithm>
#include <map>

namespace gk::reports {

namespace {

std::map<dentition::Tooth, dentition::SurfaceSet> sealedTeeth(const DayView& view,
                                                              const roster::ChildId& child) {
  std::map<dentition::Tooth, dentition::SurfaceSet> sealed;
  for (const auto* row : view.placements.of(child)) {
    if (!chairside::countsAsSealant(row->value)) continue;
    auto& surfaces = sealed[row->value.tooth];
    surfaces = surfaces.with(row->value.surfaces);
  }
  return sealed;
}

ChildLine lineOf(const DayView& view, const roster::ChildId& id,
                 const std::vector<Blocker>& blockers) {
  const auto* child = view.child(id);
  ChildLine line{id, view.shown(id), child ? child->room : "", std::nullopt, {}, "", {}, {}};
  // By the day on which the team could see the child again.
  const auto& records = view.records;
  line.hasLeft =
      child && roster::hasLeft(*child, records.nextDayHere.value_or(records.day.date.plusDays(1)));
  if (const auto* outcome = view.outcome(id)) line.outcome = outcome->end;
  for (const auto& [tooth, surfaces] : sealedTeeth(view, id))
    line.sealed.push_back(tooth);
  line.sealedWords = teethWords(line.sealed, view.records.notation);
  for (const auto* row : view.screenings.of(id))
    line.urgency = std::max(line.urgency.value_or(chairside::Urgency::none), row->value.urgency);
  for (const auto& blocker : blockers)
    if (blocker.child == id) line.missing.push_back(blocker.what);
  return line;
}

std::string nextOf(const UrgentLine& line, bool isReferred) {
  if (line.calls.empty()) return "call now";
  if (!line.reached) return "call again, then the next person on the card";
  if (!line.nurseTold) return "tell the nurse";
  return isReferred ? "find out whether the student was seen" : "make the referral";
}

std::optional<UrgentLine> urgentLine(const DayView& view, const roster::ChildId& id) {
  std::optional<UrgentLine> line;
  for (const auto* row : view.screenings.of(id))
    if (row->value.urgency == chairside::Urgency::urgent)
      line = UrgentLine{id, view.shown(id), row->value.urgentReason, {}, false, false};
  if (!line) return line;
  for (const auto* row : view.contacts.of(id)) {
    const auto& tried = row->value;
    line->calls.push_back({row->stamp.at, tried.channel, tried.result, tried.note});
    if (tried.result != followup::ContactResult::reached) continue;
    if (tried.channel == followup::Channel::nurse)
      line->nurseTold = true;
    else
      line->reached = true;
  }
  std::ranges::sort(line->calls, {}, &Call::at);
  line->next = nextOf(*line, view.referrals.has(id));
  return line;
}

DayCounts countsOf(const DayView& view) {
  DayCounts counts;
  for (const auto& child : view.lineUp()) {
    if (view.wasSeen(child)) ++counts.children;
    if (view.varnishes.has(child)) ++counts.varnish;
    counts.checks += static_cast<int>(view.checks.of(child).size());
    const auto sealed = sealedTeeth(view, child);
    if (!sealed.empty()) ++counts.sealedChildren;
    for (const auto& [tooth, surfaces] : sealed) {
      counts.surfaces += static_cast<int>(surfaces.size());
      if (tooth.isFirstPermanentMolar())
        ++counts.firstMolars;
      else if (tooth.isSecondPermanentMolar())
        ++counts.secondMolars;
      else
        ++counts.otherTeeth;
    }
  }
  return counts;
}

std::vector<ReferralLine> referralsOf(const DayView& view) {
  std::vector<ReferralLine> out;
  for (const auto& entry : view.referrals.all())
    for (const auto* row : entry.second)
      if (row->value.day == view.records.id)
        out.push_back({row->id, entry.first, view.shown(entry.first), row->value.urgency,
                       row->value.reason, row->value.to, row->value.due, row->value.state});
  std::ranges::sort(out, {}, [](const ReferralLine& line) {
    return std::tuple(line.urgency != chairside::Urgency::urgent, line.due, line.shown);
  });
  return out;
}

} // namespace

bool CloseOut::balanced() const {
  return equation.difference() == 0 && equation.odd.empty();
}

int CloseOut::openThings() const {
  const auto listed = static_cast<int>(blockers.size() + questions.size());
  if (listed > 0 || balanced()) return listed;
  return std::max(static_cast<int>(equation.odd.size()), 1);
}

bool CloseOut::mayClose() const {
  return balanced() && blockers.empty() && questions.empty();
}

CloseOut closeOut(const DayRecords& records, const Names& names) {
  const DayView view(records, names);
  CloseOut out{.school = records.school.name, .date = records.day.date, .team = records.day.team};
  out.equation = equationOf(view);
  out.unfinished = unfinishedOf(view);
  out.lights = lightsToRead(view);
  out.papers = papersOf(records);
  out.laptops = laptopsOf(view);
  if (!records.efforts.empty()) out.effort = records.efforts.back().value;
  if (!records.costs.empty()) out.cost = records.costs.back().value;
  out.paperCounted = wasPaperCounted(records);
  out.questions = mergeQuestions(view);
  out.answered = answeredQuestions(view);
  out.blockers = blockersOf(view, out);
  out.exceptions = exceptionsOf(view);
  out.supplies = suppliesOf(view);
  out.letters = letterLines(view);
  out.referrals = referralsOf(view);
  out.incidents = incidentsOf(view);
  out.counts = countsOf(view);
  out.counts.letters = letterSums(out.letters).seenWith;
  for (const auto& child : view.lineUp()) {
    out.lines.push_back(lineOf(view, child, out.blockers));
    if (auto urgent = urgentLine(view, child)) out.urgent.push_back(*std::move(urgent));
  }
  for (const auto& child : view.stillToSee())
    out.stillToSee.push_back(lineOf(view, child, out.blockers));
  for (const auto& row : records.closures) {
    if (row.value.day != records.id) continue;
    out.closed = true;
    out.signedBy =
        view.initials(row.value.clinical) + " (clinical), " + view.initials(row.value.coordinator);
  }
  out.signings = signingsOf(view);
  out.lateEntries = lateEntriesOf(view);
  out.confirmed = confirmedOf(view);
  return out;
}

} // namespace gk::reports
