#pragma once

#include "base/identity/id.h"
#include "base/time/date.h"

#include <string>

namespace gk::followup {

using DayEnvelopeId = base::Id<struct DayEnvelopeTag>;

/// That a day envelope was sealed or merged here. Each is taken once.
struct DayEnvelope {
  using Key = DayEnvelopeId;
  std::string name; ///< of the envelope itself, as base::Uuid writes it
  base::Date madeOn;
  bool merged = false; ///< else sealed here
  bool operator==(const DayEnvelope&) const = default;
};

} // namespace gk::followup
