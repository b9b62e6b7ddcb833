#pragma once

#include "ui/visit/chair_visit.h"

namespace gk::ui {

/// What opens the question at every stage of a visit.
inline constexpr int flagKey = Qt::Key_Backspace;

/// Whether a medical stop or question of the child in the chair is not decided yet.
bool hasOpenFlag(const ChairFile& file);

/// Asks which, and what was decided, in words that stay in the record. Only who may decide for the
/// program as a clinician is asked at all.
void decideFlag(ChairVisit& visit);

} // namespace gk::ui
