#pragma once

#include "chairside/placement.h"

#include <set>
#include <span>

namespace gk::followup {

using PlacementsConfirmedId = base::Id<struct PlacementsConfirmedTag>;

/// That an operator went through her own placements of a day and they are right, written by herself
/// alone. It is of one laptop's rows: those of hers up to `through`, which is one of them; a later
/// row or a correction is not among them, nor what another laptop has and she did not see.
struct PlacementsConfirmed {
  using Key = PlacementsConfirmedId;
  base::DayId day;
  base::MemberId member;
  base::EntryId through;
  bool operator==(const PlacementsConfirmed&) const = default;
};

/// Which of a day's rows are confirmed. `history` has every word on its placements, also those that
/// were corrected or taken back since.
std::set<base::EntryId>
confirmedRows(std::span<const base::Recorded<chairside::Placement>> history,
              std::span<const base::Recorded<PlacementsConfirmed>> confirmations);

/// The last of these rows on each laptop.
std::vector<base::EntryId>
lastOfEachLaptop(std::span<const base::Recorded<chairside::Placement>> rows);

} // namespace gk::followup
