#include "reports/close_out_parts.h"
#include "reports/words.h"

#include <algorithm>

namespace gk::reports {

namespace {

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
