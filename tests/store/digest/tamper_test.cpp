#include "broken/broken_books.h"
#include "store/audit.h"
#include "store/book.h"
#include "store/records/every_table.h"
#include "support/long_checks.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>
#include <iomanip>
#include <iostream>

namespace gk::test {

using base::ErrorCode;
using store::Access;
using store::Book;
using store::Durability;

namespace {

struct SomeTable {
  std::string name;
  std::vector<std::pair<std::string, std::string>> columns; ///< name and type
  std::string key;                                          ///< its columns, with commas
  int rows = 0;
  int keys = 0; ///< different values in the first column
};

std::vector<SomeTable> tablesOf(store::Connection& book) {
  std::vector<SomeTable> tables;
  auto names = book.prepare("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name");
  while (names.step()) {
    SomeTable table{names.column<std::string>(0), {}, {}};
    auto columns = book.prepare("SELECT name, type, pk FROM pragma_table_info(?) ORDER BY cid");
    columns.bind(1, std::string_view(table.name));
    while (columns.step()) {
      const auto [name, type, inKey] = columns.columns<std::string, std::string, int>();
      table.columns.emplace_back(name, type);
      if (inKey > 0) table.key += (table.key.empty() ? "" : ", ") + name;
    }
    auto rows = book.prepare("SELECT count(*) FROM " + table.name);
    rows.step();
    table.rows = rows.column<int>(0);
    auto keys = book.prepare("SELECT count(DISTINCT " + table.columns.front().first + ") FROM " +
                             table.name);
    keys.step();
    table.keys = keys.column<int>(0);
    tables.push_back(std::move(table));
  }
  return tables;
}

/// Another value of the same type, whatever it is now.
std::string otherThan(const std::string& column, const std::string& type) {
  const auto is = [&](const char* wanted) { return type == wanted; };
  if (is("INTEGER")) return "coalesce(" + column + ", 0) + 1000";
  if (is("TEXT")) return "coalesce(" + column + ", '') || 'x'";
  return "randomblob(coalesce(length(" + column + "), 16))";
}

std::string whichRow(const SomeTable& table, int row) {
  return " WHERE (" + table.key + ") = (SELECT " + table.key + " FROM " + table.name +
         " ORDER BY " + table.key + " LIMIT 1 OFFSET " + std::to_string(row) + ")";
}

/// A book that is changed as by someone who took every guard away, looked at, and put back.
class Tampered {
 public:
  explicit Tampered(const base::Path& path)
      : book_(path, Access::readWrite, Durability::bulk), tables_(tablesOf(book_)) {
    book_.enforceForeignKeys(false);
    auto triggers = book_.prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'");
    while (triggers.step())
      dropping_ += "DROP TRIGGER " + triggers.column<std::string>(0) + ";";
    book_.execute("PRAGMA ignore_check_constraints = ON");
  }
  [[nodiscard]] const std::vector<SomeTable>& tables() const { return tables_; }

  [[nodiscard]] bool isAny(const std::string& query) { return book_.prepare(query).step(); }

  /// By the digests and what goes with them alone: neither CHECKs nor pages nor references.
  bool isNoticed(const std::string& sql) {
    book_.execute("BEGIN");
    book_.execute(dropping_);
    const auto done = store::guarded([&] { book_.execute(sql); });
    INFO(sql);
    if (!done) FAIL(done.error().detail);
    const auto history = store::guarded(
        [&] { store::checkHistory(book_, store::migrations(), std::ssize(store::migrations())); });
    const bool found = !store::historyFaults(book_, "main", store::newestSchema()).empty();
    book_.rollBack();
    return found || !history;
  }

