#pragma once

#include "reports/calls/recall_list.h"
#include "session/reader.h"

namespace gk::session {

/// Everyone whom a lot or a light touched, with guardians and phones. Fails with `vaultLocked`; a
/// child that has no name is listed by number.
Result<reports::Table> recallList(Reader& book, const reports::TermRecords& records,
                                  const reports::Recalled& what);

} // namespace gk::session
