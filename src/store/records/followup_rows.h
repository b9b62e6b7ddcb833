#pragma once

#include "followup/copies/issued_report.h"
#include "followup/letter.h"
#include "followup/referral.h"
#include "followup/retention_check.h"
#include "store/rows/rows.h"

namespace gk::store {

template <>
struct Rows<followup::RetentionCheck> {
  static constexpr std::string_view table = "retention_check";
  static constexpr std::string_view columns =
      "placement, child, day, check_kind, blinded, occlusal, buccal, lingual, why, health, lift, "
      "action, note";
  template <class Row>
  static void write(Row& row, const followup::RetentionCheck& c) {
    row << c.placement << c.child << c.day << c.kind << c.blinded << c.occlusal << c.buccal
        << c.lingual << c.why << c.health << c.lift << c.action << c.note;
  }
  static followup::RetentionCheck read(RowReader& row) {
    return {.placement = row,
            .child = row,
            .day = row,
            .kind = row,
            .blinded = row,
            .occlusal = row,
            .buccal = row,
            .lingual = row,
            .why = row,
            .health = row,
            .lift = row,
            .action = row,
            .note = row};
  }
};

template <>
struct Rows<followup::Referral> {
  static constexpr std::string_view table = "referral";
  static constexpr std::string_view columns =
      "child, day, urgency, reason, due, referred_to, state";
  template <class Row>
  static void write(Row& row, const followup::Referral& r) {
    row << r.child << r.day << r.urgency << r.reason << r.due << r.to << r.state;
  }
  static followup::Referral read(RowReader& row) {
    return {.child = row,
            .day = row,
            .urgency = row,
            .reason = row,
            .due = row,
            .to = row,
            .state = row};
  }
};

template <>
struct Rows<followup::ContactAttempt> {
  static constexpr std::string_view table = "contact_attempt";
  static constexpr std::string_view columns = "child, day, channel, result, note";
  template <class Row>
  static void write(Row& row, const followup::ContactAttempt& c) {
    row << c.child << c.day << c.channel << c.result << c.note;
  }
  static followup::ContactAttempt read(RowReader& row) {
    return {.child = row, .day = row, .channel = row, .result = row, .note = row};
  }
};

template <>
struct Rows<followup::Letter> {
  static constexpr std::string_view table = "letter";
  static constexpr std::string_view columns =
      "child, day, guardian, language, interpreter, variant, facts, template_digest, text_digest, "
      "written, prints, state, replaces";
  template <class Row>
  static void write(Row& row, const followup::Letter& l) {
    row << l.child << l.day << l.guardian << l.language << l.interpreter << l.variant << l.facts
        << l.templateDigest << l.textDigest << l.written << l.prints << l.state << l.replaces;
  }
  static followup::Letter read(RowReader& row) {
    return {.child = row,
            .day = row,
            .guardian = row,
            .language = row,
            .interpreter = row,
            .variant = row,
            .facts = row,
            .templateDigest = row,
            .textDigest = row,
            .written = row,
            .prints = row,
            .state = row,
            .replaces = row.maybe()};
  }
};

template <>
struct Rows<followup::IssuedReport> {
  static constexpr std::string_view table = "issued_report";
  static constexpr std::string_view columns =
      "term, report, choice, version, issued, figures, digest, release";
  template <class Row>
  static void write(Row& row, const followup::IssuedReport& r) {
    row << r.term << r.report << r.choice << r.version << r.issued << r.figures << r.digest
        << r.release;
  }
  static followup::IssuedReport read(RowReader& row) {
    return {.term = row,
            .report = row,
            .choice = row,
            .version = row,
            .issued = row,
            .figures = row,
            .digest = row,
            .release = row};
  }
};

} // namespace gk::store
