#include "store/key_rows.h"
#include "store/record_io.h"

namespace gk::store {

GK_RECORD(roster::PersonalKey)
GK_RECORD(roster::DaySignature)
GK_RECORD(roster::RecoveryCode)

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

} // namespace gk::store
