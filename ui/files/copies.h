#pragma once

#include "base/result.h"
#include "session/session.h"
#include "ui/asking/context.h"
#include "ui/support/text.h"

#include <functional>

namespace gk::ui {

using Absorb =
    std::function<base::Result<session::Merged>(const session::Agreed&, const base::Progress&)>;
using MergeSaid = std::function<QString(const session::Merged&)>;
using MergeDone = std::function<void(const base::Result<QString>&)>;

/// Merges by `absorb`, as long work of `owner` that has the book to itself. Where it stops to ask,
/// a person says whether the disk or the logbook was copied, so that both are to be joined
/// (`storeForked`), whether that laptop's clock was wrong (`storeAhead`), or that students are to
/// be erased here too (`storeErases`), whose entries she types the number of; then it is done
/// again. `then` is given the `words` for what was merged, or that nothing was.
void mergeAsking(Context& context, QObject* owner, const Absorb& absorb, const MergeSaid& words,
                 const MergeDone& then, const session::Agreed& agreed = {});

/// What a merge brought, a clause; of copies that were joined as well.
QString mergedWords(const session::Merged& merged);

} // namespace gk::ui
