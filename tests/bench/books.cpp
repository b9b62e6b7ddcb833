#include "bench/books.h"
#include "store/book.h"
#include "store/schema/migration.h"
#include "support/large_book.h"

#include <filesystem>

namespace gk::bench {

base::Path keptBook(const base::Path& folder, int children) {
  const auto kept = folder / ("large-" + std::to_string(children) + ".gkbook");
  if (std::filesystem::exists(kept)) return kept;
  const base::Path half(kept.string() + ".half"); // of a run that was cut off
  std::filesystem::remove(half);
  test::makeLargeBook(half, children);
  std::filesystem::rename(half, kept);
  return kept;
}

base::Path emptyLike(const base::Path& like, const base::Path& path) {
  const base::Instant now{base::Milliseconds(1'794'924'000'000)};
  auto made = test::must(store::createBook(path, store::Durability::bulk, now));
  made.prepare("ATTACH DATABASE ? AS other").bindAll(std::string_view(like.native())).run();
  made.execute("INSERT INTO main.book SELECT * FROM other.book; DETACH DATABASE other");
  made.finish();
  return path;
}

std::vector<std::string> recordTables() {
  std::vector<std::string> tables;
  for (const auto& table : store::newestSchema().records)
    tables.push_back(table.name);
  return tables;
}

void touchAll(store::Statement& rows, int columns, Touched& touched) {
  while (rows.step()) {
    ++touched.rows;
    for (int i = 0; i < columns; ++i)
      touched.bytes += rows.cell(i).bytes.size();
  }
}

Touched touchEveryRow(store::Connection& book) {
  Touched touched;
  auto tables = book.prepare("SELECT name, ncol FROM pragma_table_list WHERE type = 'table' AND "
                             "schema = 'main' AND name NOT LIKE 'sqlite%'");
  while (tables.step()) {
    const auto [name, columns] = tables.columns<std::string, int>();
    auto rows = book.prepare("SELECT * FROM \"" + name + '"');
    touchAll(rows, columns, touched);
  }
  return touched;
}

} // namespace gk::bench
