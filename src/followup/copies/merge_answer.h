#pragma once

#include "base/enum_names.h"
#include "base/identity/entry.h"
#include "roster/child/child.h"

#include <optional>
#include <string>

namespace gk::followup {

using MergeAnswerId = base::Id<struct MergeAnswerTag>;

enum class MergeVerdict { keptOne, bothStand };

/// What a person said about two laptops' words on one child: two visits of one day, or, with
/// `other`, two cards that may be one child's.
struct MergeAnswer {
  using Key = MergeAnswerId;
  base::DayId day;
  roster::ChildId child;                  ///< of two cards the one that is kept
  std::optional<roster::ChildId> other{}; ///< the other card
  std::optional<base::LaptopId> kept{};   ///< whose visit is kept, of two visits
  MergeVerdict verdict = MergeVerdict::bothStand;
  int seen = 2; ///< visits that there were; with one more the question is asked again
  std::string note{};
  bool operator==(const MergeAnswer&) const = default;
};

} // namespace gk::followup

template <>
inline constexpr auto gk::base::enumNames<gk::followup::MergeVerdict> =
    std::to_array<std::string_view>({"one is kept", "both stand"});
