#pragma once

#include "base/identity/entry.h"

#include <functional>
#include <string_view>

namespace gk::store {

class Act;

/// What a book begins with.
struct FirstAct {
  base::By by;
  base::LocalInstant at;
  std::function<void(Act&)> work;
  std::string_view verb{};
};

} // namespace gk::store
