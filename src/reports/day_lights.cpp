#include "reports/day_view.h"

#include <algorithm>
#include <map>

namespace gk::reports {

namespace {

using LightsOfLaptop = std::map<base::LaptopId, std::set<kit::LightId>>;

/// What the light read before its first child, if anybody looked.
const kit::MeterReading* morningReading(const DayView& view, const kit::LightId& light) {
  const base::Recorded<kit::MeterReading>* first = nullptr;
  for (const auto& row : view.records.readings)
    if (row.value.light == light && row.value.on == view.records.day.date &&
        (!first || row.stamp.entry < first->stamp.entry))
      first = &row;
  return first ? &first->value : nullptr;
}

bool isReadAfter(const DayView& view, const kit::LightId& light, const base::EntryId& cure) {
  return std::ranges::any_of(view.records.readings, [&](const auto& row) {
    return row.value.light == light && row.value.on == view.records.day.date &&
           row.stamp.entry > cure;
  });
}

bool isPassedOver(const DayView& view, const kit::LightId& light) {
  return std::ranges::any_of(view.records.lightPasses,
                             [&](const auto& row) { return row.value.light == light; });
}

} // namespace

std::vector<LightToRead> lightsToRead(const DayView& view) {
  std::map<kit::LightId, base::EntryId> lastCure;
  LightsOfLaptop used;
  for (const auto& row : view.records.steps) {
    if (row.value.step != chairside::Step::cure || !row.value.light) continue;
    if (!view.field(row.value.field)) continue;
    const auto [at, isNew] = lastCure.emplace(*row.value.light, row.stamp.entry);
    if (!isNew) at->second = std::max(at->second, row.stamp.entry);
    used[row.stamp.laptop].insert(*row.value.light);
  }
  std::vector<LightToRead> out;
  for (const auto& [id, cure] : lastCure) {
    const auto* light = view.light(id);
    if (!light || isPassedOver(view, id) || isReadAfter(view, id, cure)) continue;
    const auto* morning = morningReading(view, id);
    const bool wasAmber = morning && kit::grade(*light, *morning) == kit::LightGrade::amber;
    const bool wasChanged = std::ranges::any_of(used, [&](const auto& entry) {
      return entry.second.size() > 1 && entry.second.contains(id);
    });
    if (wasAmber || wasChanged)
      out.push_back({id, light->tag,
                     wasAmber ? "amber this morning" : "the light was changed during the day"});
  }
  std::ranges::sort(out, {}, &LightToRead::tag);
  return out;
}

} // namespace gk::reports
