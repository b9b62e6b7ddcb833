#pragma once

#include "base/result.h"
#include "session/session.h"
#include "ui/asking/prompter.h"

namespace gk::ui {

/// After `storeForked`, in words of both lines: whether a person says that the disk or the logbook
/// was copied, so that both are to be joined. Nothing else is known that may be done with them.
bool areCopies(Prompter& prompter, const base::Error& why);

/// What a merge brought, a clause; of copies that were joined as well.
QString mergedWords(const session::Merged& merged);

} // namespace gk::ui
