#pragma once

#include "followup/copies/day_envelope.h"
#include "roster/child/card_join.h"
#include "roster/consent/form_handout.h"
#include "roster/days/day_cost.h"
#include "roster/days/planned_day.h"
#include "roster/list/list_columns.h"
#include "roster/program/program_year.h"
#include "store/rows/rows.h"

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

template <>
struct Rows<roster::FormHandout> {
  static constexpr std::string_view table = "form_handout";
  static constexpr std::string_view columns =
      "term, school, room, handed_on, copies, version, language";
  template <class Row>
  static void write(Row& row, const roster::FormHandout& h) {
    row << h.term << h.school << h.room << h.on << h.copies << h.version << h.language;
  }
  static roster::FormHandout read(RowReader& row) {
    return {.term = row,
            .school = row,
            .room = row,
            .on = row,
            .copies = row,
            .version = row,
            .language = row};
  }
};

template <>
struct Rows<roster::PlannedDay> {
  static constexpr std::string_view table = "planned_day";
  static constexpr std::string_view columns =
      "term, school, planned_on, team, chairs, people, note, cancelled";
  template <class Row>
  static void write(Row& row, const roster::PlannedDay& p) {
    row << p.term << p.school << p.date << p.team << p.chairs << p.people << p.note << p.canceled;
  }
  static roster::PlannedDay read(RowReader& row) {
    return {.term = row,
            .school = row,
            .date = row,
            .team = row,
            .chairs = row,
            .people = row,
            .note = row,
            .canceled = row};
  }
};

template <>
struct Rows<followup::DayEnvelope> {
  static constexpr std::string_view table = "day_envelope";
  static constexpr std::string_view columns = "name, made_on, merged";
  template <class Row>
  static void write(Row& row, const followup::DayEnvelope& e) {
    row << e.name << e.madeOn << e.merged;
  }
  static followup::DayEnvelope read(RowReader& row) {
    return {.name = row, .madeOn = row, .merged = row};
  }
};

} // namespace gk::store
