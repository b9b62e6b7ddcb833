#include "estimates/numbers/checks.h"

#include "base/text/text.h"

#include <cmath>

namespace gk::estimates {

base::Error refused(std::string detail) {
  return {base::ErrorCode::estimateInput, std::move(detail)};
}

std::string shown(double value) {
  const bool whole = std::isfinite(value) && std::floor(value) == value;
  return base::fixed(value, whole ? 0 : 4);
}

base::Result<base::Done> checkCount(std::string_view name, double value) {
  if (value >= 0 && value <= 1e9) return base::Done{};
  return refused(std::string(name) + " is " + shown(value) +
                 "; give a number from 0 to 1,000,000,000.");
}

base::Result<base::Done> checkWhole(std::string_view name, double value) {
  if (auto checked = checkCount(name, value); !checked) return checked;
  if (std::floor(value) == value) return base::Done{};
  return refused(std::string(name) + " is " + shown(value) +
                 "; teeth are counted in whole numbers.");
}

base::Result<base::Done> checkPart(std::string_view where, double kept, double examined) {
  const std::string begin(where);
  if (auto checked = checkCount(begin + ": the count examined", examined); !checked) return checked;
  if (auto checked = checkCount(begin + ": the count kept", kept); !checked) return checked;
  if (kept <= examined) return base::Done{};
  return refused(begin + ": " + shown(kept) + " kept of " + shown(examined) +
                 " examined; only what was examined can count as kept, so correct one of the two.");
}

base::Result<base::Done> checkShare(std::string_view name, double value) {
  if (value >= 0 && value <= 1) return base::Done{};
  return refused(std::string(name) + " is " + shown(value) +
                 "; give a share from 0 to 1, such as 0.07 for 7 %.");
}

base::Result<base::Done> checkLevel(double level) {
  if (level >= 0.5 && level <= 0.9999) return base::Done{};
  return refused("The confidence level is " + shown(level) +
                 "; give one from 0.5 to 0.9999, such as 0.95.");
}

} // namespace gk::estimates
