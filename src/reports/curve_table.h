#pragma once

#include "reports/retention_curve.h"
#include "reports/table.h"

namespace gk::reports {

Table curveTable(const RetentionCurve& usual, const RetentionCurve& worst,
                 const RetentionCurve& wholeOrPart);

} // namespace gk::reports