 private:
  store::Connection book_;
  std::vector<SomeTable> tables_;
  std::string dropping_;
};

struct Score {
  int done = 0;
  int noticed = 0;
  void count(bool wasNoticed) {
    ++done;
    if (wasNoticed) ++noticed;
  }
};

struct MatrixLine {
  std::string table;
  Score changed;
  Score deleted;
  Score swapped;
  Score inserted;
};

/// The rows of one key change places with those of the next.
void swapRows(Tampered& book, const SomeTable& table, int first, MatrixLine& line) {
  const auto id = table.columns.front().first; // what a row hangs on, or is
  const auto nth = [&](const std::string& from, int which) {
    return "(SELECT DISTINCT " + id + " AS i FROM " + from + " ORDER BY i LIMIT 1 OFFSET " +
           std::to_string(which) + ")";
  };
  std::string rest;
  for (const auto& [name, type] : table.columns)
    if (name != id) rest += (rest.empty() ? "" : ", ") + name;
  const auto restOf = [&](int which) {
    return "SELECT " + rest + " FROM " + table.name + " WHERE " + id + " = " +
           nth(table.name, which);
  };
  // Rows that say the same change nothing by changing places.
  if (!book.isAny(restOf(first) + " EXCEPT " + restOf(first + 1)) &&
      !book.isAny(restOf(first + 1) + " EXCEPT " + restOf(first)))
    return;
  const bool isNumber = table.columns.front().second == "INTEGER";
  const std::string between = isNumber ? "-1" : "x'ff'";
  const auto rename = [&](const std::string& to, const std::string& from) {
    return "; UPDATE main." + table.name + " SET " + id + " = " + to + " WHERE " + id + " = " +
           from;
  };
  const auto one = nth("old", first);
  const auto other = nth("old", first + 1);
  line.swapped.count(book.isNoticed("CREATE TEMP TABLE old AS SELECT * FROM main." + table.name +
                                    rename(between, one) + rename(one, other) +
                                    rename(other, between)));
}

void insertRow(Tampered& book, const SomeTable& table, MatrixLine& line) {
  // A row like the first one under another key; where the key has a second column, besides that
  // one.
  const auto keyColumns = static_cast<int>(std::count(table.key.begin(), table.key.end(), ',')) + 1;
  for (int other = 0; other < keyColumns; ++other) {
    std::string values;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      const auto& [name, type] = table.columns[i];
      // What may stand in one row alone, besides the key.
      const bool isUnique =
          ((table.name == "hand" || table.name == "hand_branch") && name == "laptop") ||
          ((table.name == "entry_kind" || table.name == "book_key") && name == "name");
      const bool isChanged = static_cast<int>(i) == other || (other == 1 && i == 2) || isUnique;
      const auto far = type == "INTEGER" ? name + " + 1000" : otherThan(name, type);
      values += (values.empty() ? "" : ", ") + (isChanged ? far : name);
    }
    line.inserted.count(book.isNoticed("INSERT INTO " + table.name + " SELECT " + values +
                                       " FROM " + table.name + " ORDER BY " + table.key +
                                       " LIMIT 1"));
  }
}

std::vector<MatrixLine> matrixOf(const base::Path& path) {
  Tampered book(path);
  std::vector<MatrixLine> lines;
  for (const auto& table : book.tables()) {
    MatrixLine line{table.name, {}, {}, {}, {}};
    for (const auto& [column, type] : table.columns)
      for (int row = 0; row < std::min(table.rows, rounds(1, table.rows)); ++row)
        line.changed.count(book.isNoticed("UPDATE " + table.name + " SET " + column + " = " +
                                          otherThan(column, type) + whichRow(table, row)));
    for (int row = 0; row < table.rows; ++row)
      line.deleted.count(book.isNoticed("DELETE FROM " + table.name + whichRow(table, row)));
    if (table.columns.size() > 1) // one without has nothing that could change places
      for (int key = 0; key + 1 < std::min(table.keys, rounds(2, table.keys)); ++key)
        swapRows(book, table, key, line);
    insertRow(book, table, line);
    lines.push_back(std::move(line));
  }
  return lines;
}

std::ostream& operator<<(std::ostream& out, const Score& score) {
  if (score.done == 0) return out << std::setw(12) << "none";
  return out << std::setw(12)
             << std::to_string(score.noticed) + " of " + std::to_string(score.done);
}

struct Noise {
  int noticed = 0;
  int onOpening = 0;
  int harmless = 0;
  int unseen = 0;
};

void judge(const base::Path& path, const std::string& content, Noise& noise) {
  const auto opened =
      Book::open(path, nobodysLaptop, Access::readOnly, Durability::everyAct, someMorning);
  if (!opened) ++noise.onOpening;
  if (!looksWhole(path))
    ++noise.noticed;
  else if (contentAt(path) == content)
    ++noise.harmless;
  else
    ++noise.unseen;
}

Noise flipBits(const base::Path& path, const Scratch& folder, int flips) {
  const auto whole = bytesOf(path);
  const auto content = contentAt(path);
  base::SeededRandom random(seedOr(150));
  Noise noise;
  for (int i = 0; i < flips; ++i) {
    auto bytes = whole;
    const auto at = random.below(bytes.size());
    bytes[at] = static_cast<char>(static_cast<unsigned char>(bytes[at]) ^ (1U << random.below(8)));
    const auto flipped = folder / "flipped.gkbook";
    writeBytes(flipped, bytes);
    const int before = noise.unseen;
    judge(flipped, content, noise);
    CAPTURE(at);
    CHECK(noise.unseen == before);
  }
  return noise;
}

Noise truncate(const base::Path& path, const Scratch& folder) {
  const auto whole = bytesOf(path);
  const auto content = contentAt(path);
  Noise noise;
  for (std::size_t n = 0; n < 27; ++n) {
    const auto cut = folder / "cut.gkbook";
    writeBytes(cut, whole.substr(0, whole.size() * n / 27));
    judge(cut, content, noise);
  }
  return noise;
}

} // namespace

