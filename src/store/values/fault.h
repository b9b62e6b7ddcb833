#pragma once

#include "base/time/clock.h"

#include <optional>
#include <string>

namespace gk::store {

/// One thing that is wrong with a book, as a person reads it. Holds no name.
struct Fault {
  std::string what;                          ///< a sentence without its full stop
  std::string child{};                       ///< the number of the child whose record it is
  std::optional<base::LocalInstant> since{}; ///< when the act was made that it is of
  std::string doNow{};                       ///< a sentence without its full stop
};

/// All of it in one line.
std::string sentence(const Fault& fault);

} // namespace gk::store
