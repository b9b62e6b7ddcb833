#include "store/entries/record_io.h"
#include "store/records/authorization_rows.h"
#include "store/records/chairside_rows.h"
#include "store/records/closing_rows.h"

namespace gk::store {

GK_RECORD(chairside::Authorization)
GK_RECORD(chairside::Seating)
GK_RECORD(chairside::Screening)
GK_RECORD(chairside::Field)
GK_RECORD(chairside::TimerStart)
GK_RECORD(chairside::StepRun)
GK_RECORD(chairside::Wet)
GK_RECORD(chairside::Placement)
GK_RECORD(chairside::AfterCure)
GK_RECORD(chairside::Varnish)
GK_RECORD(chairside::DayOutcome)
GK_RECORD(chairside::PaperSheet)

} // namespace gk::store
