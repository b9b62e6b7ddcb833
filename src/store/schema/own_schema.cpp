#include "store/schema/own_schema.h"

#include <algorithm>
#include <cctype>
#include <tuple>

namespace gk::store {

namespace {

using base::ErrorCode;

std::string oneBlank(std::string_view sql) {
  std::string plain;
  for (const char c : sql)
    if (std::isspace(static_cast<unsigned char>(c)) == 0)
      plain += c;
    else if (!plain.empty() && plain.back() != ' ')
      plain += ' ';
  return plain;
}

std::vector<SchemaObject> objectsOf(Connection& book, std::string_view database) {
  auto rows =
      book.prepare(database == "main" ? "SELECT type, name, tbl_name, coalesce(sql, '') FROM "
                                        "main.sqlite_schema"
                                      : "SELECT type, name, tbl_name, coalesce(sql, '') FROM "
                                        "other.sqlite_schema");
  std::vector<SchemaObject> objects;
  while (rows.step())
    objects.push_back({rows.column<std::string>(0), rows.column<std::string>(1),
                       rows.column<std::string>(2), oneBlank(rows.column<std::string>(3))});
  std::ranges::sort(objects);
  return objects;
}

std::vector<std::string> listOfText(Connection& book, std::string_view sql) {
  auto rows = book.prepare(sql);
  std::vector<std::string> list;
  while (rows.step())
    list.push_back(rows.column<std::string>(0));
  return list;
}

/// What a column holds where a row says nothing: its DEFAULT, else NULL where that may stand.
std::optional<Cell> silenceOf(Connection& book, const std::optional<std::string>& byDefault,
                              bool mayBeNull) {
  if (!byDefault) return mayBeNull ? std::optional(Cell(CellView{})) : std::nullopt;
  auto value = book.prepare("SELECT " + *byDefault); // of the program's own schema text
  base::require(value.step(), "a default has a value");
  return Cell(value.cell(0));
}

OwnTable tableOf(Connection& book, const std::string& name) {
  OwnTable table;
  table.name = name;
  auto rows = book.prepare(
      "SELECT name, dflt_value, \"notnull\" = 0, name = 'id' AND ?1 = 'entry' OR EXISTS (SELECT 1 "
      "FROM pragma_foreign_key_list(?1) AS key WHERE key.\"from\" = name AND key.\"table\" = "
      "'entry') FROM pragma_table_info(?1) ORDER BY cid");
  rows.bind(1, std::string_view(name));
  while (rows.step())
    table.columns.push_back(
        {rows.column<std::string>(0),
         silenceOf(book, rows.column<std::optional<std::string>>(1), rows.column<bool>(2)),
         rows.column<bool>(3)});
  auto key = book.prepare("SELECT name FROM pragma_table_info(?) WHERE pk > 0 ORDER BY pk");
  key.bind(1, std::string_view(name));
  while (key.step())
    table.inOrder += (table.inOrder.empty() ? "\"" : ", \"") + key.column<std::string>(0) + '"';
  return table;
}

/// The kind of entry that a table's rows hang on, as its trigger has it.
std::int64_t kindIn(Connection& book, const std::string& table) {
  constexpr std::string_view words = " IS NOT ";
  auto rows = book.prepare("SELECT sql FROM sqlite_schema WHERE type = 'trigger' AND name = ?");
  rows.bind(1, std::string_view(table + "_kind"));
  base::require(rows.step(), "each table of records has its trigger of kind");
  const auto sql = rows.column<std::string>(0);
  const auto at = sql.find(words) + words.size();
  return std::stoll(sql.substr(at));
}

/// A name out of a file, fit for a message: short, and of plain signs alone.
std::string shown(const SchemaObject& object) {
  constexpr std::size_t longest = 40;
  std::string name = object.name.substr(0, longest);
  std::ranges::replace_if(
      name, [](char c) { return std::isprint(static_cast<unsigned char>(c)) == 0; }, '?');
  return object.type.substr(0, 8) + " \"" + name + (object.name.size() > longest ? "..." : "") +
         "\"";
}

} // namespace

OwnSchema ownSchema(std::span<const Migration> steps, std::int64_t version) {
  Connection fresh(":memory:", Access::readWrite, Durability::bulk);
  migrate(fresh, steps.first(static_cast<std::size_t>(version)), base::Instant{});
  auto own = ownTables(fresh);
  own.objects = objectsOf(fresh, "main");
  return own;
}

const OwnSchema& newestSchema() {
  static const auto own = ownSchema(migrations(), std::ssize(migrations()));
  return own;
}

OwnSchema ownTables(Connection& book) {
  OwnSchema own;
  const auto names =
      listOfText(book, "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name");
  if (std::ranges::count(names, "entry") == 0) return own; // another program's steps
  own.entry = tableOf(book, "entry");
  own.entriesBetween = "SELECT " + own.entry.list() +
                       " FROM entry WHERE id BETWEEN ?1 AND ?2 AND (id & 2047) = (?1 & 2047) "
                       "ORDER BY id";
  own.idColumn = own.entry.at("id");
  own.kindColumn = own.entry.at("kind");
  own.nthColumn = own.entry.at("nth");
  own.subjectColumn = own.entry.at("subject");
  own.supersedesColumn = own.entry.at("supersedes");
  own.reasonColumn = own.entry.at("reason");
  own.salts = tableOf(book, "child_salt");
  own.erased = tableOf(book, "erased_entry");
  own.act = tableOf(book, "act");
  std::erase_if(own.act.columns, [](const auto& column) { return column.name == "digest"; });
  auto kinds = book.prepare("SELECT number, name FROM entry_kind");
  while (kinds.step())
    own.kinds.emplace(kinds.column<std::int64_t>(0), kinds.column<std::string>(1));
  for (const auto& [number, name] : own.kinds) {
    if (name == "child") own.childKind = number;
    if (name == "retraction") own.retractionKind = number;
  }
  for (const auto& name : names) {
    auto table = tableOf(book, name);
    if (!table.has("entry")) continue;
    table.kind = kindIn(book, name);
    table.ofEntry = "SELECT " + table.list() + " FROM \"" + name + "\" WHERE entry = ?1 ORDER BY " +
                    table.inOrder;
    own.records.push_back(std::move(table));
  }
  std::ranges::sort(own.records, {}, [&](const OwnTable& table) {
    return std::tuple(table.kind, table.name != own.kinds.at(table.kind), table.name);
  });
  return own;
}

std::string OwnTable::list() const {
  std::string names;
  for (const auto& column : columns)
    names += (names.empty() ? "\"" : ", \"") + column.name + '"';
  return names;
}

int OwnTable::at(std::string_view column) const {
  const auto found = std::ranges::find(columns, column, &OwnColumn::name);
  base::require(found != columns.end(), "a column of the table");
  return static_cast<int>(found - columns.begin());
}

bool OwnTable::has(std::string_view column) const {
  return std::ranges::find(columns, column, &OwnColumn::name) != columns.end();
}

std::vector<std::string> strangeObjects(Connection& book, std::string_view database,
                                        const OwnSchema& own) {
  const auto found = objectsOf(book, database);
  std::vector<std::string> strange;
  const auto named = [](const std::vector<SchemaObject>& among, const SchemaObject& wanted) {
    return std::ranges::any_of(among, [&](const SchemaObject& one) {
      return one.type == wanted.type && one.name == wanted.name;
    });
  };
  for (const auto& object : found)
    if (!std::ranges::binary_search(own.objects, object))
      strange.push_back(shown(object) + (named(own.objects, object)
                                             ? " is not as this program makes it"
                                             : " is not one that this program makes"));
  for (const auto& object : own.objects)
    if (!named(found, object)) strange.push_back(shown(object) + " is missing");
  return strange;
}

void requireOwnSchema(Connection& book, std::string_view database, const OwnSchema& own,
                      const base::Path& file) {
  const auto strange = strangeObjects(book, database, own);
  if (strange.empty()) return;
  const auto more = strange.size() - 1;
  throw Trouble({ErrorCode::storeDamaged,
                 file.string() + ": " + strange.front() +
                     (more > 0 ? " (and " + std::to_string(more) + " more)" : std::string()) +
                     "; nothing was read from it; keep this file and open the latest backup"});
}

} // namespace gk::store
