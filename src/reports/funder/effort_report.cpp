#include "reports/funder/effort_report.h"

#include "reports/print/cells.h"
#include "reports/publish/published.h"
#include "reports/records/term_view.h"

#include <algorithm>
#include <numeric>
#include <set>

namespace gk::reports {

namespace {

using roster::minutes;

void addPeople(Effort& to, const std::vector<roster::RoleTime>& people) {
  for (const auto& one : people)
    to.staff.at(static_cast<std::size_t>(one.role)) += one.time;
}

Effort sumOf(const std::vector<Effort>& schools) {
  Effort total{.school = "Total"};
  for (const auto& one : schools) {
    total.days += one.days;
    total.daysSaid += one.daysSaid;
    total.chairHours += one.chairHours;
    for (std::size_t role = 0; role < total.staff.size(); ++role)
      total.staff[role] += one.staff[role];
    total.screened += one.screened;
    total.teeth += one.teeth;
    total.taught += one.taught;
  }
  return total;
}

/// Children screened, and teeth sealed, on those days; each once.
void addCare(const TermView& view, const std::set<roster::DayId>& days, Effort& to) {
  for (const auto& [child, rows] : view.screenings.all())
    if (std::ranges::any_of(rows, [&](const auto* row) { return days.contains(row->value.day); }))
      ++to.screened;
  for (const auto& [child, rows] : view.placements.all()) {
    std::set<dentition::Tooth> teeth;
    for (const auto* row : rows)
      if (days.contains(row->value.day) && chairside::countsAsSealant(row->value))
        teeth.insert(row->value.tooth);
    to.teeth += static_cast<int>(teeth.size());
  }
}

Cell each(double count, double hours) {
  return numberPer(count, hours, 2);
}

/// Those that anybody has time of.
std::vector<std::size_t> rolesOf(const Effort& total) {
  std::vector<std::size_t> roles;
  for (std::size_t role = 0; role < total.staff.size(); ++role)
    if (total.staff.at(role) > minutes{}) roles.push_back(role);
  return roles;
}

Table hoursTable(const std::vector<std::size_t>& roles) {
  Table table{"Staff and chair hours",
              {texts("School"), counts("Days"), numbers("Chair hours")},
              {"Only days with hours entered at close-out. Chair hours: chairs times the "
               "hours they were open. Travel and office work are not included."}};
  for (const auto role : roles)
    table.columns.push_back(numbers("Hours of " + named(static_cast<roster::Role>(role))));
  table.columns.push_back(numbers("Staff hours"));
  return table;
}

Cells hourCells(const Effort& one, const std::vector<std::size_t>& roles) {
  Cells cells{one.school, outOf(one.daysSaid, one.days), numberOf(one.chairHours, 1)};
  for (const auto role : roles)
    cells.push_back(hoursOf(one.staff.at(role)));
  cells.push_back(hoursOf(one.staffTime()));
  return cells;
}

} // namespace

minutes Effort::staffTime() const {
  return std::accumulate(staff.begin(), staff.end(), minutes{});
}

std::vector<Effort> efforts(const TermView& view) {
  const auto said = newestOfEach(view.records.efforts, [](const auto& one) { return one.day; });
  const auto meals =
      newestOfEach(view.records.eligibility, [](const auto& one) { return one.school; });
  std::vector<Effort> schools;
  for (const auto& school : view.records.schools) {
    Effort one{.school = view.schoolName(school.id), .id = school.id};
    std::set<roster::DayId> days;
    for (const auto& day : view.records.days) {
      if (day.value.school != school.id || !view.isOfTerm(day.id)) continue;
      ++one.days;
      const auto effort = said.find(day.id);
      if (effort == said.end()) continue;
      ++one.daysSaid;
      one.chairHours += effort->second->value.chairHours();
      addPeople(one, effort->second->value.people);
      one.taught += effort->second->value.taught;
      days.insert(day.id);
    }
    addCare(view, days, one);
    if (const auto known = meals.find(school.id); known != meals.end()) {
      one.mealsPercent = known->second->value.percent;
      one.mealsSource = known->second->value.source;
    }
    schools.push_back(std::move(one));
  }
  std::ranges::sort(schools, {}, &Effort::school);
  schools.push_back(sumOf(schools));
  return schools;
}

std::vector<Effort> effortsOf(std::vector<Effort> all, roster::SchoolId school) {
  std::erase_if(all, [&](const auto& one) { return one.id != school; });
  all.push_back(sumOf(all));
  return all;
}

Table staffTable(const std::vector<Effort>& schools) {
  const auto roles = rolesOf(schools.back());
  auto table = hoursTable(roles);
  table.columns.insert(table.columns.end(),
                       {counts("Screened"), numbers("Screened per chair hour"),
                        numbers("Staff hours per student", "staff_hours_per_child"),
                        numbers("Teeth per chair hour"),
                        counts("Students receiving oral health education")});
  for (const auto& one : schools) {
    auto cells = hourCells(one, roles);
    const double staff = static_cast<double>(one.staffTime().count()) / 60;
    cells.insert(cells.end(),
                 {one.screened, each(one.screened, one.chairHours), each(staff, one.screened),
                  each(one.teeth, one.chairHours), one.taught});
    table.rows.push_back(std::move(cells));
  }
  table.notes.emplace_back("Students screened and teeth sealed on those days, each once.");
  return table;
}

std::optional<Table> publishedEffort(const std::vector<Effort>& schools,
                                     const SuppressionRule& rule) {
  if (schools.back().daysSaid == 0) return std::nullopt;
  const auto roles = rolesOf(schools.back());
  auto table = hoursTable(roles);
  table.columns.push_back(counts("Students receiving oral health education"));
  // All schools together: a school's own count of students could be small.
  auto cells = hourCells(schools.back(), roles);
  const int taught = schools.back().taught;
  const bool isSmall = taught > 0 && taught < rule.threshold();
  cells.push_back(shownCount(taught, isSmall ? Showing::fewer : Showing::number, rule));
  table.columns.front().heading = "Schools";
  cells.front() = "All";
  table.rows.push_back(std::move(cells));
  return table;
}

std::optional<Table> mealsTable(const std::vector<Effort>& schools) {
  Table table{
      "Schools",
      {texts("School"), shares("Students with free or reduced-price meals, %"), texts("Source")},
      {"A school's own published percentage; it says nothing about one student."}};
  for (const auto& one : schools)
    if (one.mealsPercent)
      table.rows.push_back({one.school, Share{*one.mealsPercent / 100.0, 0}, one.mealsSource});
  if (table.rows.empty()) return std::nullopt;
  return table;
}

} // namespace gk::reports
