#include "store/entries/record_io.h"
#include "store/records/key_rows.h"

namespace gk::store {

GK_RECORD(roster::PersonalKey)
GK_RECORD(roster::DaySignature)
GK_RECORD(roster::RecoveryCode)
GK_RECORD(roster::BookKey)
GK_RECORD(roster::PassphraseChange)

void Rows<roster::DaySignature>::writeParts(Connection& connection, base::EntryId entry,
                                            const roster::DaySignature& signature) {
  int place = 0;
  for (const auto& head : signature.heads)
    connection
        .prepare("INSERT INTO day_signature_head (entry, place, laptop, sequence, digest) VALUES "
                 "(?, ?, ?, ?, ?)")
        .bindAll(entry, place++, head.laptop, head.sequence,
                 std::span<const std::uint8_t>(head.digest))
        .run();
}

void Rows<roster::DaySignature>::readParts(Connection& connection, base::EntryId entry,
                                           roster::DaySignature& signature) {
  eachPart(connection,
           "SELECT laptop, sequence, digest FROM day_signature_head WHERE entry = ?1 "
           "ORDER BY place",
           entry, [&](RowReader& row) {
             signature.heads.push_back({.laptop = row, .sequence = row, .digest = row});
           });
}

void Rows<roster::BookKey>::writeParts(Connection& connection, base::EntryId entry,
                                       const roster::BookKey& key) {
  int place = 0;
  for (const auto& one : key.earlier)
    connection
        .prepare("INSERT INTO book_key_earlier (entry, place, name, nonce, box) VALUES (?, ?, ?, "
                 "?, ?)")
        .bindAll(entry, place++, std::span<const std::uint8_t>(one.name),
                 std::span<const std::uint8_t>(one.nonce), std::span<const std::uint8_t>(one.box))
        .run();
}

void Rows<roster::BookKey>::readParts(Connection& connection, base::EntryId entry,
                                      roster::BookKey& key) {
  eachPart(connection,
           "SELECT name, nonce, box FROM book_key_earlier WHERE entry = ?1 ORDER BY place", entry,
           [&](RowReader& row) { key.earlier.push_back({.name = row, .nonce = row, .box = row}); });
}

} // namespace gk::store
