#include "reports/quality/trace.h"

#include "base/text/text.h"
#include "reports/print/cells.h"
#include "reports/records/term_view.h"

#include <algorithm>
#include <functional>
#include <set>

namespace gk::reports {

namespace {

using chairside::Placement;
using followup::RetentionCheck;

/// However two laptops typed it.
bool isAs(std::string_view one, std::string_view other) {
  return base::folded(one) == base::folded(other);
}

using Touches = std::function<bool(const Placement&)>;

bool usesLot(const Placement& on, const kit::LotId& lot) {
  const bool flowed = on.attempt != chairside::Attempt::stoppedBeforeSealant;
  return (flowed && on.sealant == lot) || (on.etchant == lot && on.etches > 0);
}

/// The teeth of a lot or a light.
class Traced {
 public:
  explicit Traced(const TermView& view) : view_(view) {
    for (const auto& row : view.records.checks) {
      auto& kept = newest_[row.value.placement];
      const auto on = view_.dateOf(row.value.day);
      if (!on) continue;
      if (!kept || *view_.dateOf(kept->value.day) <= *on) kept = &row;
    }
  }

  [[nodiscard]] const TermRecords& records() const { return view_.records; }

  [[nodiscard]] Cells countsOf(const Touches& touches) const {
    std::set<std::pair<roster::ChildId, dentition::Tooth>> teeth;
    std::set<roster::ChildId> children;
    for (const auto& row : records().placements) {
      if (!touches(row.value)) continue;
      teeth.insert({row.value.child, row.value.tooth});
      children.insert(row.value.child);
    }
    return {teeth.size(), children.size()};
  }

  [[nodiscard]] int childrenVarnished(const kit::LotId& lot) const {
    std::set<roster::ChildId> children;
    for (const auto& row : records().varnishes)
      if (row.value.lot == lot) children.insert(row.value.child);
    return static_cast<int>(children.size());
  }

  [[nodiscard]] Table teeth(const Touches& touches, std::string title) const {
    Table table{std::move(title),
                {texts("Student", "child"), texts("School where placed"), texts("School now"),
                 dated("Placed on"), texts("Tooth"), texts("Surfaces"), texts("Finished"),
                 texts("Operator"), dated("Last check"), texts("Found")}};
    for (const auto& row : records().placements)
      if (touches(row.value)) table.rows.push_back(rowOf(row));
    std::ranges::stable_sort(table.rows, {},
                             [](const Cells& row) { return std::tuple(row[1], row[3], row[0]); });
    table.notes = {counted(static_cast<int>(table.rows.size()), "tooth", "teeth") +
                   ". Students by number: this list may be given out for a recall; names and "
                   "guardians are looked up inside the program."};
    return table;
  }

  [[nodiscard]] Table varnished(const kit::LotId& lot, std::string title) const {
    Table table{std::move(title),
                {texts("Student", "child"), texts("School now"), dated("Varnished on")}};
    for (const auto& row : records().varnishes) {
      if (row.value.lot != lot) continue;
      const auto [number, school] = childCells(row.value.child);
      table.rows.push_back({number, school, dateOf(row.value.day)});
    }
    std::ranges::stable_sort(table.rows);
    table.notes = {"Varnish of this term's days alone; ask for each earlier term by its name."};
    return table;
  }

  [[nodiscard]] Table schools(const Touches& touches) const {
    // "Unknown" is one more, of children that are not on the list.
    std::map<std::optional<roster::SchoolId>, std::pair<int, std::set<roster::ChildId>>> found;
    for (const auto& row : records().placements) {
      if (!touches(row.value)) continue;
      const auto* child = view_.children.find(row.value.child);
      auto& at = found[child ? std::optional(child->school) : std::nullopt];
      ++at.first;
      at.second.insert(row.value.child);
    }
    Table table{"Schools to notify",
                {texts("School now"), counts("Teeth"), counts("Students", "children")}};
    for (const auto& [school, counts] : found)
      table.rows.push_back(
          {school ? view_.schoolName(*school) : nothing, counts.first, counts.second.size()});
    std::ranges::stable_sort(table.rows, {}, [](const Cells& row) { return row.front(); });
    return table;
  }

