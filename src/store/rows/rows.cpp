#include "store/rows/rows.h"

#include "base/text/text.h"
#include "store/rows/book_queries.h"

#include <algorithm>
#include <numeric>

namespace gk::store {

base::Stamp readStamp(RowReader& row) {
  return {.entry = row,
          .laptop = row.hand(),
          .sequence = row,
          .by = {.author = row.maybe(), .recorder = row.maybe()},
          .at = {.at = row, .offset = std::chrono::minutes(row.take<int>())},
          .supersedes = row.maybe(),
          .reason = row};
}

std::vector<std::size_t> placesInOrder(const std::vector<base::EntryId>& entries) {
  if (std::ranges::is_sorted(entries)) return {};
  std::vector<std::size_t> places(entries.size());
  std::iota(places.begin(), places.end(), std::size_t{0});
  std::ranges::stable_sort(places, {}, [&](std::size_t place) { return entries[place]; });
  return places;
}

std::string insertSql(std::string_view table, std::string_view columns) {
  std::string marks = "?";
  for (std::size_t i = 0; i < base::split(columns, ',').size(); ++i)
    marks += ", ?";
  return "INSERT INTO " + std::string(table) + " (entry, " + std::string(columns) + ") VALUES (" +
         marks + ")";
}

std::string selectSql(std::string_view name, std::string_view columns, const Where& where,
                      Which which) {
  std::string sql = "SELECT coalesce(e.subject, e.id), " + std::string(stampColumns);
  for (auto column : base::split(columns, ','))
    sql += ", t." + std::string(base::trim(column));
  // CROSS JOIN holds the order of the loops: left to itself the planner walks through every entry
  // of the book for the sake of the ORDER BY, however few rows the table has.
  const auto table = std::string(name) + " AS t";
  const std::string entries = "entry AS e";
  const bool byEntry = where.column.starts_with("e.");
  const bool byThing = where.column == "e.subject";
  sql += " FROM " + (byEntry ? entries : table) + " CROSS JOIN " + (byEntry ? table : entries) +
         " ON e.id = t.entry" + std::string(withAct) + " WHERE ";
  sql += which == Which::current ? isCurrent : "TRUE";
  if (where.among != nullptr) {
    const std::string listed(listedChildren);
    sql += byThing ? " AND ((e.id IN " + listed + " AND e.subject IS NULL) OR e.subject IN " +
                         listed + ")"
                   : " AND " + std::string(where.column) + " IN " +
                         (where.viaField ? fieldsOfListed() : listed);
  } else if (byThing)
    sql += " AND " + std::string(ofThing);
  else if (where.key)
    sql += " AND " + std::string(where.column) + " = ?1";
  // The plus keeps the planner from looking up the commoner column instead.
  if (where.andId) sql += " AND +" + std::string(where.andColumn) + " = ?2";
  if (where.after) sql += " AND t.entry > ?1";
  if (where.among != nullptr) return sql; // put in order once they are here, which is cheaper
  // The same value as e.id, but an index gives it in order.
  sql += byEntry ? " ORDER BY e.id" : " ORDER BY t.entry";
  if (where.after) sql += " LIMIT ?2";
  return sql;
}

Statement asked(Connection& connection, const std::string& sql, const Where& where) {
  auto statement = connection.prepare(sql);
  if (where.key) std::visit([&](const auto& key) { statement.bind(1, key); }, *where.key);
  if (where.andId) statement.bind(2, *where.andId);
  if (where.after) statement.bind(1, *where.after).bind(2, where.limit);
  if (where.among != nullptr) statement.bind(1, std::string_view(where.among->numbers));
  return statement;
}

std::vector<base::EntryId> selectEntries(Connection& connection, std::string_view table,
                                         const Where& where, Which which) {
  auto statement = asked(connection, selectSql(table, "entry", where, which), where);
  std::vector<base::EntryId> found;
  while (statement.step()) {
    RowReader row(statement, 1); // after the thing
    found.push_back(readStamp(row).entry);
  }
  if (!where.after) std::ranges::stable_sort(found);
  return found;
}

} // namespace gk::store
