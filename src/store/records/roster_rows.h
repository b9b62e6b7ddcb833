#pragma once

#include "roster/days/clinic_day.h"
#include "roster/days/day_effort.h"
#include "roster/program/meal_eligibility.h"
#include "roster/program/program.h"
#include "roster/team/team.h"
#include "store/records/child_rows.h"
#include "store/rows/rows.h"

namespace gk::store {

template <>
struct Rows<roster::Program> {
  static constexpr std::string_view table = "program";
  static constexpr std::string_view columns =
      "name, county, phone, notation, supervision, authorizing_dentist, agreement_until, "
      "privacy_footing, suppress_below, by_school, varnish_interval_days, primary_teeth_offered, "
      "etch_seconds, etch_again_wet_seconds, etch_again_adding_seconds, rinse_seconds, "
      "authorization_days, benchmark_consented, benchmark_screened, benchmark_sealed, "
      "benchmark_retained";
  template <class Row>
  static void write(Row& row, const roster::Program& p) {
    row << p.name << p.county << p.phone << p.notation << p.supervision << p.authorizingDentist
        << p.agreementUntil << p.privacyFooting << p.suppressBelow << p.bySchool
        << p.varnishIntervalDays << p.primaryTeethOffered << p.times.etch << p.times.etchAgainWet
        << p.times.etchAgainAdding << p.times.rinse << p.authorizationDays << p.benchmarks.consented
        << p.benchmarks.screened << p.benchmarks.sealed << p.benchmarks.retained;
  }
  static roster::Program read(RowReader& row) {
    return {.name = row,
            .county = row,
            .phone = row,
            .notation = row,
            .supervision = row,
            .authorizingDentist = row,
            .agreementUntil = row.maybe(),
            .privacyFooting = row,
            .suppressBelow = row,
            .bySchool = row,
            .varnishIntervalDays = row,
            .primaryTeethOffered = row,
            .times = {.etch = row, .etchAgainWet = row, .etchAgainAdding = row, .rinse = row},
            .authorizationDays = row,
            .benchmarks = {.consented = row.maybe(),
                           .screened = row.maybe(),
                           .sealed = row.maybe(),
                           .retained = row.maybe()}};
  }
};

template <>
struct Rows<roster::Term> {
  static constexpr std::string_view table = "term";
  static constexpr std::string_view columns = "name, start_on, end_on";
  template <class Row>
  static void write(Row& row, const roster::Term& t) {
    row << t.name << t.start << t.end;
  }
  static roster::Term read(RowReader& row) {
    return {.name = row, .start = row, .end = row, .holidays = {}};
  }
  static void writeParts(Connection& connection, base::EntryId entry, const roster::Term& term);
  static void readParts(Connection& connection, base::EntryId entry, roster::Term& term);
};

template <>
struct Rows<roster::School> {
  static constexpr std::string_view table = "school";
  static constexpr std::string_view columns = "name, code, closed_from";
  template <class Row>
  static void write(Row& row, const roster::School& s) {
    row << s.name << s.code << s.closedFrom;
  }
  static roster::School read(RowReader& row) {
    return {.name = row, .code = row, .closedFrom = row.maybe()};
  }
};

template <>
struct Rows<roster::Enrollment> {
  static constexpr std::string_view table = "enrolment";
  static constexpr std::string_view columns = "term, school, grade, pupils";
  template <class Row>
  static void write(Row& row, const roster::Enrollment& e) {
    row << e.term << e.school << e.grade << e.students;
  }
  static roster::Enrollment read(RowReader& row) {
    return {.term = row, .school = row, .grade = row, .students = row};
  }
};

template <>
struct Rows<roster::MealEligibility> {
  static constexpr std::string_view table = "meal_eligibility";
  static constexpr std::string_view columns = "term, school, percent, source";
  template <class Row>
  static void write(Row& row, const roster::MealEligibility& m) {
    row << m.term << m.school << m.percent << m.source;
  }
  static roster::MealEligibility read(RowReader& row) {
    return {.term = row, .school = row, .percent = row, .source = row};
  }
};

template <>
struct Rows<roster::ClinicDay> {
  static constexpr std::string_view table = "clinic_day";
  static constexpr std::string_view columns = "term, school, day_on, team, reason, cancelled";
  template <class Row>
  static void write(Row& row, const roster::ClinicDay& d) {
    row << d.term << d.school << d.date << d.team << d.reason << d.canceled;
  }
  static roster::ClinicDay read(RowReader& row) {
    return {.term = row, .school = row, .date = row, .team = row, .reason = row, .canceled = row};
  }
};

template <>
struct Rows<roster::DayClosure> {
  static constexpr std::string_view table = "day_closure";
  static constexpr std::string_view columns = "day, clinical, coordinator";
  template <class Row>
  static void write(Row& row, const roster::DayClosure& c) {
    row << c.day << c.clinical << c.coordinator;
  }
  static roster::DayClosure read(RowReader& row) {
    return {.day = row, .clinical = row, .coordinator = row};
  }
};

template <>
struct Rows<roster::DayEffort> {
  static constexpr std::string_view table = "day_effort";
  static constexpr std::string_view columns = "day, chairs, open_minutes, taught";
  template <class Row>
  static void write(Row& row, const roster::DayEffort& e) {
    row << e.day << e.chairs << static_cast<int>(e.open.count()) << e.taught;
  }
  static roster::DayEffort read(RowReader& row) {
    return {.day = row,
            .chairs = row,
            .open = roster::minutes(row.take<int>()),
            .people = {},
            .taught = row};
  }
  static void writeParts(Connection& connection, base::EntryId entry,
                         const roster::DayEffort& effort);
  static void readParts(Connection& connection, base::EntryId entry, roster::DayEffort& effort);
};

template <>
struct Rows<roster::Member> {
  static constexpr std::string_view table = "member";
  static constexpr std::string_view columns = "name, initials, role, licence, licence_until, may";
  template <class Row>
  static void write(Row& row, const roster::Member& m) {
    row << m.name << m.initials << m.role << m.license << m.licenseUntil << m.may;
  }
  static roster::Member read(RowReader& row) {
    return {.name = row,
            .initials = row,
            .role = row,
            .license = row,
            .licenseUntil = row.maybe(),
            .may = row};
  }
};

} // namespace gk::store
