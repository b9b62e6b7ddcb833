#pragma once

#include "store/book_file.h"
#include "support/clinic.h"

namespace gk::test {

/// Every row of every table of a logbook, in an order of its own: two logbooks that say the same
/// give the same.
inline std::vector<std::string> contentIn(const base::Path& path) {
  auto book = must(store::openBook(path, store::Access::readOnly, store::Durability::everyAct,
                                   base::Instant{base::Milliseconds(1'800'000'000'000)}));
  std::vector<std::string> rows;
  auto tables = book.prepare("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name");
  while (tables.step()) {
    const auto name = tables.column<std::string>(0);
    auto columns = book.prepare("SELECT count(*) FROM pragma_table_info(?)");
    columns.bind(1, std::string_view(name));
    columns.step();
    const auto count = columns.column<int>(0);
    auto all = book.prepare("SELECT * FROM \"" + name + '"');
    while (all.step()) {
      std::string row = name;
      for (int i = 0; i < count; ++i) {
        const auto cell = all.cell(i);
        row += '|' + std::to_string(cell.number) + ':' + std::string(cell.bytes);
      }
      rows.push_back(std::move(row));
    }
  }
  std::ranges::sort(rows);
  return rows;
}

/// Of a logbook that is open, by a copy of it.
inline std::vector<std::string> contentNow(session::Session& session, const base::Path& scratch) {
  const auto copy = base::freeName(scratch / "content.gkbook");
  must(session.backUp(copy));
  auto rows = contentIn(copy);
  std::filesystem::remove(copy);
  return rows;
}

} // namespace gk::test
