#include "kit/readiness.h"

#include "base/text/text.h"
#include "kit/display_names.h"

#include <map>

namespace gk::kit {

using base::Error;
using base::ErrorCode;

base::Result<base::Done> checkReadiness(const ReadinessCheck& check) {
  if (check.answer != ReadinessAnswer::done && base::trim(check.reason).empty())
    return Error{ErrorCode::ruleReason, "the " + std::string(base::displayName(check.item)) +
                                            " is " + std::string(base::displayName(check.answer)) +
                                            ": say why in a few words"};
  return base::Done{};
}

bool isException(ReadinessAnswer answer) {
  return answer == ReadinessAnswer::failed || answer == ReadinessAnswer::passedOver;
}

std::vector<base::Recorded<ReadinessCheck>>
newestOfEach(std::span<const base::Recorded<ReadinessCheck>> rows) {
  std::map<ReadinessItem, const base::Recorded<ReadinessCheck>*> newest;
  for (const auto& row : rows) {
    auto& kept = newest[row.value.item];
    if (!kept || kept->stamp.entry < row.stamp.entry) kept = &row;
  }
  std::vector<base::Recorded<ReadinessCheck>> found;
  for (const auto& [item, row] : newest)
    found.push_back(*row);
  return found;
}

} // namespace gk::kit
