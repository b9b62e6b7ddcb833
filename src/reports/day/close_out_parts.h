#pragma once

#include "reports/day/close_out.h"
#include "reports/records/day_view.h"

namespace gk::reports {

/// The parts of a close-out, each from the same view.
DayEquation equationOf(const DayView& view);
/// Of a sheet whose unfinished teeth, lights, papers and questions are found already.
std::vector<Blocker> blockersOf(const DayView& view, const CloseOut& sheet);
std::vector<DayException> exceptionsOf(const DayView& view);
std::vector<SupplyLine> suppliesOf(const DayView& view);
/// Lights that were amber in the morning or changed during the day, and that no one has read since
/// their last cure nor passed over.
std::vector<LightToRead> lightsToRead(const DayView& view);
std::vector<LaptopLine> laptopsOf(const DayView& view);
std::vector<IncidentLine> incidentsOf(const DayView& view);
std::vector<SigningLine> signingsOf(const DayView& view);
std::vector<LateEntry> lateEntriesOf(const DayView& view);
std::vector<ConfirmedLine> confirmedOf(const DayView& view);
/// Letters as their records tell, the others as they were counted.
std::vector<PaperLine> papersOf(const DayRecords& records);
bool wasPaperCounted(const DayRecords& records);

} // namespace gk::reports
