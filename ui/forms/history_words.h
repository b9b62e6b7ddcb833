#pragma once

#include "ui/forms/area.h"

namespace gk::ui {

/// How a thing came to be as it is, newest first, one line a revision: when, by whom, why, and what
/// of `fields` it changed from what to what.
QString wordsOf(const std::vector<Revision>& revisions, const std::vector<Field>& fields,
                const std::vector<base::Recorded<roster::Member>>& members);

} // namespace gk::ui
