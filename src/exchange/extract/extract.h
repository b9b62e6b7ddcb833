#pragma once

#include "base/random.h"
#include "exchange/extract/records.h"

#include <iosfwd>

namespace gk::exchange {

enum class Scope { day, term };

/// Writes the records of a clinic day or a term as JSON without anything that names a child: no
/// name, number, room or free text, the birth month for the birth date, and a pseudonym of this
/// export alone for every identity. schema/extract.schema.json says what is in it,
/// docs/decisions/0008-exports.md why. Only children whose form allows "data for reports" on a day
/// of the export; the others are counted. De-identified is not anonymous: a single line can still
/// be recognized by who knows the child. One line a child, in the order of the pseudonyms; the same
/// bytes for the same records and randomness.
void writeExtract(const Records& records, Scope scope, base::Random& random, std::ostream& out);

} // namespace gk::exchange

template <>
inline constexpr auto
    gk::base::enumNames<gk::exchange::Scope> = std::to_array<std::string_view>({"day", "term"});
