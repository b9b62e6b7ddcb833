#pragma once

#include "roster/days/clinic_day.h"

#include <cstdint>
#include <functional>
#include <vector>

namespace gk::roster {

using PersonalKeyId = base::Id<struct PersonalKeyTag>;
using DaySignatureId = base::Id<struct DaySignatureTag>;
using RecoveryCodeId = base::Id<struct RecoveryCodeTag>;
using PassphraseChangeId = base::Id<struct PassphraseChangeTag>;
using Bytes = std::vector<std::uint8_t>;

/// What a member signs with. The secret is sealed under the member's own passphrase; a new
/// passphrase is a correction that keeps the public key, and so is a revoking.
struct PersonalKey {
  using Key = PersonalKeyId;
  MemberId member;
  Bytes publicKey;          ///< Ed25519, 32 bytes
  Bytes salt;               ///< this and the rest as vault::WrappedKey
  std::int64_t passes;      ///< of Argon2id
  std::int64_t memoryBytes; ///< of Argon2id
  Bytes nonce;
  Bytes box;
  bool revoked = false; ///< it signs nothing from then on
  bool operator==(const PersonalKey&) const = default;
};

/// What a signer answers for.
enum class Capacity { clinical, completeness };

/// The last act of one laptop: its chain of digests reaches back over all it ever wrote.
struct ChainHead {
  base::LaptopId laptop;
  std::int64_t sequence; ///< of the last row of the act
  Bytes digest;          ///< of the act, 32 bytes
  bool operator==(const ChainHead&) const = default;
};

/// The day's student equation as it was signed.
struct SignedCounts {
  int consented = 0;
  int screened = 0;
  int absent = 0;
  int declined = 0;
  int left = 0;
  int withdrawn = 0;
  int onHold = 0;
  int notReached = 0;
  bool operator==(const SignedCounts&) const = default;
};

/// What one of the two who close a day signed: all that the logbook said before that act.
struct DaySignature {
  using Key = DaySignatureId;
  DayId day;
  ClosureId closure;
  MemberId signer;
  Capacity capacity;
  std::optional<PersonalKeyId> key; ///< none: by name only
  SignedCounts counts;
  int schema;                     ///< number of the schema that the history was written under
  std::vector<ChainHead> heads{}; ///< by laptop
  Bytes signature{};              ///< 64 bytes; empty by name only
  bool operator==(const DaySignature&) const = default;
};

/// A printed code was made that opens the names, or withdrawn.
struct RecoveryCode {
  using Key = RecoveryCodeId;
  bool withdrawn = false;
  bool operator==(const RecoveryCode&) const = default;
};

/// The logbook's passphrase was changed, on the laptop that wrote this. What it opens is no record.
struct PassphraseChange {
  using Key = PassphraseChangeId;
  Bytes keyName; ///< as BookKey::name; zeros for the key that the book began with
  bool operator==(const PassphraseChange&) const = default;
};

/// The bytes that a signature is over (docs/formats.md, Signatures): all of `signature` but itself,
/// in whose book, of which closure, and the moment of the act. `entered` gives each identity as it
/// was entered: rows of a copied laptop are called otherwise later (store/digest/lines.h).
Bytes signedBytes(const base::Uuid& book, const DayClosure& closure, const DaySignature& signature,
                  base::LocalInstant at,
                  const std::function<base::Uuid(const base::Uuid&)>& entered);

} // namespace gk::roster

template <>
inline constexpr auto gk::base::enumNames<gk::roster::Capacity> =
    std::to_array<std::string_view>({"clinical", "completeness"});
