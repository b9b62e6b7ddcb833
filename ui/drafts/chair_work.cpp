#include "ui/drafts/chair_work.h"

#include "base/contract.h"
#include "base/text/text.h"
#include "reports/display_names.h"

#include <algorithm>

namespace gk::ui {

using chairside::Attempt;
using chairside::DayEnd;
using chairside::Decision;
using chairside::Next;
using chairside::Placement;
using chairside::Protocol;
using chairside::Screening;
using chairside::ToothFinding;
using dentition::SurfaceSet;
using dentition::Tooth;
using dentition::ToothSurfaces;

namespace {

bool isAmong(std::span<const Tooth> teeth, const Tooth& tooth) {
  return std::ranges::find(teeth, tooth) != teeth.end();
}

auto workPlace(const Tooth& tooth, WorkOrder order) {
  const bool byArch = order == WorkOrder::arches;
  return std::tuple(byArch ? !tooth.isUpper() : !tooth.isRight(),
                    byArch ? !tooth.isRight() : !tooth.isUpper(), tooth.isPrimary(),
                    tooth.position());
}

std::vector<ToothFinding> open(const Screening& screening, std::span<const Tooth> begun,
                               WorkOrder order) {
  std::vector<ToothFinding> out;
  for (const auto& finding : screening.teeth)
    if (chairside::isTreatment(finding.decision) && !isAmong(begun, finding.tooth))
      out.push_back(finding);
  std::ranges::sort(out, {}, [&](const auto& finding) { return workPlace(finding.tooth, order); });
  return out;
}

bool goesWith(const ToothFinding& first, const ToothFinding& other, WorkOrder order) {
  const bool alike = (first.decision == Decision::repair) == (other.decision == Decision::repair) &&
                     (first.decision == Decision::interim) == (other.decision == Decision::interim);
  if (!alike) return false;
  switch (order) {
  case WorkOrder::halves:
    return first.tooth.isRight() == other.tooth.isRight();
  case WorkOrder::arches:
    return first.tooth.isUpper() == other.tooth.isUpper();
  case WorkOrder::quadrants:
    return first.tooth.quadrant() == other.tooth.quadrant();
  case WorkOrder::singleTeeth:
    return first.tooth == other.tooth;
  }
  base::fail("no such order");
}

std::string titleOf(const Tooth& first, WorkOrder order) {
  switch (order) {
  case WorkOrder::halves:
    return first.isRight() ? "Right side" : "Left side";
  case WorkOrder::arches:
    return first.isUpper() ? "Upper teeth" : "Lower teeth";
  case WorkOrder::quadrants:
    return std::string(first.isUpper() ? "Upper " : "Lower ") +
           (first.isRight() ? "right quadrant" : "left quadrant");
  case WorkOrder::singleTeeth: {
    auto words = first.words();
    words.front() = first.isUpper() ? 'U' : 'L';
    return words;
  }
  }
  base::fail("no such order");
}

/// Decisions under which a tooth that needed care was left.
bool isLeft(Decision decision) {
  return decision == Decision::notAllowedByConsent || decision == Decision::cannotIsolate ||
         decision == Decision::childDeclined || decision == Decision::notToday;
}

/// "upper left first molar: child refuses; ..."
std::string leftWords(const Screening& screening, std::span<const Placement> placements) {
  std::vector<std::string> parts;
  for (const auto& finding : screening.teeth)
    if (isLeft(finding.decision))
      parts.push_back(finding.tooth.words() + ": " +
                      std::string(base::displayName(finding.decision)));
  const auto isSealedSince = [&](const Tooth& tooth) {
    return std::ranges::any_of(placements, [&](const auto& one) {
      return one.tooth == tooth && one.attempt == Attempt::complete;
    });
  };
  for (const auto& placement : placements)
    if (placement.attempt != Attempt::complete && !isSealedSince(placement.tooth))
      parts.push_back(placement.tooth.words() + ": " +
                      (placement.note.empty() ? std::string(base::displayName(placement.attempt))
                                              : placement.note));
  return base::join(parts, "; ");
}

} // namespace

bool isWorkedBefore(const Tooth& one, const Tooth& other, WorkOrder order) {
  return workPlace(one, order) < workPlace(other, order);
}

std::vector<Tooth> notBegun(const Screening& screening, std::span<const Tooth> begun) {
  std::vector<Tooth> out;
  for (const auto& finding : open(screening, begun, WorkOrder::halves))
    out.push_back(finding.tooth);
  return out;
}

std::optional<WorkGroup> nextGroup(const Screening& screening, std::span<const Tooth> begun,
                                   WorkOrder order) {
  const auto left = open(screening, begun, order);
  if (left.empty()) return std::nullopt;
  const auto& first = left.front();
  WorkGroup group{titleOf(first.tooth, order), {}, first.decision == Decision::interim};
  for (const auto& finding : left)
    if (goesWith(first, finding, order)) group.teeth.push_back({finding.tooth, finding.toSeal});
  return group;
}

Next stepNow(const Protocol& protocol) {
  return protocol.due(chairside::Next::cure).empty() ? protocol.next() : Next::cure;
}

ToothSurfaces meant(const std::vector<ToothSurfaces>& due, const Tooth& cursor) {
  base::require(!due.empty(), "no tooth is due");
  const auto here = std::ranges::find(due, cursor, &ToothSurfaces::tooth);
  return here == due.end() ? due.front() : *here;
}

std::vector<ToothSurfaces> nextExposure(const Protocol& protocol, const Tooth& cursor,
                                        bool together, bool withLamp) {
  auto due = protocol.due(Next::cure);
  if (due.empty() || !withLamp) return due;
  auto next = meant(due, cursor);
  if (!together) next.surfaces = {next.surfaces.values().front()};
  return {next};
}

std::vector<Tooth> unfinished(const Protocol& protocol) {
  std::vector<Tooth> out;
  for (const auto& tooth : protocol.teeth())
    if (tooth.next < Next::placed) out.push_back(tooth.tooth);
  return out;
}

std::vector<Tooth> uncured(const Protocol& protocol) {
  std::vector<Tooth> out;
  for (const auto& tooth : protocol.teeth())
    if (tooth.next == Next::cure) out.push_back(tooth.tooth);
  return out;
}

chairside::DayOutcome proposedOutcome(roster::ChildId child, roster::DayId day,
                                      const std::optional<Screening>& screening,
                                      std::span<const Placement> placements, bool rechecked) {
  const auto complete = std::ranges::count(placements, Attempt::complete, &Placement::attempt);
  if (!screening)
    return {child,
            day,
            complete > 0 ? DayEnd::sealedComplete
            : rechecked  ? DayEnd::recheckOnly
                         : DayEnd::declined,
            {}};
  std::vector<Tooth> begun;
  for (const auto& placement : placements)
    begun.push_back(placement.tooth);
  auto why = leftWords(*screening, placements);
  for (const auto& tooth : notBegun(*screening, begun))
    why += (why.empty() ? "" : "; ") + tooth.words() + ": not started";
  if (complete > 0)
    return {child, day, why.empty() ? DayEnd::sealedComplete : DayEnd::sealedUnfinished, why};
  return {child, day, why.empty() ? DayEnd::screenedNoneNeeded : DayEnd::screenedNotTreated, why};
}

std::vector<std::string> readBack(std::span<const Placement> placements,
                                  dentition::Notation notation) {
  std::vector<std::string> lines;
  for (const auto& placement : placements) {
    const auto what = placement.attempt == Attempt::complete
                          ? std::string("sealed")
                          : "NOT sealed, " + std::string(base::displayName(placement.attempt));
    lines.push_back(placement.tooth.shown(notation) + ": " + what + ", " +
                    dentition::words(placement.surfaces) +
                    (placement.note.empty() ? "" : " (" + placement.note + ")"));
  }
  return lines;
}

} // namespace gk::ui
