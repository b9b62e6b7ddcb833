#include "office/estimate_csv.h"

#include "base/csv.h"
#include "base/text.h"

#include <map>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

Error at(const base::CsvRow& row, std::string_view column, ErrorCode code, std::string_view what) {
  return {code, "line " + std::to_string(row.line) + ", column " + std::string(column) + ": " +
                    std::string(what)};
}

/// A column by its name, and the cells under it.
class Column {
 public:
  static Result<Column> of(const base::CsvTable& table, std::string_view name) {
    const auto place = table.column(name);
    if (!place) return place.error();
    return Column(*place, name);
  }

  [[nodiscard]] std::string_view name() const { return name_; }

  /// Not blank.
  [[nodiscard]] Result<std::string> label(const base::CsvRow& row) const {
    auto text = std::string(base::trim(row.cells.at(place_)));
    if (text.empty()) return at(row, name_, ErrorCode::csvMalformed, "blank; write a label");
    return text;
  }

  [[nodiscard]] Result<double> number(const base::CsvRow& row) const {
    const auto text = base::trim(row.cells.at(place_));
    const auto number = base::parseDouble(text);
    if (!number)
      return at(row, name_, ErrorCode::csvMalformed,
                text.empty() ? std::string("blank; write a number") : number.error().detail);
    return number;
  }

  [[nodiscard]] Result<double> count(const base::CsvRow& row) const {
    auto count = number(row);
    if (count && *count < 0)
      return at(row, name_, ErrorCode::estimateInput, "a count cannot be negative");
    return count;
  }

 private:
  Column(std::size_t place, std::string_view name) : place_(place), name_(name) {}

  std::size_t place_;
  std::string_view name_;
};

struct Pair {
  double whole;
  double part;
};

/// Two counts of one row, the second no more than the first.
Result<Pair> pairOf(const base::CsvRow& row, const Column& whole, const Column& part) {
  const auto all = whole.count(row);
  if (!all) return all.error();
  const auto some = part.count(row);
  if (!some) return some.error();
  if (*some > *all) return at(row, part.name(), ErrorCode::estimateInput, "more than examined");
  return Pair{*all, *some};
}

Result<base::CsvTable> tableOf(std::string_view csv) {
  auto table = base::parseCsv(csv);
  if (table && table->rows.empty())
    return Error{ErrorCode::csvMalformed, "line 2: there is no row under the header"};
  return table;
}

} // namespace

Result<RetentionCounts> readRetention(std::string_view csv) {
  const auto table = tableOf(csv);
  if (!table) return table.error();
  const auto child = Column::of(*table, "child");
  if (!child) return child.error();
  const auto examined = Column::of(*table, "examined");
  if (!examined) return examined.error();
  const auto retained = Column::of(*table, "retained");
  if (!retained) return retained.error();
  const auto cluster = Column::of(*table, "cluster"); // not needed

  std::map<std::string, estimates::Cluster> clusters;
  std::map<std::string, std::pair<std::string, double>> children; // cluster and teeth
  for (const auto& row : table->rows) {
    const auto who = child->label(row);
    if (!who) return who.error();
    const auto where = cluster ? cluster->label(row) : who;
    if (!where) return where.error();
    const auto counts = pairOf(row, *examined, *retained);
    if (!counts) return counts.error();
    for (const auto* column : {&*examined, &*retained}) {
      const auto count = *column->count(row);
      if (count != static_cast<double>(static_cast<std::int64_t>(std::min(count, 1e9))))
        return at(row, column->name(), ErrorCode::estimateInput, "teeth are whole numbers");
    }
    auto& known = children.try_emplace(*who, *where, 0.0).first->second;
    if (known.first != *where)
      return at(row, "cluster", ErrorCode::estimateInput,
                "this child is in another cluster on an earlier line");
    known.second += counts->whole;
    auto& sum = clusters.try_emplace(*where, estimates::Cluster{0, 0}).first->second;
    sum.examined += counts->whole;
    sum.retained += counts->part;
  }
  RetentionCounts out{{}, 0};
  for (const auto& [label, sum] : clusters)
    out.clusters.push_back(sum);
  for (const auto& [label, known] : children)
    if (known.second > 0) ++out.children;
  return out;
}

Result<std::vector<estimates::Exposure>> readExposures(std::string_view csv) {
  const auto table = tableOf(csv);
  if (!table) return table.error();
  const auto child = Column::of(*table, "child");
  if (!child) return child.error();
  const auto exposure = Column::of(*table, "exposure");
  if (!exposure) return exposure.error();
  const auto examined = Column::of(*table, "examined");
  if (!examined) return examined.error();
  const auto affected = Column::of(*table, "affected");
  if (!affected) return affected.error();

  std::map<std::string, std::size_t> children;
  std::vector<estimates::Exposure> rows;
  for (const auto& row : table->rows) {
    const auto who = child->label(row);
    if (!who) return who.error();
    const auto years = exposure->number(row);
    if (!years) return years.error();
    const auto counts = pairOf(row, *examined, *affected);
    if (!counts) return counts.error();
    const auto place = children.try_emplace(*who, children.size()).first->second;
    rows.push_back({*years, counts->whole, counts->part, place});
  }
  return rows;
}

} // namespace gk::office
