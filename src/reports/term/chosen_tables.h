#pragma once

#include "reports/print/table.h"
#include "reports/term/term_totals.h"

namespace gk::reports {

/// A choice means what it says: a table is of the chosen sealants alone, or it is not shown.

/// Whether anything but the school is chosen: grade, isolation, operator.
bool choosesMoreThanSchool(const Choice& choice);

/// In the place of a table that does not part by what is chosen: its title, no figure, and why.
/// `words` are the choice as a person reads it.
Table notParted(const Table& table, const std::string& words);

/// What is chosen beside a report that does not use it stands on each of its tables, so that paper
/// says it as the screen does. `words` as above.
void noteNotApplied(std::vector<Table>& tables, const std::string& words);

/// The tables of the term under a choice of more than the school: retention by school of the chosen
/// sealants, and every other table as `notParted`. In the order of `termTables`.
std::vector<Table> chosenTermTables(const TermTotals& totals, const RetentionFacts& facts,
                                    const Choice& choice, const std::string& words);

} // namespace gk::reports
