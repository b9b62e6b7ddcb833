#pragma once

#include "base/enum_names.h"
#include "base/identity/id.h"
#include "base/result.h"
#include "roster/child/child.h"
#include "roster/days/clinic_day.h"

#include <string>

namespace gk::chairside {

using AfterCureId = base::Id<struct AfterCureTag>;

enum class Bite { fine, adjusted, notChecked };

/// What was done to the sealants of a child when the last was cured: the unset layer wiped off, and
/// the bite looked at.
struct AfterCure {
  using Key = AfterCureId;
  roster::ChildId child;
  roster::DayId day;
  bool wiped = true;
  Bite bite = Bite::fine;
  std::string note{}; ///< why it was not wiped or not checked
  bool operator==(const AfterCure&) const = default;
};

/// Fails with `ruleReason` where something was left out without a note.
base::Result<base::Done> checkAfterCure(const AfterCure& after);

} // namespace gk::chairside

template <>
inline constexpr auto gk::base::enumNames<gk::chairside::Bite> =
    std::to_array<std::string_view>({"fine", "adjusted, handpiece used", "not checked"});
