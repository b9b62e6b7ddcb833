#pragma once

#include "base/identity/entry.h"
#include "kit/readiness.h"

#include <QStringList>

#include <span>

namespace gk::ui {

/// "3 of 8 checked" while items wait; then what failed or was passed over; empty when
/// all is well.
QString readinessWords(std::span<const base::Recorded<kit::ReadinessCheck>> answers);

/// What is asked about an item, as it is read aloud.
QString readinessQuestion(kit::ReadinessItem item);

} // namespace gk::ui
