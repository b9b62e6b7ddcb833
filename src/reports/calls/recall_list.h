#pragma once

#include "reports/calls/urgent_form.h"
#include "reports/print/table.h"
#include "reports/records/inputs.h"
#include "reports/records/names.h"

#include <set>

namespace gk::reports {

/// What is recalled: a lot, of one material where makers' numbers meet, or a light.
struct Recalled {
  std::string lot{};
  std::string material{};
  std::string light{}; ///< its tag; then no lot is meant
};

/// Whom it touched: every term's placements; for varnish, the children of `records`' term.
std::set<roster::ChildId> childrenTouched(const TermRecords& records, const Recalled& what);

/// One line a child with the teeth, the guardians and their phones, by school and name. It names
/// children: it is for whoever phones, and goes no further.
Table recallList(const TermRecords& records, const Recalled& what, const Names& names,
                 const CallPeople& people);

} // namespace gk::reports
