#pragma once

#include "roster/child.h"
#include "roster/clinic_day.h"
#include "roster/consent.h"
#include "roster/program.h"
#include "roster/team.h"
#include "store/identity_row.h"
#include "store/rows.h"

namespace gk::store {

template <>
struct Rows<roster::Program> {
  static constexpr std::string_view table = "program";
  static constexpr std::string_view columns =
      "name, county, phone, notation, supervision, authorizing_dentist, agreement_until, "
      "privacy_footing, suppress_below, varnish_interval_days, primary_teeth_offered, "
      "etch_seconds, etch_again_wet_seconds, etch_again_adding_seconds, rinse_seconds";
  static void write(RowWriter& row, const roster::Program& p) {
    row << p.name << p.county << p.phone << p.notation << p.supervision << p.authorizingDentist
        << p.agreementUntil << p.privacyFooting << p.suppressBelow << p.varnishIntervalDays
        << p.primaryTeethOffered << p.times.etch << p.times.etchAgainWet << p.times.etchAgainAdding
        << p.times.rinse;
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
            .varnishIntervalDays = row,
            .primaryTeethOffered = row,
            .times = {.etch = row, .etchAgainWet = row, .etchAgainAdding = row, .rinse = row}};
  }
};

template <>
struct Rows<roster::Term> {
  static constexpr std::string_view table = "term";
  static constexpr std::string_view columns = "name, start_on, end_on";
  static void write(RowWriter& row, const roster::Term& t) { row << t.name << t.start << t.end; }
  static roster::Term read(RowReader& row) {
    return {.name = row, .start = row, .end = row, .holidays = {}};
  }
  static void writeParts(Connection& connection, base::EntryId entry, const roster::Term& term);
  static void readParts(Connection& connection, base::EntryId entry, roster::Term& term);
};

template <>
struct Rows<roster::School> {
  static constexpr std::string_view table = "school";
  static constexpr std::string_view columns = "name, code";
  static void write(RowWriter& row, const roster::School& s) { row << s.name << s.code; }
  static roster::School read(RowReader& row) { return {.name = row, .code = row}; }
};

template <>
struct Rows<roster::Enrolment> {
  static constexpr std::string_view table = "enrolment";
  static constexpr std::string_view columns = "term, school, grade, pupils";
  static void write(RowWriter& row, const roster::Enrolment& e) {
    row << e.term << e.school << e.grade << e.pupils;
  }
  static roster::Enrolment read(RowReader& row) {
    return {.term = row, .school = row, .grade = row, .pupils = row};
  }
};

template <>
struct Rows<roster::ClinicDay> {
  static constexpr std::string_view table = "clinic_day";
  static constexpr std::string_view columns = "term, school, day_on, team, reason, cancelled";
  static void write(RowWriter& row, const roster::ClinicDay& d) {
    row << d.term << d.school << d.date << d.team << d.reason << d.cancelled;
  }
  static roster::ClinicDay read(RowReader& row) {
    return {.term = row,
            .school = row,
            .date = row,
            .team = row,
            .reason = row,
            .cancelled = row};
  }
};

template <>
struct Rows<roster::DayClosure> {
  static constexpr std::string_view table = "day_closure";
  static constexpr std::string_view columns = "day, clinical, coordinator";
  static void write(RowWriter& row, const roster::DayClosure& c) {
    row << c.day << c.clinical << c.coordinator;
  }
  static roster::DayClosure read(RowReader& row) {
    return {.day = row, .clinical = row, .coordinator = row};
  }
};

template <>
struct Rows<roster::Member> {
  static constexpr std::string_view table = "member";
  static constexpr std::string_view columns = "name, initials, role, licence, licence_until, may";
  static void write(RowWriter& row, const roster::Member& m) {
    row << m.name << m.initials << m.role << m.licence << m.licenceUntil << m.may;
  }
  static roster::Member read(RowReader& row) {
    return {.name = row,
            .initials = row,
            .role = row,
            .licence = row,
            .licenceUntil = row.maybe(),
            .may = row};
  }
};

template <>
struct Rows<roster::Child> {
  static constexpr std::string_view table = "child";
  static constexpr std::string_view columns =
      "number, birth_year, birth_month, sex, school, grade, room, provisional, note";
  static void write(RowWriter& row, const roster::Child& c) {
    row << c.number << c.birth.year << c.birth.month << c.sex << c.school << c.grade << c.room
        << c.provisional << c.note;
  }
  static roster::Child read(RowReader& row) {
    return {.number = row,
            .birth = {.year = row, .month = row},
            .sex = row,
            .school = row,
            .grade = row,
            .room = row,
            .provisional = row,
            .note = row};
  }
};

template <>
struct Rows<SealedIdentity> {
  static constexpr std::string_view table = "sealed_identity";
  static constexpr std::string_view columns = "child, nonce, box";
  static void write(RowWriter& row, const SealedIdentity& s) {
    row << s.child << s.nonce << s.box;
  }
  static SealedIdentity read(RowReader& row) { return {.child = row, .nonce = row, .box = row}; }
};

template <>
struct Rows<roster::Consent> {
  static constexpr std::string_view table = "consent";
  static constexpr std::string_view columns =
      "child, term, state, allowed, signer, signer_reviewed, signed_on, received_on, valid_from, "
      "valid_until, history, note";
  static void write(RowWriter& row, const roster::Consent& c) {
    row << c.child << c.term << c.state << c.allowed << c.signer << c.signerReviewed << c.signedOn
        << c.receivedOn << c.validFrom << c.validUntil << c.history << c.note;
  }
  static roster::Consent read(RowReader& row) {
    return {.child = row,
            .term = row,
            .state = row,
            .allowed = row,
            .signer = row,
            .signerReviewed = row,
            .signedOn = row.maybe(),
            .receivedOn = row.maybe(),
            .validFrom = row.maybe(),
            .validUntil = row.maybe(),
            .history = row,
            .note = row};
  }
};

template <>
struct Rows<roster::ConsentOverride> {
  static constexpr std::string_view table = "consent_override";
  static constexpr std::string_view columns = "child, care_on, clinician, reason";
  static void write(RowWriter& row, const roster::ConsentOverride& o) {
    row << o.child << o.on << o.clinician << o.reason;
  }
  static roster::ConsentOverride read(RowReader& row) {
    return {.child = row, .on = row, .clinician = row, .reason = row};
  }
};

template <>
struct Rows<roster::MedicalFlag> {
  static constexpr std::string_view table = "medical_flag";
  static constexpr std::string_view columns = "child, flag, action, detail, resolved, decided";
  static void write(RowWriter& row, const roster::MedicalFlag& f) {
    row << f.child << f.kind << f.action << f.detail << f.resolved << f.decided;
  }
  static roster::MedicalFlag read(RowReader& row) {
    return {.child = row,
            .kind = row,
            .action = row,
            .detail = row,
            .resolved = row,
            .decided = row};
  }
};

} // namespace gk::store
