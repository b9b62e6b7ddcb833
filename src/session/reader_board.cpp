#include "base/text.h"
#include "session/session_write.h"

#include <algorithm>
#include <set>

namespace gk::session {

using chairside::DayEnd;
using roster::Service;
using store::everything;
using store::rowsOf;

namespace {

template <class T>
std::set<roster::ChildId> childrenOf(const std::vector<Recorded<T>>& rows) {
  std::set<roster::ChildId> children;
  for (const auto& row : rows)
    children.insert(row.value.child);
  return children;
}

template <class T>
std::map<roster::ChildId, std::vector<Recorded<T>>> byChild(std::vector<Recorded<T>> rows) {
  std::map<roster::ChildId, std::vector<Recorded<T>>> sorted;
  for (auto& row : rows)
    sorted[row.value.child].push_back(std::move(row));
  return sorted;
}

bool isAway(DayEnd end) {
  return end == DayEnd::absent || end == DayEnd::declined || end == DayEnd::leftSchool ||
         end == DayEnd::withdrawn || end == DayEnd::onHold || end == DayEnd::notReached;
}

} // namespace

Result<std::vector<BoardLine>> Reader::board(roster::DayId id) {
  auto day = this->day(id);
  if (!day) return day.error();
  const auto on = day->value.date;
  auto children = book_.current<roster::Child>(everything());
  auto forms = book_.current<roster::Consent>(everything());
  auto flagged = book_.current<roster::MedicalFlag>(everything());
  auto seatings = book_.current<chairside::Seating>(rowsOf("day", id));
  auto outcomes = book_.current<chairside::DayOutcome>(rowsOf("day", id));
  auto screenings = book_.current<chairside::Screening>(everything());
  auto placements = book_.current<chairside::Placement>(everything());
  auto checks = book_.current<followup::RetentionCheck>(everything());
  auto termDays = days(day->value.term);
  auto known = names();
  if (!children) return children.error();
  if (!forms) return forms.error();
  if (!flagged) return flagged.error();
  if (!seatings) return seatings.error();
  if (!outcomes) return outcomes.error();
  if (!screenings) return screenings.error();
  if (!placements) return placements.error();
  if (!checks) return checks.error();
  if (!termDays) return termDays.error();
  if (!known) return known.error();

  std::set<roster::DayId> earlierDays;
  for (const auto& other : *termDays)
    if (other.id != id) earlierDays.insert(other.id);
  std::set<roster::ChildId> seenBefore;
  for (const auto& screening : *screenings)
    if (earlierDays.contains(screening.value.day)) seenBefore.insert(screening.value.child);
  for (const auto& check : *checks)
    if (earlierDays.contains(check.value.day)) seenBefore.insert(check.value.child);
  std::set<roster::ChildId> placedEarlier;
  for (const auto& placement : *placements)
    if (placement.value.day != id && !earlierDays.contains(placement.value.day) &&
        placement.value.attempt == chairside::Attempt::complete)
      placedEarlier.insert(placement.value.child);
  const auto formsOf = byChild(std::move(*forms));
  const auto flagsOf = byChild(std::move(*flagged));
  const auto seated = childrenOf(*seatings);
  const auto newestSeated =
      seatings->empty() ? std::optional<roster::ChildId>{} : seatings->back().value.child;
  std::map<roster::ChildId, chairside::DayOutcome> ends;
  for (const auto& outcome : *outcomes)
    ends.insert_or_assign(outcome.value.child, outcome.value);

  std::vector<BoardLine> lines;
  for (const auto& [child, stamp, value] : *children) {
    const auto ended = ends.find(child);
    const bool isSeatedHere = seated.contains(child);
    const bool here = isSeatedHere || ended != ends.end();
    const auto childForms = formsOf.find(child);
    const auto allows = [&](Service service) {
      return childForms != formsOf.end() &&
             roster::standing(childForms->second, service, on).allows;
    };
    const bool due = value.school == day->value.school && !seenBefore.contains(child) &&
                     (allows(Service::screening) ||
                      (placedEarlier.contains(child) && allows(Service::recheckAndReplace)));
    if (!here && !due) continue;
    BoardLine line{child, value.number, value.number, value.room, value.grade, Place::waiting};
    if (const auto name = known->find(child); name != known->end()) line.name = name->second;
    line.recheckDue = placedEarlier.contains(child);
    if (const auto flags = flagsOf.find(child); flags != flagsOf.end())
      for (const auto& flag : flags->second) {
        if (flag.value.resolved) continue;
        line.stopFlag = line.stopFlag || flag.value.action == roster::FlagAction::stop;
        line.askFlag = line.askFlag || flag.value.action == roster::FlagAction::ask;
      }
    if (ended != ends.end()) {
      line.outcome = base::nameOf(ended->second.end);
      line.place = isAway(ended->second.end) ? Place::absent : Place::done;
    } else if (isSeatedHere) {
      line.place = newestSeated == child ? Place::inChair : Place::parked;
    }
    lines.push_back(std::move(line));
  }
  for (auto& line : lines)
    line.sameName = std::ranges::any_of(lines, [&](const BoardLine& other) {
      return other.child != line.child && roster::sameName(other.name, line.name);
    });
  std::ranges::stable_sort(lines, [](const BoardLine& a, const BoardLine& b) {
    return std::tie(a.place, a.room, a.name) < std::tie(b.place, b.room, b.name);
  });
  return lines;
}

Result<std::optional<roster::ChildId>> Reader::childInChair(roster::DayId day) {
  auto lines = board(day);
  if (!lines) return lines.error();
  for (const auto& line : *lines)
    if (line.place == Place::inChair) return std::optional(line.child);
  return std::optional<roster::ChildId>{};
}

Result<IdentityCard> Reader::identityCard(roster::ChildId id, roster::DayId dayId) {
  auto child = this->child(id);
  if (!child) return child.error();
  auto day = this->day(dayId);
  if (!day) return day.error();
  auto identity = this->identity(id);
  if (!identity) return identity.error();
  auto school = only<roster::School>(store::subjectIs(child->value.school), "school");
  if (!school) return school.error();
  auto forms = consents(id);
  if (!forms) return forms.error();
  auto flagged = flags(id);
  if (!flagged) return flagged.error();
  const auto on = day->value.date;
  auto overrides = book_.current<roster::ConsentOverride>(rowsOf("child", id));
  if (!overrides) return overrides.error();
  std::erase_if(*overrides, [&](const auto& taken) { return taken.value.on != on; });
  const auto stand = [&](Service service) {
    auto standing = roster::standing(*forms, service, on);
    if (!standing.allows && !overrides->empty()) {
      standing.allows = true;
      standing.why = "on a clinician's override: " + overrides->back().value.reason;
    }
    return standing;
  };
  IdentityCard card{id,
                    child->value.number,
                    identity->shownName(),
                    identity->headerName(),
                    identity->birth.words() + ", age " +
                        std::to_string(base::ageInYears(identity->birth, on)),
                    child->value.room,
                    child->value.grade,
                    school->value.name,
                    {},
                    stand(Service::screening),
                    stand(Service::sealants),
                    stand(Service::varnish),
                    stand(Service::recheckAndReplace)};
  for (const auto& guardian : identity->guardians)
    card.guardianInitials +=
        (card.guardianInitials.empty() ? "" : ", ") + vault::initials(guardian.name);
  for (auto& flag : *flagged)
    if (!flag.value.resolved) card.flags.push_back(std::move(flag));
  auto known = identities();
  if (!known) return known.error();
  for (const auto& [other, theirs] : *known) {
    if (other == id || !roster::sameName(theirs.shownName(), card.name)) continue;
    auto namesake = this->child(other);
    if (!namesake) return namesake.error();
    card.sameNameOthers.push_back(namesake->value.number + ", born " + theirs.birth.words());
  }
  auto seen = book_.current<chairside::Seating>(rowsOf("child", id));
  if (!seen) return seen.error();
  for (const auto& seating : *seen)
    if (seating.value.day != dayId) card.lastSeen = seating.stamp.at.date().words();
  return card;
}

} // namespace gk::session
