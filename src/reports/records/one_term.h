#pragma once

#include "reports/records/inputs.h"
#include "roster/program/program_year.h"

namespace gk::reports {

/// The records of the terms that overlap a year, as if the year were one long term: each child is
/// counted once in it, and so every count of a term has its meaning for the year. Days outside the
/// year are of no term. Forms of a term count when their term overlaps the year. Of what was said
/// once a term (enrollment, meals) the latest term that says it counts. `terms` are the oldest
/// first, each up to its own end or the date of the report; the last one holds all that ever was of
/// every child. Precondition: there is one.
TermRecords asOneTerm(std::vector<TermRecords> terms, const roster::ProgramYear& year,
                      base::Date asOf);

} // namespace gk::reports
