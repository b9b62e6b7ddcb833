#include "reports/decay/indicator_rows.h"

#include "roster/program/program.h"

#include <algorithm>

namespace gk::reports {

namespace {

constexpr const char* allGrades = "All grades";

std::string gradeGroup(const std::string& grade) {
  const auto number = roster::gradeNumber(grade);
  if (!number) return "Other grades";
  return *number == 0 ? "Kindergarten" : *number == 3 ? "Grade 3" : "Other grades";
}

void add(IndicatorCount& count, std::optional<bool> has) {
  if (!has) return;
  ++count.known;
  if (*has) ++count.with;
}

/// Yes if either part is yes, no only if both are no.
std::optional<bool> either(std::optional<bool> one, std::optional<bool> other) {
  if (one == true || other == true) return true;
  if (one == false && other == false) return false;
  return std::nullopt;
}

void add(IndicatorRow& row, const std::string& grade, const estimates::ScreenedChild& child) {
  using estimates::CareNeed;
  const auto count = [&](Indicator which, std::optional<bool> has) {
    add(row.counts[static_cast<std::size_t>(which)], has);
  };
  ++row.screened;
  ++row.byGrade[grade];
  count(Indicator::untreated, child.untreatedDecay);
  count(Indicator::treated, child.treatedDecay);
  count(Indicator::experience, either(child.untreatedDecay, child.treatedDecay));
  count(Indicator::sealants, child.sealants);
  count(Indicator::noProblem, child.need == CareNeed::none);
  count(Indicator::early, child.need == CareNeed::early);
  count(Indicator::urgent, child.need == CareNeed::urgent);
}

} // namespace

std::vector<IndicatorRow> indicatorRows(std::span<const SeenChild> children) {
  std::vector<IndicatorRow> rows;
  for (const auto* group : {"Kindergarten", "Grade 3", "Other grades", allGrades})
    rows.push_back({.group = group});
  for (const auto& seen : children) {
    add(*std::ranges::find(rows, gradeGroup(seen.grade), &IndicatorRow::group), seen.grade,
        seen.child);
    add(rows.back(), seen.grade, seen.child);
  }
  const auto all = std::move(rows.back());
  rows.pop_back();
  std::erase_if(rows, [](const auto& row) { return row.screened == 0; });
  if (rows.size() == 1) rows.clear(); // the same children twice
  rows.push_back(all);
  return rows;
}

} // namespace gk::reports
