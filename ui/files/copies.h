#pragma once

#include "base/result.h"
#include "session/session.h"
#include "ui/asking/context.h"
#include "ui/support/text.h"

#include <optional>

namespace gk::ui {

/// After a merge asked, in its words: whether a person says that the disk or the logbook was
/// copied, so that both are to be joined (`storeForked`), or that students are to be erased here
/// too (`storeErases`), whose entries she types the number of. What is agreed to now as well, or
/// none. Precondition: isAsked(why).
std::optional<session::Agreed> agreedNow(Context& context, const base::Error& why,
                                         session::Agreed before);
inline const QString notMerged = u"Not merged. Nothing is lost: both logbooks are as they were."_s;
/// Whether the merge stopped to ask.
bool isAsked(const base::Error& why);

/// What a merge brought, a clause; of copies that were joined as well.
QString mergedWords(const session::Merged& merged);

} // namespace gk::ui
