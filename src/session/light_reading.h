#pragma once

#include "base/result.h"
#include "base/time/date.h"
#include "kit/light.h"

namespace gk::session {

class Reader;

/// Whether a light, or its twin that another laptop entered, reads red that day. `not.found` where
/// there is no such light.
base::Result<bool> readsRed(Reader& book, kit::LightId light, base::Date on);

} // namespace gk::session
