#pragma once

#include "chairside/authorization.h"
#include "chairside/paper.h"
#include "store/rows/rows.h"

namespace gk::store {

template <>
struct Rows<chairside::Authorization> {
  static constexpr std::string_view table = "authorization";
  static constexpr std::string_view columns =
      "child, dentist, how, given_on, valid_until, withdrawn, note";
  template <class Row>
  static void write(Row& row, const chairside::Authorization& a) {
    row << a.child << a.dentist << a.how << a.on << a.until << a.withdrawn << a.note;
  }
  static chairside::Authorization read(RowReader& row) {
    return {.child = row,
            .teeth = {},
            .dentist = row,
            .how = row,
            .on = row,
            .until = row,
            .withdrawn = row,
            .note = row};
  }
  static void writeParts(Connection& connection, base::EntryId entry,
                         const chairside::Authorization& a);
  static void readParts(Connection& connection, base::EntryId entry, chairside::Authorization& a);
};

template <>
struct Rows<chairside::PaperSheet> {
  static constexpr std::string_view table = "paper_sheet";
  static constexpr std::string_view columns = "child, day, number, checker";
  template <class Row>
  static void write(Row& row, const chairside::PaperSheet& p) {
    row << p.child << p.day << p.number << p.checker;
  }
  static chairside::PaperSheet read(RowReader& row) {
    return {.child = row, .day = row, .number = row, .checker = row};
  }
};

} // namespace gk::store
