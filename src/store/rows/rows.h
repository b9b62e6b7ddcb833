#pragma once

#include "store/rows/row_io.h"
#include "store/sqlite/connection.h"
#include "store/values/where.h"

#include <functional>
#include <string>
#include <vector>

namespace gk::store {

/// How a record lies in its table. Specialized once for each record type, with
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

base::Stamp readStamp(RowReader& row);

/// Where each of the entries stands when they are put in order, equal ones as they were; empty when
/// they are in order.
std::vector<std::size_t> placesInOrder(const std::vector<base::EntryId>& entries);

/// Of two laptops in the same millisecond the file has that with the lower number first, which is
/// its own: by identity the order is that of every file.
template <class T, class Entry>
void inOrder(std::vector<T>& rows, Entry entry) {
  std::vector<base::EntryId> entries;
  entries.reserve(rows.size());
  for (const auto& row : rows)
    entries.push_back(std::invoke(entry, row));
  const auto places = placesInOrder(entries);
  if (places.empty()) return;
  std::vector<T> sorted;
  sorted.reserve(rows.size());
  for (const auto place : places)
    sorted.push_back(std::move(rows[place]));
  rows = std::move(sorted);
}

/// The statement of insertRow: the entry, then the columns.
std::string insertSql(std::string_view table, std::string_view columns);

template <class T>
void insertRow(Connection& connection, base::EntryId entry, const T& value) {
  static const std::string sql = insertSql(Rows<T>::table, Rows<T>::columns);
  auto statement = connection.prepare(sql);
  RowWriter writer(statement, 1);
  writer << entry;
  Rows<T>::write(writer, value);
  statement.run();
  if constexpr (requires { Rows<T>::writeParts; }) Rows<T>::writeParts(connection, entry, value);
}

/// The query of selectRows, apart so that its plan can be checked.
std::string selectSql(std::string_view table, std::string_view columns, const Where& where,
                      Which which);
template <class T>
std::string selectSql(const Where& where, Which which) {
  return selectSql(Rows<T>::table, Rows<T>::columns, where, which);
}

/// A query of selectSql with what it asks for.
Statement asked(Connection& connection, const std::string& sql, const Where& where);

/// Rows in the order they were entered.
template <class T>
std::vector<base::Recorded<T>> selectRows(Connection& connection, const Where& where, Which which) {
  auto statement = asked(connection, selectSql<T>(where, which), where);
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

/// The entries of such rows, whatever is in them.
std::vector<base::EntryId> selectEntries(Connection& connection, std::string_view table,
                                         const Where& where, Which which);

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
