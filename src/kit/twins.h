#pragma once

#include "kit/material.h"

#include <vector>

namespace gk::kit {

/// Whether both rows mean one lot, or one light, that two laptops entered while apart: the same
/// name and number, however they are typed. What keeps children safe and is said of one of them
/// holds of all.
bool areTwins(const Lot& one, const Lot& other);
bool areTwins(const Light& one, const Light& other);

/// Of what twins say differently the careful word counts for each: set aside where any is; all that
/// any contains; the longest of the maker's times; the earliest expiry. What was used up stays each
/// one's own, since it is of one laptop's stock.
void agree(std::vector<base::Recorded<Lot>>& lots);
/// Out of service where any is.
void agree(std::vector<base::Recorded<Light>>& lights);

} // namespace gk::kit
