#pragma once

#include "base/result.h"
#include "vault/identity.h"

#include <cstdint>
#include <span>
#include <vector>

namespace gk::vault {

/// Version 1, numbers with the low byte first:
///   1 byte    version, 1
///   4 bytes   birth: year (2), month, day
///   texts     first, middle, last, name used, room, teacher, note: length (2), then UTF-8
///   1 byte    number of guardians; for each the texts name, relation, phone, language
///   text      the school's student ID, where there is one
///   zeros     to the next multiple of 128 bytes, so that a box's length tells little of a name
/// There is one way to write an identity. Precondition: checkIdentity passes.
std::vector<std::uint8_t> encode(const Identity& identity);

/// Fails with `vaultDamaged` on anything that `encode` would not have written.
base::Result<Identity> decode(std::span<const std::uint8_t> bytes);

} // namespace gk::vault
