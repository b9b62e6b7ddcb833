#pragma once

#include "roster/consent/consent.h"
#include "store/rows/rows.h"
#include "store/values/identity_row.h"

namespace gk::store {

template <>
struct Rows<SealedIdentity> {
  static constexpr std::string_view table = "sealed_identity";
  static constexpr std::string_view columns = "child, nonce, box";
  template <class Row>
  static void write(Row& row, const SealedIdentity& s) {
    row << s.child << s.nonce << s.box;
  }
  static SealedIdentity read(RowReader& row) { return {.child = row, .nonce = row, .box = row}; }
};

template <>
struct Rows<roster::Consent> {
  static constexpr std::string_view table = "consent";
  static constexpr std::string_view columns =
      "child, term, state, allowed, signer, signer_reviewed, signed_on, received_on, valid_from, "
      "valid_until, history, note, version, language";
  template <class Row>
  static void write(Row& row, const roster::Consent& c) {
    row << c.child << c.term << c.state << c.allowed << c.signer << c.signerReviewed << c.signedOn
        << c.receivedOn << c.validFrom << c.validUntil << c.history << c.note << c.version
        << c.language;
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
            .note = row,
            .version = row,
            .language = row};
  }
};

template <>
struct Rows<roster::ConsentOverride> {
  static constexpr std::string_view table = "consent_override";
  static constexpr std::string_view columns = "child, care_on, clinician, reason";
  template <class Row>
  static void write(Row& row, const roster::ConsentOverride& o) {
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
  template <class Row>
  static void write(Row& row, const roster::MedicalFlag& f) {
    row << f.child << f.kind << f.action << f.detail << f.resolved << f.decided;
  }
  static roster::MedicalFlag read(RowReader& row) {
    return {
        .child = row, .kind = row, .action = row, .detail = row, .resolved = row, .decided = row};
  }
};

} // namespace gk::store
