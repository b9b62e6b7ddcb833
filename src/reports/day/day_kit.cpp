#include "reports/day/close_out_parts.h"
#include "reports/records/words.h"

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

struct Use {
  std::set<std::pair<roster::ChildId, dentition::Tooth>> teeth;
  std::set<roster::ChildId> children;
  const kit::LotCount* count = nullptr;
};

std::map<kit::LotId, Use> usesOf(const DayView& view) {
  std::map<kit::LotId, Use> uses;
  const auto touch = [&](const kit::LotId& lot, const chairside::Placement& on) {
    uses[lot].teeth.insert({on.child, on.tooth});
    uses[lot].children.insert(on.child);
  };
  for (const auto& entry : view.placements.all()) {
    for (const auto* row : entry.second) {
      const auto& on = row->value;
      if (on.attempt != chairside::Attempt::stoppedBeforeSealant) touch(on.sealant, on);
      if (on.etchant && on.etches > 0) touch(*on.etchant, on);
    }
  }
  for (const auto& entry : view.varnishes.all())
    for (const auto* row : entry.second)
      uses[row->value.lot].children.insert(entry.first);
  for (const auto& row : view.records.lotCounts)
    uses[row.value.lot].count = &row.value; // as they were entered, so the newest stands
  return uses;
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

std::vector<SupplyLine> suppliesOf(const DayView& view) {
  std::vector<SupplyLine> out;
  for (const auto& [id, use] : usesOf(view)) {
    const auto* lot = view.lot(id);
    SupplyLine line{.lot = id,
                    .words = lot ? kit::shown(*lot) : "lot not on the list",
                    .kind = lot ? lot->kind : kit::MaterialKind::sealantLightCure,
                    .teeth = static_cast<int>(use.teeth.size()),
                    .children = static_cast<int>(use.children.size())};
    if (use.count) {
      line.opened = use.count->opened;
      line.left = use.count->left;
    }
    if (lot) line.expiry = lot->expiry;
    line.setAside = lot && lot->quarantined;
    if (line.setAside) line.why = lot->quarantineReason;
    out.push_back(std::move(line));
  }
  std::ranges::sort(out, {},
                    [](const SupplyLine& line) { return std::pair(line.kind, line.words); });
  return out;
}

} // namespace gk::reports
