#pragma once

#include "base/text.h"
#include "store/book_queries.h"
#include "store/connection.h"
#include "store/row_io.h"
#include "store/where.h"

#include <algorithm>
#include <string>
#include <vector>

namespace gk::store {

/// How a record lies in its table. Specialised once for each record type, with
///   table    the table's name, which is also the entry's kind
///   columns  its columns after `entry`, in the order of write and read
///   write    binds the columns
///   read     makes the record
/// and, where a record has a list, writeParts and readParts for its second table.
template <class T>
struct Rows;

inline constexpr std::string_view entryColumns =
    "e.subject, e.id, e.laptop, e.sequence, e.author, e.recorder, e.at, e.utc_offset, "
    "e.supersedes, e.reason";
inline constexpr int entryColumnCount = 10;

inline base::Stamp readStamp(RowReader& row) {
  return {.entry = row,
          .laptop = row,
          .sequence = row,
          .by = {.author = row.maybe(), .recorder = row.maybe()},
          .at = {.at = row, .offset = std::chrono::minutes(row.take<int>())},
          .supersedes = row.maybe(),
          .reason = row};
}

template <class T>
void insertRow(Connection& connection, base::EntryId entry, const T& value) {
  static const std::string sql = [] {
    const auto columns = base::split(Rows<T>::columns, ',');
    std::string marks = "?";
    for (std::size_t i = 0; i < columns.size(); ++i)
      marks += ", ?";
    return "INSERT INTO " + std::string(Rows<T>::table) + " (entry, " +
           std::string(Rows<T>::columns) + ") VALUES (" + marks + ")";
  }();
  auto statement = connection.prepare(sql);
  RowWriter writer(statement, 1);
  writer << entry;
  Rows<T>::write(writer, value);
  statement.run();
  if constexpr (requires { Rows<T>::writeParts; }) Rows<T>::writeParts(connection, entry, value);
}

/// The query of selectRows, apart so that its plan can be checked.
template <class T>
std::string selectSql(const Where& where, std::string_view view) {
  std::string sql = "SELECT " + std::string(entryColumns);
  for (auto column : base::split(Rows<T>::columns, ','))
    sql += ", t." + std::string(base::trim(column));
  // CROSS JOIN holds the order of the loops: left to itself the planner walks through every entry
  // of the book for the sake of the ORDER BY, however few rows the table has.
  const auto table = std::string(Rows<T>::table) + " AS t";
  const auto entries = std::string(view) + " AS e";
  const bool byEntry = where.column.starts_with("e.");
  sql += " FROM " + (byEntry ? entries : table) + " CROSS JOIN " + (byEntry ? table : entries) +
         " ON e.id = t.entry";
  if (where.key) sql += " WHERE " + std::string(where.column) + " = ?1";
  // The plus keeps the planner from looking up the commoner column instead.
  if (where.andId) sql += " AND +" + std::string(where.andColumn) + " = ?2";
  if (where.after) sql += " WHERE t.entry > ?1";
  if (where.among) {
    sql += " WHERE " + std::string(where.column) + " IN (";
    if (where.viaField) sql += std::string(fieldsOfTermSql);
    sql += std::string(childrenOfTermSql) + (where.viaField ? "))" : ")");
    return sql; // put in order once they are here, which is cheaper than with their words beside
  }
  // The same value as e.id, but an index gives it in order.
  sql += byEntry ? " ORDER BY e.id" : " ORDER BY t.entry";
  if (where.after) sql += " LIMIT ?2";
  return sql;
}

/// Rows in the order they were entered. `view` is `current_entry` or `entry` (the whole history).
template <class T>
std::vector<base::Recorded<T>> selectRows(Connection& connection, const Where& where,
                                          std::string_view view) {
  auto statement = connection.prepare(selectSql<T>(where, view));
  if (where.key) std::visit([&](const auto& key) { statement.bind(1, key); }, *where.key);
  if (where.andId) statement.bind(2, *where.andId);
  if (where.after) statement.bind(1, *where.after).bind(2, where.limit);
  if (where.among)
    statement.bind(1, where.among->term).bind(2, where.among->from).bind(3, where.among->until);
  std::vector<base::Recorded<T>> found;
  while (statement.step()) {
    RowReader row(statement, 0);
    const auto subject = row.take<base::Uuid>();
    auto stamp = readStamp(row);
    auto value = Rows<T>::read(row);
    if constexpr (requires { Rows<T>::readParts; })
      Rows<T>::readParts(connection, stamp.entry, value);
    found.push_back({typename T::Key(subject), std::move(stamp), std::move(value)});
  }
  const auto entered = [](const auto& row) { return row.stamp.entry; };
  if (where.among) std::ranges::sort(found, {}, entered);
  return found;
}

/// Runs a prepared list query for one entry, giving each row to `take`.
template <class F>
void eachPart(Connection& connection, std::string_view sql, base::EntryId entry, F&& take) {
  auto statement = connection.prepare(sql);
  statement.bind(1, entry);
  while (statement.step()) {
    RowReader row(statement, 0);
    take(row);
  }
}

} // namespace gk::store
