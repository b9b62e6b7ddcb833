#pragma once

#include "roster/card_join.h"
#include "roster/day_cost.h"
#include "roster/list_columns.h"
#include "roster/program_year.h"
#include "store/rows.h"

namespace gk::store {

template <>
struct Rows<roster::ProgramYear> {
  static constexpr std::string_view table = "program_year";
  static constexpr std::string_view columns = "name, year_kind, start_on, end_on";
  template <class Row>
  static void write(Row& row, const roster::ProgramYear& y) {
    row << y.name << y.kind << y.start << y.end;
  }
  static roster::ProgramYear read(RowReader& row) {
    return {.name = row, .kind = row, .start = row, .end = row};
  }
};

template <>
struct Rows<roster::DayCost> {
  static constexpr std::string_view table = "day_cost";
  static constexpr std::string_view columns = "day";
  template <class Row>
  static void write(Row& row, const roster::DayCost& c) {
    row << c.day;
  }
  static roster::DayCost read(RowReader& row) { return {.day = row, .lines = {}}; }
  static void writeParts(Connection& connection, base::EntryId entry, const roster::DayCost& cost);
  static void readParts(Connection& connection, base::EntryId entry, roster::DayCost& cost);
};

template <>
struct Rows<roster::ListColumns> {
  static constexpr std::string_view table = "list_columns";
  static constexpr std::string_view columns = "school, columns";
  template <class Row>
  static void write(Row& row, const roster::ListColumns& c) {
    row << c.school << c.columns;
  }
  static roster::ListColumns read(RowReader& row) { return {.school = row, .columns = row}; }
};

template <>
struct Rows<roster::CardJoin> {
  static constexpr std::string_view table = "card_join";
  static constexpr std::string_view columns = "child, other";
  template <class Row>
  static void write(Row& row, const roster::CardJoin& j) {
    row << j.child << j.other;
  }
  static roster::CardJoin read(RowReader& row) { return {.child = row, .other = row}; }
};

} // namespace gk::store
