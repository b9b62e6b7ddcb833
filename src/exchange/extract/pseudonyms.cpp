#include "exchange/extract/pseudonyms.h"

#include "crypto/digest.h"

namespace gk::exchange {

Pseudonyms::Pseudonyms(base::Random& random) : salt_(32, '\0') {
  for (auto& byte : salt_)
    byte = static_cast<char>(random.below(256));
}

std::string Pseudonyms::of(const base::Uuid& id) const {
  return crypto::digest(salt_ + id.text()).substr(0, 32);
}

} // namespace gk::exchange
