#include "reports/records/day_view.h"

#include <algorithm>

namespace gk::reports {

namespace {

auto onDay(const roster::DayId& day) {
  return [day](const auto& row) { return row.value.day == day; };
}

constexpr auto always = [](const auto&) { return true; };

} // namespace

DayView::DayView(const DayRecords& from, const Names& names)
    : records(from), seatings(from.seatings, onDay(from.id)),
      screenings(from.screenings, onDay(from.id)), placements(from.placements, onDay(from.id)),
      varnishes(from.varnishes, onDay(from.id)), outcomes(from.outcomes, onDay(from.id)),
      checks(from.checks, onDay(from.id)), referrals(from.referrals, always),
      contacts(from.contacts, always), letters(from.letters, onDay(from.id)),
      overrides(from.overrides, [&](const auto& row) { return row.value.on == from.day.date; }),
      fields(from.fields, onDay(from.id)), names_(names), children_(from.children),
      lots_(from.lots), lights_(from.lights), members_(from.members), fieldsById_(from.fields),
      forms_(from.consents), otherDays_(from.seenOnOtherDays.begin(), from.seenOnOtherDays.end()) {
  std::set<std::string> seen;
  for (const auto& row : records.children)
    if (const auto at = names_.find(row.id); at != names_.end() && !seen.insert(at->second).second)
      namesakes_.insert(at->second);
  findLineUp();
}

std::string DayView::shown(const roster::ChildId& id) const {
  const auto* known = children_.find(id);
  if (const auto at = names_.find(id); at != names_.end())
    return known && namesakes_.contains(at->second) ? at->second + ", " + known->number
                                                    : at->second;
  return known ? known->number : "student not on the roster";
}

std::string DayView::tooth(const dentition::Tooth& tooth) const {
  return tooth.shown(records.notation);
}

std::string DayView::initials(const std::optional<base::MemberId>& member) const {
  const auto* known = member ? members_.find(*member) : nullptr;
  return known ? known->initials : "";
}

const roster::Child* DayView::child(const roster::ChildId& id) const {
  return children_.find(id);
}

const chairside::Field* DayView::field(const chairside::FieldId& id) const {
  const auto* found = fieldsById_.find(id);
  return found && found->day == records.id ? found : nullptr;
}

roster::Standing DayView::standing(const roster::ChildId& child) const {
  return roster::standing(forms_.of(child), roster::Service::screening, records.day.date);
}

const chairside::DayOutcome* DayView::outcome(const roster::ChildId& child) const {
  const auto& rows = outcomes.of(child);
  if (rows.empty()) return nullptr;
  return &(*std::ranges::max_element(rows, {}, [](const auto* row) {
            return row->stamp.entry;
          }))->value;
}

bool DayView::isFinished(const roster::ChildId& child, const dentition::Tooth& tooth) const {
  return std::ranges::any_of(placements.of(child), [&](const auto* row) {
    return row->value.tooth == tooth && row->value.attempt == chairside::Attempt::complete;
  });
}

bool DayView::wasSeen(const roster::ChildId& child) const {
  return screenings.has(child) || placements.has(child) || varnishes.has(child) ||
         checks.has(child);
}

bool DayView::wasSeenOnOtherDays(const roster::ChildId& child) const {
  return otherDays_.contains(child);
}

bool DayView::isAwaited(const roster::ChildId& child) const {
  const auto state = standing(child).state;
  return saysYes(state) || state == roster::ConsentState::onHold;
}

void DayView::findLineUp() {
  std::set<roster::ChildId> here;
  const auto addAll = [&](const auto& perChild) {
    for (const auto& entry : perChild.all())
      here.insert(entry.first);
  };
  addAll(seatings);
  addAll(screenings);
  addAll(placements);
  addAll(varnishes);
  addAll(outcomes);
  addAll(checks);
  for (const auto& row : records.children) {
    if (row.value.school != records.day.school) continue;
    if (here.contains(row.id) || otherDays_.contains(row.id)) continue;
    if (roster::hasLeft(row.value, records.day.date)) continue;
    const auto stands = standing(row.id);
    if (stands.since && stands.since->date() == records.day.date)
      here.insert(row.id);
    else if (isAwaited(row.id))
      stillToSee_.push_back(row.id);
  }
  if (records.lastDayHere) here.insert(stillToSee_.begin(), stillToSee_.end());
  lineUp_.assign(here.begin(), here.end());
  const auto placeInList = [&](const roster::ChildId& id) {
    const auto* known = child(id);
    return std::make_tuple(known ? known->room : "", shown(id), id);
  };
  std::ranges::sort(lineUp_, {}, placeInList);
  std::ranges::sort(stillToSee_, {}, placeInList);
}

} // namespace gk::reports
