#pragma once

#include "store/migration.h"

#include <compare>
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

/// A table whose rows hang on an entry, by the program's own word.
struct RecordTable {
  std::string name;
  std::vector<std::string> columns;
};

/// What a book of that version holds when this program made it.
struct OwnSchema {
  std::vector<SchemaObject> objects; ///< by type and name
  std::vector<RecordTable> records;  ///< by name
  std::vector<std::string> entryColumns;
};

/// Made by the schema steps 1..version in memory, so that no name comes from a file.
OwnSchema ownSchema(std::span<const Migration> steps, std::int64_t version);

/// What `database` ("main" or "other") holds, lacks or has changed against `own`, one sentence
/// each; empty when it is just what this program makes. Runs nothing of the file: it reads
/// sqlite_schema.
std::vector<std::string> strangeObjects(Connection& book, std::string_view database,
                                        const OwnSchema& own);

/// Throws `storeDamaged` with the first of them, before anything else is read.
void requireOwnSchema(Connection& book, std::string_view database, const OwnSchema& own,
                      const base::Path& file);

} // namespace gk::store
