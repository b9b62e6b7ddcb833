#pragma once

#include "support/clinic.h"

namespace gk::test {

/// A clinic day over chair, board, import, merge and close-out, with undo and redo, one child
/// stopped half way; every act is acknowledged with one byte, after the verb that made it has
/// returned from its commit.
void clinicDay(const base::Path& book, session::BookKind kind, int acknowledge);

} // namespace gk::test
