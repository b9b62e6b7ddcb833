#include "crypto/ready.h"

#include "base/contract.h"

#include <sodium.h>

namespace gk::crypto {

void makeReady() {
  base::require(sodium_init() >= 0, "the cryptographic library did not start");
}

} // namespace gk::crypto
