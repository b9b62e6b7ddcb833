#include "office/tables/tables_json.h"

#include "office/tables/json_writer.h"

#include <cmath>

namespace gk::office {

namespace {

using reports::Number;
using reports::Range;
using reports::Share;

struct AsJson {
  JsonWriter& json;
  Digits digits;

  void operator()(const std::string& text) const { json.value(text); }
  void operator()(reports::Missing /*none*/) const { json.null(); }
  void operator()(reports::Unknown /*none*/) const { json.null(); }
  void operator()(reports::Withheld hidden) const { json.value(reports::Cell(hidden).text()); }
  void operator()(reports::Count count) const { json.value(count.value); }
  void operator()(reports::OutOf of) const {
    json.beginObject();
    json.field("count", of.part);
    json.field("of", of.whole);
    json.endObject();
  }
  void operator()(Share share) const { json.value(exact(share)); }
  void operator()(Number number) const { json.value(exact(number)); }
  void operator()(const Range& range) const {
    json.beginObject();
    ends(range);
    json.endObject();
  }
  void operator()(const reports::Estimate& estimate) const {
    json.beginObject();
    json.key("estimate");
    std::visit(*this, estimate.value);
    if (estimate.range) ends(*estimate.range);
    json.endObject();
  }
  void operator()(reports::YesNo answer) const { json.value(answer.isYes); }
  void operator()(const reports::Word& word) const { json.value(word.stored); }
  void operator()(const reports::Named& named) const { json.value(named.shown); }
  void operator()(base::Date date) const { json.value(date.iso()); }

 private:
  [[nodiscard]] double exact(const auto& figure) const {
    return digits == Digits::all ? figure.value : figure.printed();
  }
  void ends(const Range& range) const {
    const auto end = [&](double value) {
      return range.decimals ? exact(Number{value, *range.decimals}) : exact(Share{value});
    };
    json.field("low", end(range.low));
    json.field("high", end(range.high));
    if (!range.remark.empty()) json.field("remark", withoutComma(range.remark));
  }

 public:
  static std::string_view withoutComma(std::string_view remark) {
    return remark.substr(remark.find_first_not_of(", "));
  }
};

void cellJson(JsonWriter& json, const reports::Cell& cell, Digits digits) {
  const AsJson write{json, digits};
  if (cell.remark().empty()) return std::visit(write, cell.value());
  json.beginObject();
  json.key("value");
  std::visit(write, cell.value());
  json.field("remark", AsJson::withoutComma(cell.remark()));
  json.endObject();
}

void tableJson(JsonWriter& json, const reports::Table& table, Digits digits) {
  json.beginObject();
  json.field("key", keyOf(table));
  json.field("title", table.title);
  json.arrayField("columns");
  for (const auto& column : table.columns) {
    json.beginObject();
    json.field("key", keyOf(column));
    json.field("heading", column.heading);
    json.field("kind", base::nameOf(column.kind));
    json.field("unit", column.unit);
    json.endObject();
  }
  json.endArray();
  json.arrayField("rows");
  for (const auto& row : table.rows) {
    json.beginObject();
    for (std::size_t i = 0; i < row.size(); ++i) {
      json.key(keyOf(table.columns[i]));
      cellJson(json, row[i], digits);
    }
    json.endObject();
  }
  json.endArray();
  json.field("notes", table.notes);
  json.endObject();
}

} // namespace

void writeTablesJson(std::string_view title, const std::string& version,
                     std::span<const reports::Table> tables, Digits digits, std::ostream& out) {
  JsonWriter json(out);
  json.beginObject();
  json.field("title", title);
  json.field("version", version);
  tablesField(json, tables, digits);
  json.endObject();
}

void tablesField(JsonWriter& json, std::span<const reports::Table> tables, Digits digits) {
  json.arrayField("tables");
  for (const auto& table : tables)
    tableJson(json, table, digits);
  json.endArray();
}

} // namespace gk::office
