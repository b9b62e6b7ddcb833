#pragma once

#include "base/files/machine.h"
#include "base/random.h"
#include "base/time/clock.h"

#include <functional>
#include <iosfwd>
#include <optional>
#include <string>

namespace gk::office {

/// All of the world that a call touches beside the files it names; everything outlives the call.
struct Surroundings {
  base::Clock& clock;
  base::Random& random;
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
  /// The value of an environment variable, or none.
  std::function<std::optional<std::string>(const std::string& name)> environment;
  base::Machine machine{};
};

} // namespace gk::office
