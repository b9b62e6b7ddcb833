#pragma once

#include "roster/keys/book_key.h"
#include "roster/keys/keys.h"
#include "store/rows/rows.h"

namespace gk::store {

template <>
struct Rows<roster::PersonalKey> {
  static constexpr std::string_view table = "personal_key";
  static constexpr std::string_view columns =
      "member, public_key, salt, kdf_passes, kdf_bytes, nonce, box, revoked";
  template <class Row>
  static void write(Row& row, const roster::PersonalKey& k) {
    row << k.member << k.publicKey << k.salt << k.passes << k.memoryBytes << k.nonce << k.box
        << k.revoked;
  }
  static roster::PersonalKey read(RowReader& row) {
    return {.member = row,
            .publicKey = row,
            .salt = row,
            .passes = row,
            .memoryBytes = row,
            .nonce = row,
            .box = row,
            .revoked = row};
  }
};

template <>
struct Rows<roster::DaySignature> {
  static constexpr std::string_view table = "day_signature";
  static constexpr std::string_view columns =
      "day, closure, signer, capacity, personal_key, consented, screened, absent, declined, "
      "left_school, withdrawn, on_hold, not_reached, schema, signature";
  template <class Row>
  static void write(Row& row, const roster::DaySignature& s) {
    row << s.day << s.closure << s.signer << s.capacity << s.key << s.counts.consented
        << s.counts.screened << s.counts.absent << s.counts.declined << s.counts.left
        << s.counts.withdrawn << s.counts.onHold << s.counts.notReached << s.schema << s.signature;
  }
  static roster::DaySignature read(RowReader& row) {
    return {.day = row,
            .closure = row,
            .signer = row,
            .capacity = row,
            .key = row.maybe(),
            .counts = {.consented = row,
                       .screened = row,
                       .absent = row,
                       .declined = row,
                       .left = row,
                       .withdrawn = row,
                       .onHold = row,
                       .notReached = row},
            .schema = row,
            .heads = {},
            .signature = row};
  }
  static void writeParts(Connection& connection, base::EntryId entry,
                         const roster::DaySignature& signature);
  static void readParts(Connection& connection, base::EntryId entry,
                        roster::DaySignature& signature);
};

template <>
struct Rows<roster::RecoveryCode> {
  static constexpr std::string_view table = "recovery_code";
  static constexpr std::string_view columns = "withdrawn";
  template <class Row>
  static void write(Row& row, const roster::RecoveryCode& c) {
    row << c.withdrawn;
  }
  static roster::RecoveryCode read(RowReader& row) { return {.withdrawn = row}; }
};

template <>
struct Rows<roster::PassphraseChange> {
  static constexpr std::string_view table = "passphrase_change";
  static constexpr std::string_view columns = "key_name";
  template <class Row>
  static void write(Row& row, const roster::PassphraseChange& c) {
    row << c.keyName;
  }
  static roster::PassphraseChange read(RowReader& row) { return {.keyName = row}; }
};

template <>
struct Rows<roster::BookKey> {
  static constexpr std::string_view table = "book_key";
  static constexpr std::string_view columns = "name, reason";
  template <class Row>
  static void write(Row& row, const roster::BookKey& k) {
    row << k.name << k.reason;
  }
  static roster::BookKey read(RowReader& row) { return {.name = row, .reason = row}; }
  static void writeParts(Connection& connection, base::EntryId entry, const roster::BookKey& key);
  static void readParts(Connection& connection, base::EntryId entry, roster::BookKey& key);
};

} // namespace gk::store
