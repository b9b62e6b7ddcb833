#include "reports/quality/quality_logs.h"

#include "reports/print/cells.h"
#include "reports/records/term_view.h"

#include <algorithm>
#include <array>
#include <set>

namespace gk::reports {

namespace {

/// What became of a tooth that was wet.
struct Ends {
  int events = 0;
  int teeth = 0;
  int complete = 0;
  int stopped = 0; ///< before the sealant, before the cure, or not achieved
  int open = 0;    ///< no one has said how it ended
};

Cells endCells(const Ends& ends, int begun) {
  return {ends.events,   ends.teeth,   numberPer(100.0 * ends.teeth, begun, 1),
          ends.complete, ends.stopped, ends.open};
}

using PlacedTeeth = std::map<std::pair<chairside::FieldId, dentition::Tooth>, chairside::Attempt>;

/// The day of a spore test as a morning told it; empty where it says no date.
std::string dateIn(const std::string& detail) {
  constexpr std::size_t length = 10;
  for (std::size_t i = 0; i + length <= detail.size(); ++i)
    if (const auto date = base::Date::parse(detail.substr(i, length))) return date->iso();
  return {};
}

} // namespace

Table wetTable(const TermView& view) {
  const Lookup<chairside::Field> fields(view.records.fields);
  PlacedTeeth placed;
  int begun = 0;
  for (const auto& [child, rows] : view.placements.all())
    for (const auto* row : rows) {
      placed[{row->value.field, row->value.tooth}] = row->value.attempt;
      ++begun;
    }
  std::map<std::pair<chairside::WetStage, chairside::WetCause>, Ends> byWhat;
  Ends total;
  std::set<std::pair<chairside::FieldId, dentition::Tooth>> seen;
  for (const auto& row : view.records.wets) {
    const auto* field = fields.find(row.value.field);
    if (!field || !view.isOfTerm(field->day)) continue;
    auto& ends = byWhat[{row.value.stage, row.value.cause}];
    ++ends.events;
    ++total.events;
    for (const auto& tooth : row.value.teeth) {
      const auto end = placed.find({row.value.field, tooth});
      const bool isFirst = seen.emplace(row.value.field, tooth).second;
      for (auto* one : {&ends, isFirst ? &total : nullptr}) {
        if (!one) continue;
        ++one->teeth;
        one->complete += end != placed.end() && end->second == chairside::Attempt::complete;
        one->stopped += end != placed.end() && end->second != chairside::Attempt::complete;
        one->open += end == placed.end();
      }
    }
  }
  Table table{"Contamination, by step and cause",
              {texts("Step"), texts("Cause"), counts("Events"), counts("Teeth"),
               numbers("Per 100 teeth started"), counts("Completed"), counts("Stopped"),
               counts("Open")},
              {"A tooth contaminated at two steps is in both rows, and once in the total. A "
               "tooth contaminated after etching is re-etched before any sealant."}};
  for (const auto& [what, ends] : byWhat) {
    table.rows.push_back({what.first, what.second});
    const auto cells = endCells(ends, begun);
    table.rows.back().insert(table.rows.back().end(), cells.begin(), cells.end());
  }
  table.rows.push_back({"Total", ""});
  const auto cells = endCells(total, begun);
  table.rows.back().insert(table.rows.back().end(), cells.begin(), cells.end());
  return table;
}

Table exceptionsTable(const TermView& view) {
  using Counts = std::map<roster::SchoolId, int>;
  enum Kind : std::size_t {
    stopped,
    notAchieved,
    cutShort,
    notFrosty,
    guard,
    overridden,
    notReady
  };
  constexpr std::array<const char*, 7> words{
      "Tooth stopped before completion",       "Sealant not achieved at the check",
      "Tooth with a cure cut short",           "Sealed, frosty not checked",
      "Teeth isolated with an item missing",   "Student seen on a clinician's override",
      "Equipment check item failed or skipped"};
  std::array<Counts, words.size()> found;
  const auto note = [&](Kind kind, const roster::DayId& day) {
    ++found.at(kind)[view.days.find(day)->school];
  };
  for (const auto& [child, rows] : view.placements.all())
    for (const auto* row : rows) {
      const auto& one = row->value;
      using chairside::Attempt;
      if (one.attempt == Attempt::stoppedBeforeSealant || one.attempt == Attempt::stoppedBeforeCure)
        note(stopped, one.day);
      if (one.attempt == Attempt::notAchieved) note(notAchieved, one.day);
      if (one.interruptedCures > 0) note(cutShort, one.day);
      if (one.attempt == Attempt::complete && !one.frosty && one.etches > 0)
        note(notFrosty, one.day);
    }
  for (const auto& row : view.records.fields)
    if (view.isOfTerm(row.value.day) && row.value.guards != chairside::DryGuardSet::all())
      note(guard, row.value.day);
  for (const auto& row : view.records.readiness)
    if (view.isOfTerm(row.value.day) && kit::isException(row.value.answer))
      note(notReady, row.value.day);
  for (const auto& row : view.records.overrides) {
    const auto* child = view.children.find(row.value.child);
    if (child && view.records.term.start <= row.value.on && row.value.on <= view.records.asOf)
      ++found.at(overridden)[child->school];
  }
  Table table{"Exceptions", {texts("What"), counts("Count"), texts("Where")}};
  for (std::size_t kind = 0; kind < words.size(); ++kind) {
    int times = 0;
    std::vector<std::string> where;
    for (const auto& [school, count] : found.at(kind)) {
      times += count;
      where.push_back(view.schoolName(school) + " " + number(count));
    }
    std::ranges::sort(where);
    table.rows.push_back(
        {words.at(kind), times, where.empty() ? nothing : base::join(where, ", ")});
  }
  table.notes = {"Each is in the close-out of its day with its reason. Counts are not rates: "
                 "schools differ in how many were treated."};
  return table;
}

Table sterilizerTable(const TermView& view) {
  Table table{"Sterilizer checks",
              {dated("Date"), texts("School"), texts("Result"), dated("Spore test"),
               counts("Days since"), dated("Note")},
              {"Spore tests at least weekly: program setting; manufacturer's instructions "
               "and local rules take precedence. After a failed test, do not use the "
               "sterilizer until one has passed."}};
  auto rows = view.records.readiness;
  std::erase_if(rows, [&](const auto& row) {
    return row.value.item != kit::ReadinessItem::sterilizer || !view.isOfTerm(row.value.day);
  });
  const auto newest = newestOfEach(
      rows, [&](const auto& check) { return std::pair(*view.dateOf(check.day), check.day); });
  for (const auto& [when, row] : newest) {
    const auto& check = row->value;
    const auto words = check.detail.empty() ? check.reason : check.detail;
    const auto test = dateIn(words);
    const auto tested = base::Date::parse(test);
    table.rows.push_back({when.first, view.schoolName(view.days.find(check.day)->school),
                          check.answer, tested ? Cell(*tested) : noFigure,
                          tested ? Cell((when.first.days() - tested->days()).count()) : noFigure,
                          words.empty() ? nothing : words});
  }
  if (table.rows.empty()) table.notes = {"No checks this term."};
  return table;
}

Table licenseTable(const TermRecords& records) {
  constexpr int soon = 60;
  Table table{"Licenses",
              {texts("Member"), texts("Role"), dated("License valid through"), counts("Days left"),
               texts("Status")},
              {"A license that has ended stops clinical tasks and signing, not typing. Soon is "
               "within " +
               number(soon) + " days."}};
  std::vector<const roster::Member*> members;
  for (const auto& row : records.members)
    if (row.value.licenseUntil) members.push_back(&row.value);
  std::ranges::sort(members, {},
                    [](const auto* one) { return std::pair(*one->licenseUntil, one->initials); });
  for (const auto* one : members) {
    const auto left = static_cast<int>((one->licenseUntil->days() - records.asOf.days()).count());
    table.rows.push_back({one->initials, one->role, *one->licenseUntil, left,
                          left < 0       ? "ENDED"
                          : left <= soon ? "ends soon"
                                         : "valid"});
  }
  if (table.rows.empty()) table.notes = {"No member's license has an end in this logbook."};
  return table;
}

} // namespace gk::reports
