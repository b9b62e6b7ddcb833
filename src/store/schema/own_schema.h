#pragma once

#include "store/schema/migration.h"
#include "store/sqlite/cell.h"

#include <compare>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gk::store {

/// One object of a file's sqlite_schema; `sql` with each run of blanks as one, empty for the
/// indexes that SQLite makes by itself.
struct SchemaObject {
  std::string type; ///< table, index, trigger or view
  std::string name;
  std::string table; ///< whose it is
  std::string sql;

  auto operator<=>(const SchemaObject&) const = default;
};

/// A column by the program's own word. A row that is silent about it holds `silent`; without one
/// every row says something.
struct OwnColumn {
  std::string name;
  std::optional<Cell> silent{};
  bool isEntry = false; ///< holds the identity of a row
};

/// A table whose rows hang on an entry, by the program's own word; or `entry` itself, or `act`.
struct OwnTable {
  std::string name;
  std::int64_t kind = 0; ///< of the entries that its rows hang on
  std::vector<OwnColumn> columns;
  std::string inOrder; ///< the columns of its key, as they stand in ORDER BY
  std::string ofEntry; ///< asks for the rows of the entry ?1

  /// Column names in their order, quoted, with commas between.
  [[nodiscard]] std::string list() const;
  [[nodiscard]] bool has(std::string_view column) const;
  /// Where a column stands, from 0; one that is not there is a bug.
  [[nodiscard]] int at(std::string_view column) const;
};

/// What a book of that version holds when this program made it.
struct OwnSchema {
  std::vector<SchemaObject> objects; ///< by type and name
  std::vector<OwnTable> records;     ///< by kind, the one named as the kind before its lists
  OwnTable entry;
  OwnTable act;                              ///< without its digest, which is over the rest
  OwnTable salts;                            ///< child_salt
  OwnTable erased;                           ///< erased_entry
  std::map<std::int64_t, std::string> kinds; ///< rows of entry_kind
  std::string entriesBetween; ///< asks for the rows of `entry` of one hand from ?1 to ?2
  int idColumn = 0;           ///< of `entry`, where it stands in it
  int kindColumn = 0;
  int nthColumn = 0;
  int subjectColumn = 0;
  int supersedesColumn = 0;
  int reasonColumn = 0;
  std::int64_t childKind = 0; ///< its number
  std::int64_t retractionKind = 0;

  /// False of another program's schema, as tests have it.
  [[nodiscard]] bool isBook() const { return !act.columns.empty(); }
};

/// Made by the schema steps 1..version in memory, so that no name comes from a file.
OwnSchema ownSchema(std::span<const Migration> steps, std::int64_t version);
/// That of the program's newest version, made once.
const OwnSchema& newestSchema();
/// The tables of a book that this program just made: nothing of `objects`.
OwnSchema ownTables(Connection& book);

/// What `database` ("main" or "other") holds, lacks or has changed against `own`, one sentence
/// each; empty when it is just what this program makes. Runs nothing of the file: it reads
/// sqlite_schema.
std::vector<std::string> strangeObjects(Connection& book, std::string_view database,
                                        const OwnSchema& own);

/// Throws `storeDamaged` with the first of them, before anything else is read.
void requireOwnSchema(Connection& book, std::string_view database, const OwnSchema& own,
                      const base::Path& file);

} // namespace gk::store
