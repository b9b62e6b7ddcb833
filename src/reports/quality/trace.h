#pragma once

#include "reports/print/table.h"
#include "reports/records/term_view.h"

#include <string_view>

namespace gk::reports {

/// Every lot and every light with how many teeth and children it touched, whatever the term: from
/// here a recall begins. The first column is what `traceLot` and `traceLight` take.
std::vector<Table> traceOverview(const TermView& view);

/// Every tooth that a lot touched, finished or not, or for varnish every child: number, school,
/// date and the last check, and the schools to be told. Children by number alone. Lots of one
/// number are all traced, of one material where it is given. None when no lot is called so.
std::optional<std::vector<Table>> traceLot(const TermView& view, std::string_view lot,
                                           std::string_view material = {});

/// Likewise every tooth whose last full cure was under this light.
std::optional<std::vector<Table>> traceLight(const TermView& view, std::string_view tag);

} // namespace gk::reports
