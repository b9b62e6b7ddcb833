#pragma once

#include "reports/funder/earlier_term.h"
#include "reports/publish/published.h"

namespace gk::reports {

/// What a funder or a state asks for, and may have, on one sheet: who the program is, what it did
/// in three sentences, four numbers and two pictures, then the term's key figures in total, each
/// with what it is a share of, and below them methods and limits. Small numbers are hidden as in
/// `published`, which is of these totals. The term before stands beside them as it went out.
/// Precondition of both: the referrals are among what is published.
std::vector<Table> funderSummary(const TermTotals& totals, const Published& published,
                                 const SuppressionRule& rule, const HandedOut& page = {});

/// The tables behind the summary, by school and by grade. What would let a hidden number be worked
/// out from another part is left out, and says so.
std::vector<Table> funderAnnex(const TermView& view, const TermTotals& totals,
                               const Published& published, const SuppressionRule& rule);

/// A page for the principal of each school, or of one: its own figures, with small numbers hidden
/// as in the tables of all schools, and nothing of another school. A school that stands in those in
/// one row with others has no figures of its own.
std::vector<Table> schoolPages(const TermTotals& totals, const Published& published,
                               const SuppressionRule& rule, const std::string& program,
                               std::optional<roster::SchoolId> school = {});

} // namespace gk::reports
