#pragma once

#include "kit/material.h"
#include "roster/consent.h"

namespace gk::chairside {

/// Fails with `ruleAllergy` when an unresolved stop flag forbids what the lot contains: acrylate,
/// rosin and latex are three separate stops.
base::Result<base::Done> checkAllergy(const kit::Lot& lot,
                                      std::span<const base::Recorded<roster::MedicalFlag>> flags);

} // namespace gk::chairside
