#pragma once

#include "session/session.h"
#include "ui/asking/context.h"

#include <QString>

#include <functional>

namespace gk::ui {

/// Asks for a place and a passphrase, twice, and seals the logbook there for another laptop. `then`
/// is given a sentence; it is not called when backed out. Fails as DayVerbs::sealDay.
void sealDayEnvelope(Context& context, QObject* owner, base::By by,
                     std::function<void(const base::Result<QString>&)> then);
/// Asks for a day envelope and its passphrase, and merges it. As above.
void mergeDayEnvelope(Context& context, QObject* owner, base::By by,
                      const std::function<void(const base::Result<QString>&)>& then);

} // namespace gk::ui
