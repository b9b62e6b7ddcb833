#include "reports/close_out_parts.h"

#include <algorithm>
#include <map>

namespace gk::reports {

namespace {

using LightsOfLaptop = std::map<base::LaptopId, std::set<kit::LightId>>;

/// What the light read before its first cure, if anybody looked: a number read again counts in
/// place of the one before it.
kit::LightGrade morningGrade(const DayView& view, const kit::LightId& id, const kit::Light& light,
                             const base::EntryId& firstCure) {
  std::vector<base::Recorded<kit::MeterReading>> before;
  for (const auto& row : view.records.readings)
    if (row.value.light == id && row.stamp.entry < firstCure) before.push_back(row);
  return kit::gradeOn(light, before, view.records.day.date);
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
  std::map<kit::LightId, base::EntryId> firstCure;
  LightsOfLaptop used;
  for (const auto& row : view.records.steps) {
    if (row.value.step != chairside::Step::cure || !row.value.light) continue;
    if (!view.field(row.value.field)) continue;
    const auto [at, isNew] = lastCure.emplace(*row.value.light, row.stamp.entry);
    if (!isNew) at->second = std::max(at->second, row.stamp.entry);
    const auto [begun, isFirst] = firstCure.emplace(*row.value.light, row.stamp.entry);
    if (!isFirst) begun->second = std::min(begun->second, row.stamp.entry);
    used[row.stamp.laptop].insert(*row.value.light);
  }
  std::vector<LightToRead> out;
  for (const auto& [id, cure] : lastCure) {
    const auto* light = view.light(id);
    if (!light || isPassedOver(view, id) || isReadAfter(view, id, cure)) continue;
    const bool wasAmber =
        morningGrade(view, id, *light, firstCure.at(id)) == kit::LightGrade::amber;
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
