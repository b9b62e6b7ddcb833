#pragma once

#include "chairside/screening.h"
#include "kit/material.h"

namespace gk::chairside {

/// Fails with `ruleAllergy` when an unresolved stop flag forbids what the lot contains: acrylate,
/// rosin and latex are three separate stops.
base::Result<base::Done> checkAllergy(const kit::Lot& lot,
                                      std::span<const base::Recorded<roster::MedicalFlag>> flags);

using Flags = std::span<const base::Recorded<roster::MedicalFlag>>;

/// Whether it has to be read before the first glove: an unresolved stop.
bool isAlert(const roster::MedicalFlag& flag);
/// What is kept away from the child: "No latex: gloves, dam and cups without it, from the first
/// glove on".
std::string avoidWords(const roster::MedicalFlag& flag);
/// Fails with `ruleAllergy` naming the first alert that `heard` does not hold.
base::Result<base::Done> checkHeard(std::span<const roster::FlagId> heard, Flags flags);

} // namespace gk::chairside