TEST_CASE("Every column of every table changed, every row deleted, swapped or inserted is noticed",
          "[case-150]") {
  const Scratch folder;
  makeEveryTable(folder / "whole.gkbook");
  for (const auto& line : matrixOf(folder / "whole.gkbook")) {
    INFO(line.table);
    CHECK(line.deleted.done > 0); // makeEveryTable fills each
    CHECK(line.changed.noticed == line.changed.done);
    CHECK(line.deleted.noticed == line.deleted.done);
    CHECK(line.swapped.noticed == line.swapped.done);
    CHECK(line.inserted.noticed == line.inserted.done);
  }
}

TEST_CASE("Bits that flip and files cut short are noticed or changed nothing", "[case-151]") {
  const Scratch folder;
  makeEveryTable(folder / "whole.gkbook");
  const auto flips = flipBits(folder / "whole.gkbook", folder, rounds(60, 1000));
  CHECK(flips.noticed > 0);
  const auto cuts = truncate(folder / "whole.gkbook", folder);
  CHECK(cuts.onOpening == 27);
}

TEST_CASE("The tamper matrix as a table", "[.matrix]") {
  const Scratch folder;
  const auto path = folder / "whole.gkbook";
  makeEveryTable(path);
  std::cout << std::left << std::setw(22) << "table" << std::right << std::setw(12) << "changed"
            << std::setw(12) << "deleted" << std::setw(12) << "swapped" << std::setw(12)
            << "inserted\n";
  MatrixLine all{"all", {}, {}, {}, {}};
  const auto add = [](Score& sum, const Score& one) {
    sum.done += one.done;
    sum.noticed += one.noticed;
  };
  const auto print = [](const MatrixLine& line) {
    std::cout << std::left << std::setw(22) << line.table << std::right << line.changed
              << line.deleted << line.swapped << line.inserted << '\n';
  };
  for (const auto& line : matrixOf(path)) {
    print(line);
    add(all.changed, line.changed);
    add(all.deleted, line.deleted);
    add(all.swapped, line.swapped);
    add(all.inserted, line.inserted);
  }
  print(all);
  const auto say = [](const char* what, const Noise& noise) {
    std::cout << what << ": " << noise.noticed << " noticed (" << noise.onOpening
              << " on opening), " << noise.harmless << " changed nothing, " << noise.unseen
              << " unseen\n";
  };
  say("bit flips", flipBits(path, folder, rounds(200, 1000)));
  say("truncations", truncate(path, folder));
}

TEST_CASE("REPLACE takes no row away", "[case-154]") {
  const Scratch folder;
  makeEveryTable(folder / "whole.gkbook");
  store::Connection book(folder / "whole.gkbook", Access::readWrite, Durability::bulk);
  const auto before = contentOf(book);
  for (const auto& table : tablesOf(book)) {
    const auto again = "SELECT * FROM " + table.name;
    for (const auto& sql :
         {"REPLACE INTO " + table.name + " " + again,
          "INSERT OR REPLACE INTO " + table.name + " " + again, "DELETE FROM " + table.name,
          "UPDATE OR REPLACE " + table.name + " SET " + table.columns[0].first + " = " +
              table.columns[0].first}) {
      INFO(sql);
      CHECK_FALSE(store::guarded([&] { book.execute(sql); }));
    }
  }
  // A row that is in the way by another key than the first.
  CHECK_FALSE(store::guarded([&] {
    book.execute("REPLACE INTO act SELECT first + 2048, sequence, count - 1, at, utc_offset, "
                 "author, recorder, verb, station, digest FROM act WHERE count > 2 LIMIT 1");
  }));
  CHECK_FALSE(store::guarded(
      [&] { book.execute("REPLACE INTO hand SELECT number + 5, laptop FROM hand"); }));
  CHECK_FALSE(store::guarded([&] {
    book.execute("REPLACE INTO field_tooth SELECT entry, 9, tooth, surfaces FROM field_tooth");
  }));
  CHECK(contentOf(book) == before);
}

} // namespace gk::test
