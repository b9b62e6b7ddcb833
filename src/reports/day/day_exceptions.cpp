#include "reports/day/close_out_parts.h"
#include "reports/day/display_names.h"
#include "reports/records/doubtful.h"
#include "reports/records/words.h"

#include "base/contract.h"
#include "base/text/text.h"

#include <algorithm>
#include <map>

namespace gk::reports {

namespace {

using chairside::Step;
using chairside::StepResult;

std::string teethOf(const chairside::StepRun& run, dentition::Notation notation) {
  std::vector<dentition::Tooth> teeth;
  for (const auto& on : run.teeth)
    teeth.push_back(on.tooth);
  return teethWords(teeth, notation);
}

std::string lengthOf(const chairside::StepRun& run) {
  if (!run.lasted) return "not timed";
  return secondsWords(*run.lasted) + (run.target ? " of " + secondsWords(*run.target) : "");
}

/// What is out of the usual about one step, or nothing.
std::optional<std::pair<ExceptionKind, std::string>> oddity(const chairside::StepRun& run) {
  const auto step = named(run.step);
  if (run.result == StepResult::shortAccepted)
    return std::pair{ExceptionKind::shortStep, "short " + step + " accepted, " + lengthOf(run)};
  if (run.result == StepResult::interrupted && run.step == Step::cure)
    return std::pair{ExceptionKind::interruptedCure, "cure interrupted at " + lengthOf(run)};
  if (run.result == StepResult::frostyNotSeen)
    return std::pair{ExceptionKind::frostyNotSeen, std::string("continued though not frosty")};
  return std::nullopt;
}

void addSteps(const DayView& view, std::vector<DayException>& out) {
  for (const auto& row : view.records.steps) {
    const auto* field = view.field(row.value.field);
    const auto odd = oddity(row.value);
    if (!field || !odd) continue;
    out.push_back({odd->first, field->child, view.shown(field->child),
                   odd->second + ": " + teethOf(row.value, view.records.notation), row.value.reason,
                   view.initials(row.stamp.by.author)});
  }
}

void addWet(const DayView& view, std::vector<DayException>& out) {
  for (const auto& row : view.records.wets) {
    const auto* field = view.field(row.value.field);
    if (!field) continue;
    for (const auto& tooth : row.value.teeth)
      out.push_back(
          {ExceptionKind::wet, field->child, view.shown(field->child),
           named(row.value.cause) + " " + named(row.value.stage) + ": " + view.tooth(tooth),
           row.value.note, view.initials(row.stamp.by.author)});
  }
}

void addOverrides(const DayView& view, std::vector<DayException>& out) {
  for (const auto& row : view.records.overrides)
    if (row.value.on == view.records.day.date)
      out.push_back({ExceptionKind::consentOverride, row.value.child, view.shown(row.value.child),
                     "continued without a valid consent", row.value.reason,
                     view.initials(row.value.clinician)});
}

void addAgreement(const DayView& view, std::vector<DayException>& out) {
  for (const auto& row : view.records.agreementOverrides)
    out.push_back({ExceptionKind::agreementOverride, std::nullopt, "",
                   "sealants placed after the dentist's agreement ended", row.value.reason,
                   view.initials(row.value.clinician)});
}

/// The newest that can be judged.
const kit::MeterReading* lastReading(const DayView& view, const kit::LightId& id,
                                     const kit::Light& light) {
  const base::Recorded<kit::MeterReading>* last = nullptr;
  for (const auto& row : view.records.readings) {
    if (row.value.light != id || row.value.on > view.records.day.date) continue;
    if (kit::grade(light, row.value) == kit::LightGrade::notComparable) continue;
    const bool later = !last || std::pair(last->value.on, last->stamp.entry) <
                                    std::pair(row.value.on, row.stamp.entry);
    if (later) last = &row;
  }
  return last ? &last->value : nullptr;
}

void addRedLights(const DayView& view, std::vector<DayException>& out) {
  std::map<kit::LightId, std::set<std::pair<roster::ChildId, dentition::Tooth>>> cured;
  for (const auto& row : view.records.steps) {
    const auto* field = view.field(row.value.field);
    if (!field || row.value.step != Step::cure || !row.value.light) continue;
    for (const auto& on : row.value.teeth)
      cured[*row.value.light].insert({field->child, on.tooth});
  }
  for (const auto& [child, rows] : view.placements.all())
    for (const auto* row : rows)
      if (row->value.light) cured[*row->value.light].insert({child, row->value.tooth});
  for (const auto& [id, teeth] : cured) {
    const auto* light = view.light(id);
    if (!light) continue;
    const auto* reading = lastReading(view, id, *light);
    if (!reading || kit::grade(*light, *reading) != kit::LightGrade::red) continue;
    out.push_back({ExceptionKind::redLight, std::nullopt, "",
                   light->tag + " read " + std::to_string(reading->value.value) + " on " +
                       reading->on.shortWords() + " (red) and was used on " +
                       counted(static_cast<int>(teeth.size()), "tooth", "teeth"),
                   "", ""});
  }
}

void addGuards(const DayView& view, std::vector<DayException>& out) {
  for (const auto& entry : view.fields.all()) {
    for (const auto* row : entry.second) {
      const auto& field = row->value;
      std::vector<std::string> missing;
      for (std::size_t i = 0; i < base::enumCount<chairside::DryGuard>; ++i) {
        const auto guard = static_cast<chairside::DryGuard>(i);
        if (!field.guards.has(guard)) missing.push_back(named(guard));
      }
      if (missing.empty()) continue;
      std::vector<dentition::Tooth> teeth;
      for (const auto& on : field.teeth)
        teeth.push_back(on.tooth);
      out.push_back({ExceptionKind::guardMissing, field.child, view.shown(field.child),
                     "without: " + base::join(missing, ", ") + ": " +
                         teethWords(teeth, view.records.notation),
                     field.note, view.initials(row->stamp.by.author)});
    }
  }
}

void addProvisional(const DayView& view, std::vector<DayException>& out) {
  for (const auto& id : view.lineUp())
    if (const auto* child = view.child(id); child && child->provisional)
      out.push_back({ExceptionKind::provisionalChild, id, view.shown(id),
                     "not on the roster; ask the school office", "", ""});
}

void addNotReady(const DayView& view, std::vector<DayException>& out) {
  for (const auto& row : kit::newestOfEach(view.records.readiness)) {
    if (!kit::isException(row.value.answer)) continue;
    const auto what = "equipment check, " + named(row.value.item) + ": " + named(row.value.answer) +
                      (row.value.detail.empty() ? "" : ", " + row.value.detail);
    out.push_back({ExceptionKind::notReady, std::nullopt, "", what, row.value.reason,
                   view.initials(row.stamp.by.author)});
  }
}

void addLightsPassedOver(const DayView& view, std::vector<DayException>& out) {
  for (const auto& row : view.records.lightPasses) {
    const auto* light = view.light(row.value.light);
    out.push_back({ExceptionKind::lightPassedOver, std::nullopt, "",
                   (light ? light->tag : "a light") + " not read at the end of the day",
                   row.value.reason, view.initials(row.stamp.by.author)});
  }
}

void addPaper(const DayView& view, std::vector<DayException>& out) {
  for (const auto& line : papersOf(view.records))
    if (line.count.missing() != 0 && line.isSettled())
      out.push_back({ExceptionKind::paperMissing, std::nullopt, "",
                     named(line.count.paper) + ": " + std::to_string(line.count.out) + " out, " +
                         std::to_string(line.count.out - line.count.missing()) + " accounted for",
                     line.count.reason, ""});
  if (!wasPaperCounted(view.records))
    out.push_back({ExceptionKind::paperNotCounted, std::nullopt, "",
                   "other printed lists have not been counted", "", ""});
}

/// One letter for each child seen or absent, printed or queued: told for the day as a whole, since
/// the letters' own table has the children. A letter in error is told of each child.
void addLetters(const DayView& view, std::vector<DayException>& out) {
  const auto lines = letterLines(view);
  if (const auto sums = letterSums(lines); sums.missing() > 0)
    out.push_back({ExceptionKind::letterMissing, std::nullopt, "",
                   counted(sums.missing(), "student", "students") + " without the right letter: " +
                       sums.words() + " have theirs, printed or queued",
                   "", ""});
  for (const auto& line : lines)
    if (line.isInError())
      out.push_back({ExceptionKind::letterInError, line.child, line.shown,
                     "letter \"" + named(line.variant) + "\" " + line.toDo(), "", ""});
}

void addDoubtful(const DayView& view, std::vector<DayException>& out) {
  auto placements = view.records.earlierPlacements;
  placements.insert(placements.end(), view.records.placements.begin(),
                    view.records.placements.end());
  const Lookup<chairside::Placement> known(placements);
  for (const auto& check : stillDoubtful(view.records.checks, placements)) {
    const auto* placement = known.find(check.value.placement);
    out.push_back({ExceptionKind::recordDoubtful, check.value.child, view.shown(check.value.child),
                   (placement ? "sealant charted on the " + view.tooth(placement->tooth)
                              : std::string("an earlier sealant")) +
                       ": not there, and no other tooth known",
                   check.value.note, view.initials(check.stamp.by.author)});
  }
}

} // namespace

std::vector<DayException> exceptionsOf(const DayView& view) {
  std::vector<DayException> out;
  addNotReady(view, out);
  addOverrides(view, out);
  addAgreement(view, out);
  addRedLights(view, out);
  addSteps(view, out);
  addWet(view, out);
  addGuards(view, out);
  addProvisional(view, out);
  addLetters(view, out);
  addDoubtful(view, out);
  addLightsPassedOver(view, out);
  addPaper(view, out);
  return out;
}

Fixer whoMustFix(ExceptionKind kind) {
  switch (kind) {
  case ExceptionKind::shortStep:
  case ExceptionKind::interruptedCure:
  case ExceptionKind::wet:
  case ExceptionKind::frostyNotSeen:
  case ExceptionKind::guardMissing:
    return Fixer::nobody;
  case ExceptionKind::recordDoubtful:
    return Fixer::clinician;
  case ExceptionKind::consentOverride:
  case ExceptionKind::agreementOverride:
  case ExceptionKind::redLight:
  case ExceptionKind::provisionalChild:
  case ExceptionKind::notReady:
  case ExceptionKind::letterMissing:
  case ExceptionKind::letterInError:
  case ExceptionKind::lightPassedOver:
  case ExceptionKind::paperMissing:
  case ExceptionKind::paperNotCounted:
    return Fixer::coordinator;
  }
  base::fail("no such exception");
}

} // namespace gk::reports
