#include "store/records/roster_rows.h"

#include "store/records/year_rows.h"

#include <algorithm>

namespace gk::store {

void Rows<roster::Term>::writeParts(Connection& connection, base::EntryId entry,
                                    const roster::Term& term) {
  constexpr std::string_view sql =
      "INSERT INTO term_holiday (entry, place, holiday) VALUES (?, ?, ?)";
  for (std::size_t i = 0; i < term.holidays.size(); ++i)
    connection.prepare(sql).bindAll(entry, static_cast<int>(i), term.holidays[i]).run();
}

void Rows<roster::Term>::readParts(Connection& connection, base::EntryId entry,
                                   roster::Term& term) {
  constexpr std::string_view sql =
      "SELECT holiday FROM term_holiday WHERE entry = ? ORDER BY place";
  eachPart(connection, sql, entry,
           [&](RowReader& row) { term.holidays.push_back(row.take<base::Date>()); });
}

void Rows<roster::DayEffort>::writeParts(Connection& connection, base::EntryId entry,
                                         const roster::DayEffort& effort) {
  constexpr std::string_view sql =
      "INSERT INTO day_effort_people (entry, role, minutes) VALUES (?, ?, ?)";
  for (const auto& one : effort.people)
    connection.prepare(sql)
        .bindAll(entry, base::nameOf(one.role), static_cast<int>(one.time.count()))
        .run();
}

void Rows<roster::DayEffort>::readParts(Connection& connection, base::EntryId entry,
                                        roster::DayEffort& effort) {
  constexpr std::string_view sql = "SELECT role, minutes FROM day_effort_people WHERE entry = ?";
  eachPart(connection, sql, entry, [&](RowReader& row) {
    const auto role = row.take<roster::Role>();
    effort.people.push_back({role, roster::minutes(row.take<int>())});
  });
  std::ranges::sort(effort.people, {}, &roster::RoleTime::role);
}

void Rows<roster::DayCost>::writeParts(Connection& connection, base::EntryId entry,
                                       const roster::DayCost& cost) {
  constexpr std::string_view sql =
      "INSERT INTO day_cost_line (entry, cost_kind, cents) VALUES (?, ?, ?)";
  for (const auto& line : cost.lines)
    connection.prepare(sql).bindAll(entry, base::nameOf(line.kind), line.amount).run();
}

void Rows<roster::DayCost>::readParts(Connection& connection, base::EntryId entry,
                                      roster::DayCost& cost) {
  constexpr std::string_view sql = "SELECT cost_kind, cents FROM day_cost_line WHERE entry = ?";
  eachPart(connection, sql, entry, [&](RowReader& row) {
    const auto kind = row.take<roster::CostKind>();
    cost.lines.push_back({kind, row.take<std::int64_t>()});
  });
  std::ranges::sort(cost.lines, {}, &roster::CostLine::kind);
}

} // namespace gk::store
