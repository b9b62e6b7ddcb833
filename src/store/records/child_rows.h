#pragma once

#include "roster/child/background.h"
#include "roster/child/child.h"
#include "store/rows/rows.h"

namespace gk::store {

template <>
struct Rows<roster::Child> {
  static constexpr std::string_view table = "child";
  static constexpr std::string_view columns =
      "number, birth_year, birth_month, sex, school, grade, room, provisional, note, left_from, "
      "left_because";
  template <class Row>
  static void write(Row& row, const roster::Child& c) {
    row << c.number << c.birth.year << c.birth.month << c.sex << c.school << c.grade << c.room
        << c.provisional << c.note << (c.left ? std::optional(c.left->from) : std::nullopt)
        << (c.left ? std::optional(std::string(base::nameOf(c.left->why))) : std::nullopt);
  }
  static roster::Child read(RowReader& row) {
    return {.number = row,
            .birth = {.year = row, .month = row},
            .sex = row,
            .school = row,
            .grade = row,
            .room = row,
            .provisional = row,
            .note = row,
            .left = leaving(row)};
  }
  /// Both of its columns, or neither.
  static std::optional<roster::Leaving> leaving(RowReader& row) {
    const auto from = row.take<std::optional<base::Date>>();
    if (!from) return std::nullopt;
    return roster::Leaving{*from, row.take<roster::LeftBecause>()};
  }
};

template <>
struct Rows<roster::Background> {
  static constexpr std::string_view table = "background";
  static constexpr std::string_view columns = "child, groups, payer";
  template <class Row>
  static void write(Row& row, const roster::Background& b) {
    row << b.child << b.groups << b.payer;
  }
  static roster::Background read(RowReader& row) {
    return {.child = row, .groups = row, .payer = row};
  }
};

} // namespace gk::store
