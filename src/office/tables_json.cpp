#include "office/tables_json.h"

#include "base/text.h"
#include "office/json_writer.h"

namespace gk::office {

namespace {

void writeCell(JsonWriter& json, const std::string& cell, const reports::Column& column) {
  if (column.number)
    if (const auto number = base::parseDouble(cell)) return json.value(*number);
  json.value(cell);
}

void writeTable(JsonWriter& json, const reports::Table& table) {
  json.beginObject();
  json.field("title", table.title);
  json.arrayField("columns");
  for (const auto& column : table.columns) {
    json.beginObject();
    json.field("heading", column.heading);
    json.field("number", column.number);
    json.endObject();
  }
  json.endArray();
  json.arrayField("rows");
  for (const auto& row : table.rows) {
    json.beginArray();
    for (std::size_t i = 0; i < row.size() && i < table.columns.size(); ++i)
      writeCell(json, row[i], table.columns[i]);
    json.endArray();
  }
  json.endArray();
  json.field("notes", table.notes);
  json.endObject();
}

} // namespace

void writeTablesJson(std::string_view title, const std::string& version,
                     std::span<const reports::Table> tables, std::ostream& out) {
  JsonWriter json(out);
  json.beginObject();
  json.field("title", title);
  json.field("version", version);
  json.arrayField("tables");
  for (const auto& table : tables)
    writeTable(json, table);
  json.endArray();
  json.endObject();
}

} // namespace gk::office
