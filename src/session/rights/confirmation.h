#pragma once

#include "base/identity/entry.h"

#include <cstdint>
#include <optional>

namespace gk::session {

/// That a member gave her right PIN a moment ago, for one act of her own. Only the session makes
/// one, from that PIN: so no act that asks for it is done in another's name.
class Confirmation {
 public:
  [[nodiscard]] base::MemberId who() const { return who_; }

 private:
  friend class Keyboard;
  Confirmation(base::MemberId who, std::uint64_t number) : who_(who), number_(number) {}

  base::MemberId who_;
  std::uint64_t number_; ///< of those made here; each is good once
};

/// Of the one who answers for an act; none is right for a member who has no PIN.
using OwnPin = std::optional<Confirmation>;

} // namespace gk::session
