#pragma once

#include "store/digest/act_digest.h"

namespace gk::store {

/// Where this laptop's hand stands: the next row has a higher number and a greater identity.
struct Position {
  std::int64_t sequence = 0;
  base::Uuid last{};
  crypto::Hash digest{}; ///< of its last act
};

Position readPosition(Connection& book, base::LaptopId laptop);

} // namespace gk::store
