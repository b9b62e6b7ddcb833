#pragma once

#include "base/result.h"
#include "session/session.h"
#include "ui/asking/prompter.h"

#include <optional>

namespace gk::ui {

/// After a merge asked, in its words: whether a person says that the disk or the logbook was
/// copied, so that both are to be joined (`storeForked`), or that students are to be erased here
/// too (`storeErases`). What is agreed to now as well; none when it is refused, or when the merge
/// failed for another reason.
std::optional<session::Agreed> agreedNow(Prompter& prompter, const base::Error& why,
                                         session::Agreed before);
/// Whether the merge stopped to ask.
bool isAsked(const base::Error& why);

/// What a merge brought, a clause; of copies that were joined as well.
QString mergedWords(const session::Merged& merged);

} // namespace gk::ui
