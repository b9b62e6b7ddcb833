#pragma once

#include "roster/child/child.h"
#include "roster/keys/keys.h"

#include <string>

namespace gk::roster {

using ErasureId = base::Id<struct ErasureTag>;

/// All that the logbook had of a student was taken out of it, as the law asked. What the student is
/// called on paper stays, so that copies made before can be searched. The field is not `child`:
/// this is about the erasure, and is never erased itself.
struct Erasure {
  using Key = ErasureId;
  ChildId whom;
  std::string number;    ///< on the student's card when it was erased
  std::string request;   ///< who asked, and how: "the mother, letter of 12 November 2026"; no names
  std::string authority; ///< the rule that asks for it
  std::string reason;
  std::optional<PersonalKeyId> key{}; ///< whose author signed it; none: by name only
  Bytes signature{};                  ///< 64 bytes; empty by name only
  bool operator==(const Erasure&) const = default;
};

/// The bytes that its signature is over (docs/formats.md, Signatures): all of it but the signature,
/// in whose book, by whom, and the moment of the act. `entered` as for a day's signature.
Bytes signedBytes(const base::Uuid& book, const Erasure& erasure,
                  const std::optional<base::MemberId>& author, base::LocalInstant at,
                  const std::function<base::Uuid(const base::Uuid&)>& entered);

} // namespace gk::roster
