#pragma once

#include "kit/light.h"
#include "kit/lot_count.h"
#include "kit/material.h"
#include "kit/readiness.h"
#include "store/rows/rows.h"

namespace gk::store {

template <>
struct Rows<kit::Light> {
  static constexpr std::string_view table = "light";
  static constexpr std::string_view columns =
      "tag, type, makers_least, baseline, baseline_with_sleeve, meter, in_service";
  template <class Row>
  static void write(Row& row, const kit::Light& l) {
    row << l.tag << l.type << l.makersLeast << l.baseline << l.baselineWithSleeve << l.meter
        << l.inService;
  }
  static kit::Light read(RowReader& row) {
    return {.tag = row,
            .type = row,
            .makersLeast = row.take<kit::MilliwattPerSquareCm>(),
            .baseline = row.take<kit::MilliwattPerSquareCm>(),
            .baselineWithSleeve = row,
            .meter = row,
            .inService = row};
  }
};

template <>
struct Rows<kit::MeterReading> {
  static constexpr std::string_view table = "meter_reading";
  static constexpr std::string_view columns =
      "light, read_on, value, with_sleeve, meter, tip_cleaned";
  template <class Row>
  static void write(Row& row, const kit::MeterReading& r) {
    row << r.light << r.on << r.value << r.withSleeve << r.meter << r.tipCleaned;
  }
  static kit::MeterReading read(RowReader& row) {
    return {.light = row,
            .on = row,
            .value = row.take<kit::MilliwattPerSquareCm>(),
            .withSleeve = row,
            .meter = row,
            .tipCleaned = row};
  }
};

template <>
struct Rows<kit::Lot> {
  static constexpr std::string_view table = "lot";
  static constexpr std::string_view columns =
      "material_kind, material, lot, expiry, makers_seconds, contains, quarantined, "
      "quarantine_reason, used_up_on";
  template <class Row>
  static void write(Row& row, const kit::Lot& l) {
    row << l.kind << l.material << l.lot << l.expiry << l.makersTime << l.contains << l.quarantined
        << l.quarantineReason << l.usedUpOn;
  }
  static kit::Lot read(RowReader& row) {
    return {.kind = row,
            .material = row,
            .lot = row,
            .expiry = row,
            .makersTime = row,
            .contains = row,
            .quarantined = row,
            .quarantineReason = row,
            .usedUpOn = row.maybe()};
  }
};

template <>
struct Rows<kit::LotCount> {
  static constexpr std::string_view table = "lot_count";
  static constexpr std::string_view columns = "day, lot, opened, remaining";
  template <class Row>
  static void write(Row& row, const kit::LotCount& c) {
    row << c.day << c.lot << c.opened << c.left;
  }
  static kit::LotCount read(RowReader& row) {
    return {.day = row, .lot = row, .opened = row, .left = row.maybe()};
  }
};

template <>
struct Rows<kit::CureTime> {
  static constexpr std::string_view table = "cure_time";
  static constexpr std::string_view columns = "light, material, seconds";
  template <class Row>
  static void write(Row& row, const kit::CureTime& c) {
    row << c.light << c.material << c.seconds;
  }
  static kit::CureTime read(RowReader& row) {
    return {.light = row, .material = row, .seconds = row};
  }
};

template <>
struct Rows<kit::ReadinessCheck> {
  static constexpr std::string_view table = "readiness_check";
  static constexpr std::string_view columns = "day, item, answer, reason, detail";
  template <class Row>
  static void write(Row& row, const kit::ReadinessCheck& r) {
    row << r.day << r.item << r.answer << r.reason << r.detail;
  }
  static kit::ReadinessCheck read(RowReader& row) {
    return {.day = row, .item = row, .answer = row, .reason = row, .detail = row};
  }
};

} // namespace gk::store
