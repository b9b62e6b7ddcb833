#pragma once

#include "chairside/placement.h"
#include "store/rows/rows.h"

namespace gk::store {

template <>
struct Rows<chairside::AfterCure> {
  static constexpr std::string_view table = "after_cure";
  static constexpr std::string_view columns = "child, day, wiped, bite, note";
  template <class Row>
  static void write(Row& row, const chairside::AfterCure& a) {
    row << a.child << a.day << a.wiped << a.bite << a.note;
  }
  static chairside::AfterCure read(RowReader& row) {
    return {.child = row, .day = row, .wiped = row, .bite = row, .note = row};
  }
};

template <>
struct Rows<chairside::Varnish> {
  static constexpr std::string_view table = "varnish";
  static constexpr std::string_view columns = "child, day, lot";
  template <class Row>
  static void write(Row& row, const chairside::Varnish& v) {
    row << v.child << v.day << v.lot;
  }
  static chairside::Varnish read(RowReader& row) { return {.child = row, .day = row, .lot = row}; }
};

template <>
struct Rows<chairside::DayOutcome> {
  static constexpr std::string_view table = "day_outcome";
  static constexpr std::string_view columns = "child, day, day_end, reason, varnish_skipped";
  template <class Row>
  static void write(Row& row, const chairside::DayOutcome& o) {
    row << o.child << o.day << o.end << o.reason << o.varnishSkipped;
  }
  static chairside::DayOutcome read(RowReader& row) {
    return {.child = row, .day = row, .end = row, .reason = row, .varnishSkipped = row};
  }
};

} // namespace gk::store
