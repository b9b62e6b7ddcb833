#pragma once

#include "reports/print/table.h"
#include "reports/retention/retention_curve.h"

namespace gk::reports {

Table curveTable(const RetentionCurve& usual, const RetentionCurve& worst,
                 const RetentionCurve& wholeOrPart);

} // namespace gk::reports
