#include "reports/letters/letter_facts.h"

#include "base/text/text.h"
#include "reports/records/unfinished.h"
#include "reports/records/words.h"

#include <algorithm>
#include <map>
#include <set>

namespace gk::reports {

namespace {

using chairside::Attempt;
using chairside::Condition;
using chairside::DayEnd;
using chairside::PlacementType;
using chairside::Urgency;
using dentition::Tooth;
using followup::LetterVariant;

using Teeth = std::set<Tooth>;

std::vector<Tooth> listed(const Teeth& teeth) {
  return {teeth.begin(), teeth.end()};
}

void addPlacements(const DayView& view, const roster::ChildId& child, LetterFacts& facts) {
  std::map<PlacementType, Teeth> done;
  for (const auto* row : view.placements.of(child))
    if (row->value.attempt == Attempt::complete) done[row->value.type].insert(row->value.tooth);
  auto sealed = done[PlacementType::fresh];
  sealed.insert(done[PlacementType::replacesInterim].begin(),
                done[PlacementType::replacesInterim].end());
  facts.sealed = listed(sealed);
  facts.resealed = listed(done[PlacementType::reseal]);
  facts.repaired = listed(done[PlacementType::repair]);
  facts.covered = listed(done[PlacementType::interim]);
}

void addUnfinished(const DayView& view, const roster::ChildId& child, LetterFacts& facts) {
  Teeth open;
  for (const auto& tooth : unfinishedOf(view))
    if (tooth.child == child) open.insert(tooth.tooth);
  facts.unfinished = listed(open);
}

/// By the newest check of the day of each placement.
void addChecks(const DayView& view, const roster::ChildId& child, LetterFacts& facts) {
  std::map<chairside::PlacementId, followup::Held> newest;
  for (const auto* row : view.checks.of(child))
    newest.insert_or_assign(row->value.placement, row->value.tooth());
  facts.kept = static_cast<int>(std::ranges::count_if(
      newest, [](const auto& one) { return one.second == followup::Held::whole; }));
}

void addFindings(const DayView& view, const roster::ChildId& child, LetterFacts& facts) {
  Teeth holes;
  for (const auto* row : view.screenings.of(child)) {
    const auto& seen = row->value;
    facts.decay = facts.decay || seen.untreatedDecay == chairside::Tri::yes;
    for (const auto& tooth : seen.teeth)
      if (tooth.hasAny(Condition::cavitated)) holes.insert(tooth.tooth);
    if (seen.urgency > facts.urgency) facts.urgency = seen.urgency;
    if (seen.urgency == Urgency::urgent) facts.reason = seen.urgentReason;
  }
  facts.mayHaveDecay = listed(holes);
  for (const auto* row : view.referrals.of(child)) {
    if (row->value.day != view.records.id) continue;
    facts.urgency = std::max(facts.urgency, row->value.urgency);
    facts.dentistBy = row->value.due;
  }
  if (facts.urgency == Urgency::none) return;
  if (!facts.dentistBy)
    facts.dentistBy = followup::referralDue(facts.urgency, view.records.day.date);
}

void addCalls(const DayView& view, const roster::ChildId& child, LetterFacts& facts) {
  if (facts.urgency != Urgency::urgent) return;
  for (const auto* row : view.contacts.of(child)) {
    const auto& tried = row->value;
    if (tried.channel != followup::Channel::phone && tried.channel != followup::Channel::message)
      continue;
    const bool reached = tried.result == followup::ContactResult::reached;
    facts.phoned = std::max(facts.phoned, reached ? Phoned::reached : Phoned::tried);
  }
}

LetterVariant variantOf(const LetterFacts& facts, bool withdrawn) {
  if (withdrawn) return LetterVariant::stopped;
  if (facts.urgency == Urgency::urgent) return LetterVariant::referralUrgent;
  if (facts.urgency == Urgency::early) return LetterVariant::referralEarly;
  const bool isSealed = !facts.sealed.empty() || !facts.covered.empty();
  if (!facts.resealed.empty() || !facts.repaired.empty())
    return isSealed ? LetterVariant::sealed : LetterVariant::recheckRepaired;
  if (!facts.unfinished.empty())
    return isSealed ? LetterVariant::sealedUnfinished : LetterVariant::notTreated;
  if (isSealed) return LetterVariant::sealed;
  return facts.kept == 0 ? LetterVariant::allFine : LetterVariant::recheckWhole;
}

std::string numbers(const std::vector<Tooth>& teeth) {
  std::vector<std::string> words;
  for (const auto& tooth : teeth)
    words.push_back(std::to_string(tooth.iso()));
  return words.empty() ? "none" : base::join(words, " ");
}

constexpr std::string_view callLine = "phoned";

std::map<std::string, std::string, std::less<>> parsed(std::string_view lines) {
  std::map<std::string, std::string, std::less<>> found;
  for (const auto line : base::split(lines, '\n')) {
    const auto colon = line.find(": ");
    if (colon == std::string_view::npos) continue;
    found.emplace(line.substr(0, colon), line.substr(colon + 2));
  }
  return found;
}

} // namespace

std::optional<LetterFacts> letterFacts(const DayView& view, const roster::ChildId& child) {
  const auto* outcome = view.outcome(child);
  LetterFacts facts;
  if (!view.wasSeen(child)) {
    if (!outcome || outcome->end != DayEnd::absent) return std::nullopt;
    facts.variant = LetterVariant::absent;
    return facts;
  }
  addPlacements(view, child, facts);
  addUnfinished(view, child, facts);
  addChecks(view, child, facts);
  addFindings(view, child, facts);
  addCalls(view, child, facts);
  facts.varnish = view.varnishes.has(child);
  facts.variant = variantOf(facts, outcome && outcome->end == DayEnd::withdrawn);
  return facts;
}

std::string toLines(const LetterFacts& facts) {
  std::string lines;
  const auto line = [&](std::string_view what, const std::string& value) {
    lines += std::string(what) + ": " + value + "\n";
  };
  line("variant", std::string(base::nameOf(facts.variant)));
  line("sealed", numbers(facts.sealed));
  line("resealed", numbers(facts.resealed));
  line("repaired", numbers(facts.repaired));
  line("covered for now", numbers(facts.covered));
  line("unfinished", numbers(facts.unfinished));
  line("found whole", std::to_string(facts.kept));
  line("may have decay", numbers(facts.mayHaveDecay));
  line("decay", facts.decay ? "yes" : "no");
  line("varnish", facts.varnish ? "yes" : "no");
  line("urgency", std::string(base::nameOf(facts.urgency)));
  line("urgent for", std::string(base::nameOf(facts.reason)));
  line("dentist by", facts.dentistBy ? facts.dentistBy->iso() : "no date");
  line(callLine, std::string(base::nameOf(facts.phoned)));
  return lines;
}

std::vector<std::string> changedFacts(std::string_view earlier, std::string_view now) {
  const auto before = parsed(earlier);
  std::vector<std::string> found;
  for (const auto& [what, value] : parsed(now)) {
    const auto was = before.find(what);
    if (what == callLine || (was != before.end() && was->second == value)) continue;
    found.push_back(what + ": " + value + " instead of " +
                    (was == before.end() ? "nothing" : was->second));
  }
  return found;
}

} // namespace gk::reports
