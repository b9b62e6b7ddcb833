#pragma once

#include "base/enum_names.h"
#include "base/identity/entry.h"

#include <span>
#include <string>
#include <vector>

namespace gk::kit {

using ReadinessId = base::Id<struct ReadinessTag>;

/// What is looked at before the first child sits down, in the order in which it is answered. The
/// list is common practice, no source; the sterilizer's spore test is asked for at least weekly.
enum class ReadinessItem {
  airLine, ///< blown clear of moisture and oil
  light,   ///< read on its meter, against its own baseline
  lots,    ///< in date, none set aside
  sterilizer,
  suctionAndWater,
  eyes, ///< eye protection, the light's filter, eyewash
  emergencyKit,
  clock ///< read aloud against the school's
};

enum class ReadinessAnswer { done, failed, notApplicable, passedOver };

/// One item of the morning's readiness, answered. It tells; it blocks no care.
struct ReadinessCheck {
  using Key = ReadinessId;
  base::DayId day;
  ReadinessItem item;
  ReadinessAnswer answer;
  std::string reason; ///< why it was not done; empty when it was
  std::string detail; ///< what was seen: the meter's number, the date of the spore test
  bool operator==(const ReadinessCheck&) const = default;
};

/// Fails with `ruleReason` when it is not done and no one says why.
base::Result<base::Done> checkReadiness(const ReadinessCheck& check);

/// Failed or passed over: the close-out lists it.
bool isException(ReadinessAnswer answer);

/// One row for each item, in the order of the items; where two laptops answered, the newest.
std::vector<base::Recorded<ReadinessCheck>>
newestOfEach(std::span<const base::Recorded<ReadinessCheck>> rows);

} // namespace gk::kit

template <>
inline constexpr auto gk::base::enumNames<gk::kit::ReadinessItem> =
    std::to_array<std::string_view>({"air line", "curing light", "lots and expiry", "sterilizer",
                                     "suction and water", "eyes", "emergency kit", "clock"});
template <>
inline constexpr auto gk::base::enumNames<gk::kit::ReadinessAnswer> =
    std::to_array<std::string_view>({"done", "failed", "not applicable", "passed over"});
