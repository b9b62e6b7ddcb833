#pragma once

#include "visits/chair.h"

namespace gk::demo {

/// What a child's sealants of last fall look like now: whole, but for one at most.
struct Recheck {
  std::optional<int> tooth{}; ///< ISO 3950
  followup::Held held = followup::Held::whole;
  followup::CannotAssess why = followup::CannotAssess::none;
};

/// One for each of the `students` that are found, adding up to the school's year. Parts and losses
/// are at most one for each child.
std::vector<Recheck> planChecks(std::size_t school, const std::vector<Student>& students);

/// The light that the sealants of this child were cured with in 2025.
kit::LightId lightOf2025(const Story& story, std::size_t school, std::size_t student);

/// Looks at all earlier placements; enters a check of each.
void look(const Chair& chair, roster::ChildId child, const Recheck& recheck,
          followup::CheckAction actionOnPart);

/// Seats, looks, repairs what is partly there and holds, and ends as a recheck only. A lost sealant
/// waits for the spring visit.
void recheckVisit(const Chair& chair, roster::ChildId child, const Recheck& recheck);

} // namespace gk::demo
