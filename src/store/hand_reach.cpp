#include "store/book.h"
#include "store/digest/lines.h"

#include <algorithm>

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

Result<std::vector<CopiedLine>> Book::copiedLines() {
  constexpr std::string_view sql =
      "SELECT at, utc_offset, (SELECT count(*) FROM act AS n WHERE (n.first & 2047) = (a.first & "
      "2047) AND n.sequence >= a.sequence AND n.first < coalesce((SELECT min(b.first) FROM "
      "hand_branch AS b WHERE (b.first & 2047) = (a.first & 2047) AND b.first > a.first), "
      "9223372036854775807)) FROM act AS a WHERE a.first = ?1";
  return guarded([&] {
    std::vector<CopiedLine> lines;
    for (const auto& branch : branchesOf(connection_, "main")) {
      auto row = connection_.prepare(sql);
      row.bind(1, branch.first);
      if (row.step())
        lines.push_back({branch.name, connection_.hands().originLaptop(branch.origin),
                         momentOf(row, 0), row.column<std::int64_t>(2)});
    }
    // By no number of this file, so that every file lists them alike.
    std::ranges::sort(lines, {},
                      [](const CopiedLine& line) { return std::pair(line.since.at, line.name); });
    return lines;
  });
}

base::Uuid Book::enteredAs(const base::Uuid& identity) {
  const auto key = connection_.hands().keyOf(identity);
  return handIn(key) == 0 ? identity : connection_.hands().enteredAs(key).value_or(identity);
}

} // namespace gk::store
