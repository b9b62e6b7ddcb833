#pragma once

#include "base/enum_names.h"
#include "base/identity/entry.h"
#include "roster/consent/consent.h"
#include "roster/days/clinic_day.h"

#include <string>
#include <vector>

namespace gk::chairside {

using SeatingId = base::Id<struct SeatingTag>;

/// The identity check: what the child said and what the school says must agree.
enum class Identifier { spokenName, birthDate, teacherOrRoom, slipScan, nameTag };
using IdentifierSet = base::EnumSet<Identifier>;

struct Seating {
  using Key = SeatingId;
  roster::ChildId child;
  roster::DayId day;
  IdentifierSet confirmed; ///< at least two, one of them spoken by the child
  bool assented = true;    ///< the child said yes in plain words
  bool historyUnchanged = true;
  std::string changed{};               ///< since the form, as it was said at the seat
  std::vector<roster::FlagId> heard{}; ///< alerts that the operator read before the first glove
  bool operator==(const Seating&) const = default;
};

} // namespace gk::chairside

template <>
inline constexpr auto gk::base::enumNames<gk::chairside::Identifier> =
    std::to_array<std::string_view>({"spoken name", "birth date", "teacher or room", "slip scan",
                                     "name tag"});
