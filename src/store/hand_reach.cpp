#include "store/book.h"

namespace gk::store {

using base::Result;

namespace {

base::LocalInstant momentOf(const Statement& row, int column) {
  return {row.column<base::Instant>(column), std::chrono::minutes(row.column<int>(column + 1))};
}

} // namespace

Result<std::vector<HandReach>> Book::hands() {
  // SQLite takes the plain columns from the row of the greatest sequence (lang_select.html, 2.5).
  constexpr std::string_view sql =
      "SELECT h.laptop, max(a.sequence + a.count - 1), count(*), a.at, a.utc_offset FROM act AS a "
      "CROSS JOIN hand AS h ON h.number = (a.first & 2047) GROUP BY h.number ORDER BY h.laptop";
  return guarded([&] {
    std::vector<HandReach> found;
    auto rows = connection_.prepare(sql);
    while (rows.step())
      found.push_back({rows.column<base::LaptopId>(0), rows.column<std::int64_t>(1),
                       rows.column<std::int64_t>(2), momentOf(rows, 3)});
    return found;
  });
}

Result<std::vector<base::LocalInstant>> Book::actsAfter(base::LaptopId laptop,
                                                        std::int64_t sequence) {
  constexpr std::string_view sql =
      "SELECT at, utc_offset FROM act WHERE (first & 2047) = (SELECT number FROM hand WHERE laptop "
      "= ?1) AND sequence > ?2 ORDER BY sequence";
  return guarded([&] {
    std::vector<base::LocalInstant> found;
    auto rows = connection_.prepare(sql);
    rows.bind(1, laptop).bind(2, sequence);
    while (rows.step())
      found.push_back(momentOf(rows, 0));
    return found;
  });
}

} // namespace gk::store
