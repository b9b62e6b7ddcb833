#include "store/own_schema.h"

#include <algorithm>
#include <cctype>

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

std::vector<std::string> columnsOf(Connection& book, const std::string& table) {
  auto rows = book.prepare("SELECT name FROM pragma_table_info(?) ORDER BY cid");
  rows.bind(1, std::string_view(table));
  std::vector<std::string> columns;
  while (rows.step())
    columns.push_back(rows.column<std::string>(0));
  return columns;
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
  OwnSchema own{objectsOf(fresh, "main"), {}, columnsOf(fresh, "entry")};
  for (const auto& object : own.objects) {
    if (object.type != "table") continue;
    auto columns = columnsOf(fresh, object.name);
    if (std::ranges::find(columns, "entry") != columns.end())
      own.records.push_back({object.name, std::move(columns)});
  }
  return own;
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
