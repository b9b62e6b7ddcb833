#pragma once

#include "roster/days/day_effort.h"

#include <cstdint>

namespace gk::roster {

using CostId = base::Id<struct CostTag>;

/// Whole cents of the program's own currency.
using Cents = std::int64_t;

enum class CostKind { staff, supplies, travel, equipment, other };

struct CostLine {
  CostKind kind;
  Cents amount; ///< above 0
  bool operator==(const CostLine&) const = default;
};

/// What a school day cost the program, entered beside its hours. A kind that is not there cost
/// nothing.
struct DayCost {
  using Key = CostId;
  DayId day;
  std::vector<CostLine> lines; ///< each kind once, in the order of the kinds
  bool operator==(const DayCost&) const = default;

  [[nodiscard]] Cents of(CostKind kind) const;
  [[nodiscard]] Cents total() const;
};

/// Fails with `numberMalformed` for a kind that stands twice, an amount that is not above 0, or one
/// above a million.
base::Result<base::Done> checkCosts(const DayCost& cost);

/// "staff 412.50, supplies 60", in any order; "hygienist 42/h" is the day's hours of that role at
/// so much an hour, and goes into staff. Empty is no cost. `people` are the hours of the day. Fails
/// with `numberMalformed` or `textMalformed`, naming the part.
base::Result<std::vector<CostLine>> parseCosts(std::string_view text,
                                               const std::vector<RoleTime>& people);
/// "staff 412.50, supplies 60.00".
std::string costsText(const std::vector<CostLine>& lines);
/// "1,204.50".
std::string centsText(Cents amount);

} // namespace gk::roster

template <>
inline constexpr auto gk::base::enumNames<gk::roster::CostKind> =
    std::to_array<std::string_view>({"staff", "supplies", "travel", "equipment", "other"});
