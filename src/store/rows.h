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

enum class Which {
  current, ///< what nothing supersedes
  ever     ///< the whole history
};

inline base::Stamp readStamp(RowReader& row) {
  return {.entry = row,
          .laptop = row.hand(),
          .sequence = row,
          .by = {.author = row.maybe(), .recorder = row.maybe()},
          .at = {.at = row, .offset = std::chrono::minutes(row.take<int>())},
          .supersedes = row.maybe(),
          .reason = row};
}

/// Of two laptops in the same millisecond the file has that with the lower number first, which is
/// its own: by identity the order is that of every file.
template <class T, class Entry>
void inOrder(std::vector<T>& rows, Entry entry) {
  if (!std::ranges::is_sorted(rows, {}, entry)) std::ranges::stable_sort(rows, {}, entry);
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
std::string selectSql(const Where& where, Which which) {
  std::string sql = "SELECT coalesce(e.subject, e.id), " + std::string(stampColumns);
  for (auto column : base::split(Rows<T>::columns, ','))
    sql += ", t." + std::string(base::trim(column));
  // CROSS JOIN holds the order of the loops: left to itself the planner walks through every entry
  // of the book for the sake of the ORDER BY, however few rows the table has.
  const auto table = std::string(Rows<T>::table) + " AS t";
  const std::string entries = "entry AS e";
  const bool byEntry = where.column.starts_with("e.");
  const bool byThing = where.column == "e.subject";
  sql += " FROM " + (byEntry ? entries : table) + " CROSS JOIN " + (byEntry ? table : entries) +
         " ON e.id = t.entry" + std::string(withAct) + " WHERE ";
  sql += which == Which::current ? isCurrent : "TRUE";
  if (where.among)
    sql =
        "WITH " + std::string(countedChildren) + sql + " AND " +
        (byThing ? "((e.id IN (SELECT child FROM counted) AND e.subject IS NULL) OR e.subject IN "
                   "(SELECT child FROM counted))"
                 : std::string(where.column) + " IN (" +
                       std::string(where.viaField ? fieldsOfCounted : "SELECT child FROM counted") +
                       ")");
  else if (byThing)
    sql += " AND " + std::string(ofThing);
  else if (where.key)
    sql += " AND " + std::string(where.column) + " = ?1";
  // The plus keeps the planner from looking up the commoner column instead.
  if (where.andId) sql += " AND +" + std::string(where.andColumn) + " = ?2";
  if (where.after) sql += " AND t.entry > ?1";
  if (where.among) return sql; // put in order once they are here, which is cheaper
  // The same value as e.id, but an index gives it in order.
  sql += byEntry ? " ORDER BY e.id" : " ORDER BY t.entry";
  if (where.after) sql += " LIMIT ?2";
  return sql;
}

/// Rows in the order they were entered.
template <class T>
std::vector<base::Recorded<T>> selectRows(Connection& connection, const Where& where, Which which) {
  auto statement = connection.prepare(selectSql<T>(where, which));
  if (where.key) std::visit([&](const auto& key) { statement.bind(1, key); }, *where.key);
  if (where.andId) statement.bind(2, *where.andId);
  if (where.after) statement.bind(1, *where.after).bind(2, where.limit);
  if (where.among)
    statement.bind(1, base::EntryId(where.among->term))
        .bind(2, where.among->from)
        .bind(3, where.among->until);
  std::vector<base::Recorded<T>> found;
  while (statement.step()) {
    RowReader row(statement, 0);
    const auto thing = row.take<base::EntryId>();
    auto stamp = readStamp(row);
    auto value = Rows<T>::read(row);
    if constexpr (requires { Rows<T>::readParts; })
      Rows<T>::readParts(connection, stamp.entry, value);
    found.push_back({typename T::Key(thing.uuid()), std::move(stamp), std::move(value)});
  }
  // A page goes on after its last row, so it keeps the order of the file.
  if (!where.after) inOrder(found, [](const base::Recorded<T>& row) { return row.stamp.entry; });
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
