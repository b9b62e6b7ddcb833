#pragma once

#include "session/rights/verbs.h"
#include "store/book.h"

#include <string>
#include <vector>

namespace gk::session {

/// What an act did, as a person reads it: "Sealant placed, upper right first molar". No name in it.
base::Result<std::string> actWords(store::Book& book, const VerbRule& rule,
                                   const std::vector<store::HistoryLine>& rows);

/// Whether sealant was on the tooth at one of these rows: it is in a mouth then.
bool hasFlowed(store::Book& book, const std::vector<store::HistoryLine>& rows);

} // namespace gk::session
