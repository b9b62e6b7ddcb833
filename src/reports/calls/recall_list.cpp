#include "reports/calls/recall_list.h"

#include "base/text/text.h"
#include "reports/print/cells.h"
#include "reports/records/term_view.h"

#include <algorithm>
#include <map>

namespace gk::reports {

namespace {

using chairside::Placement;

/// As the trace of a lot has it: sealant that was placed, etchant that was on.
bool touches(const Placement& on, const kit::LotId& lot) {
  const bool flowed = on.attempt != chairside::Attempt::stoppedBeforeSealant;
  return (flowed && on.sealant == lot) || (on.etchant == lot && on.etches > 0);
}

/// However two laptops typed it.
bool isAlike(std::string_view one, std::string_view other) {
  return base::folded(one) == base::folded(other);
}

/// Of one child: what was done with it, and when last.
struct Touched {
  std::vector<std::string> teeth{};
  std::optional<base::Date> last{};
};

std::map<roster::ChildId, Touched> touched(const TermRecords& records, const Recalled& what) {
  const TermView view(records);
  std::map<roster::ChildId, Touched> found;
  const auto add = [&](const roster::ChildId& child, const roster::DayId& day, std::string words) {
    auto& one = found[child];
    const bool isNew = std::ranges::find(one.teeth, words) == one.teeth.end();
    if (isNew) one.teeth.push_back(std::move(words));
    if (const auto on = view.dateOf(day); on && (!one.last || *one.last < *on)) one.last = *on;
  };
  const auto addPlacements = [&](const auto& isMeant) {
    for (const auto& row : records.placements)
      if (isMeant(row.value))
        add(row.value.child, row.value.day, row.value.tooth.shown(records.notation));
  };
  if (!what.light.empty()) {
    for (const auto& light : records.lights)
      if (isAlike(light.value.tag, what.light))
        addPlacements([&](const Placement& on) { return on.light == light.id; });
    return found;
  }
  for (const auto& lot : records.lots) {
    const bool isMeant = isAlike(lot.value.lot, what.lot) &&
                         (what.material.empty() || isAlike(lot.value.material, what.material));
    if (!isMeant) continue;
    addPlacements([&](const Placement& on) { return touches(on, lot.id); });
    for (const auto& row : records.varnishes)
      if (row.value.lot == lot.id) add(row.value.child, row.value.day, "varnish");
  }
  return found;
}

std::string guardians(const CallPeople& people, const roster::ChildId& child,
                      std::string CallPerson::*part) {
  std::vector<std::string> words;
  if (const auto found = people.find(child); found != people.end())
    for (const auto& one : found->second)
      words.push_back((one.*part).empty() ? nothing : one.*part);
  return words.empty() ? nothing : base::join(words, "; ");
}

} // namespace

std::set<roster::ChildId> childrenTouched(const TermRecords& records, const Recalled& what) {
  std::set<roster::ChildId> children;
  for (const auto& [child, how] : touched(records, what))
    children.insert(child);
  return children;
}

Table recallList(const TermRecords& records, const Recalled& what, const Names& names,
                 const CallPeople& people) {
  const TermView view(records);
  const auto title = what.light.empty()
                         ? what.material + (what.material.empty() ? "" : " ") + "lot " + what.lot
                         : "light " + what.light;
  Table table{"Recall list of " + title,
              {{"Student"},
               {"Number"},
               {"School now"},
               {"Room"},
               {"Teeth"},
               dated("Last on"),
               {"Guardian"},
               {"Phone"},
               {"Language"}},
              {},
              {}};
  for (const auto& [id, how] : touched(records, what)) {
    const auto* child = view.children.find(id);
    const auto name = names.find(id);
    table.rows.push_back(
        {name == names.end() ? nothing : name->second, child ? child->number : "unknown",
         child ? view.schoolName(child->school) : nothing, child ? child->room : nothing,
         base::join(how.teeth, "; "), how.last ? how.last->iso() : nothing,
         guardians(people, id, &CallPerson::name), guardians(people, id, &CallPerson::phone),
         guardians(people, id, &CallPerson::language)});
  }
  std::ranges::stable_sort(table.rows, {},
                           [](const Cells& row) { return std::tuple(row[2], row[0], row[1]); });
  table.notes = {base::counted(table.rows.size(), "student", "students") +
                 " to be told. This list names students: count it out and back in, then shred it."};
  return table;
}

} // namespace gk::reports
