#pragma once

#include "base/identity/id.h"
#include "base/random.h"

#include <string>

namespace gk::exchange {

/// Stands for identities in one export. The salt is made for it and kept nowhere, so that two
/// exports cannot be joined by them and no one can go back to the book's own identities.
class Pseudonyms {
 public:
  explicit Pseudonyms(base::Random& random);

  /// 32 hexadecimal digits, the same for the same identity.
  [[nodiscard]] std::string of(const base::Uuid& id) const;

 private:
  std::string salt_;
};

} // namespace gk::exchange
