#pragma once

#include "base/progress.h"
#include "reports/report.h"
#include "session/reader.h"

namespace gk::session {

/// All that a report of a year is made from.
struct YearRead {
  roster::ProgramYear year;
  roster::TermId
      first; ///< the earliest term of the year: what was issued of the year is kept there
  reports::TermRecords records; ///< as reports::asOneTerm makes them
  reports::ReportOptions options;
};

/// Up to `asOf`. Fails with `notFound` where no term of the book lies in the year, and with
/// `workCanceled`.
Result<YearRead> readYear(Reader& book, const roster::ProgramYear& year, base::Date asOf,
                          const base::Progress& progress = {});

/// The year of that name; without a name the newest that has begun by `asOf`, else the first.
/// Fails with `notFound`.
Result<Recorded<roster::ProgramYear>>
yearCalled(Reader& book, const std::optional<std::string>& name, base::Date asOf);

} // namespace gk::session
