#pragma once

#include "reports/retention/retention_facts.h"

#include <QString>

namespace gk::ui {

/// What a list calls it.
QString factorWords(reports::Factor factor);

} // namespace gk::ui
