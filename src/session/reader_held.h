#pragma once

#include "session/reader.h"
#include "session/roll.h"
#include "store/book.h"
#include "vault/vault.h"

namespace gk::session {

/// What a Reader keeps behind its header, so that a face that asks it needs neither book nor vault.
struct Reader::Held {
  /// The roll, and how much of the book is in it.
  struct RollRead {
    Roll roll{};
    std::optional<store::Edition> edition{}; ///< what it is complete up to, once `isWhole`
    std::optional<base::EntryId> last{};     ///< the last row on it while it is not
    bool isWhole = false;
  };

  store::Book book;
  std::optional<vault::Vault> vault{};
  std::unique_ptr<RollRead> roll{};
};

} // namespace gk::session
