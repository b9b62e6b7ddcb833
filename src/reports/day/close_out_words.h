#pragma once

#include "reports/day/close_out.h"

namespace gk::reports {

// What a sheet says of itself as a whole, the same on screen, on paper and in JSON.

/// "Signed on November 17, 2026 at 15:10 by OF (clinical, own key), IM (by name only, no key). Code
/// of this sheet: ...", "Reopened on ...", "Signed again on ...": each a sentence without its stop.
std::vector<std::string> signingWords(const CloseOut& day);
/// "3 of 14 placements not confirmed: OF 3"; empty when each operator has confirmed her own.
std::string unconfirmedWords(const CloseOut& day);
/// Which laptops' entries are in no backup yet; empty when all are.
std::string backupWords(const std::vector<LaptopLine>& laptops);
/// Whether the day may be signed, or by whom it is; true in every state of the sheet.
std::string verdictOf(const CloseOut& day);

} // namespace gk::reports