 private:
  [[nodiscard]] std::pair<std::string, std::string> childCells(const roster::ChildId& id) const {
    const auto* child = view_.children.find(id);
    if (!child) return {"unknown", nothing};
    return {child->number, view_.schoolName(child->school)};
  }
  [[nodiscard]] std::string dateOf(const roster::DayId& day) const {
    const auto on = view_.dateOf(day);
    return on ? on->iso() : nothing;
  }
  [[nodiscard]] std::string initials(const base::MemberId& member) const {
    for (const auto& row : records().members)
      if (row.id == member) return row.value.initials;
    return nothing;
  }

  [[nodiscard]] Cells rowOf(const base::Recorded<Placement>& row) const {
    const auto& on = row.value;
    const auto [child, schoolNow] = childCells(on.child);
    const auto* day = view_.days.find(on.day);
    const auto at = newest_.find(row.id);
    const auto* check = at == newest_.end() || !at->second ? nullptr : &at->second->value;
    return {child,
            day ? view_.schoolName(day->school) : nothing,
            schoolNow,
            dateOf(on.day),
            on.tooth.shown(records().notation),
            dentition::words(on.surfaces),
            on.attempt,
            initials(on.placedBy),
            check ? dateOf(check->day) : "never",
            check ? Cell(check->tooth()) : noFigure};
  }

  const TermView& view_;
  std::map<chairside::PlacementId, const base::Recorded<RetentionCheck>*> newest_;
};

Table lotTable(const Traced& traced) {
  Table table{"Lots",
              {texts("Lot"), texts("Material"), texts("Kind"), dated("Expiry"), counts("Teeth"),
               counts("Students", "children"), texts("Set aside")},
              {"Teeth treated with the lot, finished or not, in every term; varnish counts "
               "students of this term."}};
  for (const auto& row : traced.records().lots) {
    const auto& lot = row.value;
    const bool isVarnish = lot.kind == kit::MaterialKind::varnish;
    const auto counts = traced.countsOf([&](const Placement& on) { return usesLot(on, row.id); });
    table.rows.push_back({lot.lot, lot.material, lot.kind, lot.expiry,
                          isVarnish ? noFigure : counts[0],
                          isVarnish ? Cell(traced.childrenVarnished(row.id)) : counts[1],
                          lot.quarantined ? "set aside: " + lot.quarantineReason : nothing});
  }
  std::ranges::stable_sort(table.rows);
  return table;
}

Table lightTable(const Traced& traced) {
  Table table{"Lights",
              {texts("Light"), texts("Type"), texts("In service"), counts("Teeth"),
               counts("Students", "children")},
              {"A tooth is counted under the light of its last full cure."}};
  for (const auto& row : traced.records().lights) {
    const auto counts = traced.countsOf([&](const Placement& on) { return on.light == row.id; });
    table.rows.push_back(
        {row.value.tag, row.value.type, row.value.inService, counts[0], counts[1]});
  }
  std::ranges::stable_sort(table.rows);
  return table;
}

} // namespace

std::vector<Table> traceOverview(const TermView& view) {
  const Traced traced(view);
  return {lotTable(traced), lightTable(traced)};
}

std::optional<std::vector<Table>> traceLot(const TermView& view, std::string_view lot,
                                           std::string_view material) {
  const Traced traced(view);
  std::vector<Table> out;
  for (const auto& row : view.records.lots) {
    if (!isAs(row.value.lot, lot) || (!material.empty() && !isAs(row.value.material, material)))
      continue;
    if (row.value.kind == kit::MaterialKind::varnish) {
      out.push_back(traced.varnished(row.id, "Trace of " + kit::shown(row.value)));
      continue;
    }
    const Touches touches = [&](const Placement& on) { return usesLot(on, row.id); };
    out.push_back(traced.teeth(touches, "Trace of " + kit::shown(row.value)));
    out.push_back(traced.schools(touches));
  }
  if (out.empty()) return std::nullopt;
  return out;
}

std::optional<std::vector<Table>> traceLight(const TermView& view, std::string_view tag) {
  const Traced traced(view);
  std::vector<Table> out;
  for (const auto& row : view.records.lights) {
    if (!isAs(row.value.tag, tag)) continue;
    const Touches touches = [&](const Placement& on) { return on.light == row.id; };
    out.push_back(traced.teeth(touches, "Trace of light " + row.value.tag));
    out.push_back(traced.schools(touches));
  }
  if (out.empty()) return std::nullopt;
  return out;
}

} // namespace gk::reports
