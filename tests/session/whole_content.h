#pragma once

#include "store/book_file.h"
#include "support/clinic.h"

namespace gk::test {

/// How the identities of rows are written down: as they are called in this logbook, or as they were
/// entered, before the copies of a laptop were joined.
enum class Called { now, atEntry };

/// Every row of every table of a logbook, in an order of its own: two logbooks that say the same
/// give the same. The file's own numbers of laptops are no part of that.
inline std::vector<std::string> contentIn(const base::Path& path, Called called = Called::now) {
  auto book = must(store::openBook(path, store::Access::readOnly, store::Durability::everyAct,
                                   base::Instant{base::Milliseconds(1'800'000'000'000)}));
  const auto& hands = book.hands();
  std::vector<std::string> rows;
  auto tables = book.prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND name <> "
                             "'hand' ORDER BY name");
  while (tables.step()) {
    const auto name = tables.column<std::string>(0);
    if (name == "hand_branch" && called == Called::atEntry) continue;
    std::vector<std::string> about; // what the columns hold
    auto columns = book.prepare(
        "SELECT name, coalesce((SELECT \"table\" FROM pragma_foreign_key_list(?1) WHERE \"from\" = "
        "name), iif(name = 'id' AND ?1 = 'entry', 'entry', '')) FROM pragma_table_info(?1) ORDER "
        "BY cid");
    columns.bind(1, std::string_view(name));
    while (columns.step())
      about.push_back(columns.column<std::string>(1));
    auto all = book.prepare("SELECT * FROM \"" + name + '"');
    while (all.step()) {
      std::string row = name;
      for (std::size_t i = 0; i < about.size(); ++i) {
        const auto cell = all.cell(static_cast<int>(i));
        const bool isKey = cell.type == store::CellType::integer;
        row += '|';
        if (isKey && (about[i] == "entry" || about[i] == "act"))
          row +=
              (called == Called::now ? hands.identityOf(cell.number) : hands.enteredAs(cell.number))
                  .value()
                  .text();
        else if (isKey && about[i] == "hand")
          row += hands.originLaptop(static_cast<int>(cell.number)).text();
        else
          row += std::to_string(cell.number) + ':' + std::string(cell.bytes);
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
