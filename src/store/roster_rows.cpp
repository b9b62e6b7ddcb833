#include "store/roster_rows.h"

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

} // namespace gk::store
