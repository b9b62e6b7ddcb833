#pragma once

#include "base/identity/id.h"
#include "roster/child/child.h"
#include "roster/days/clinic_day.h"

#include <string>

namespace gk::chairside {

using PaperId = base::Id<struct PaperTag>;

/// That a child's visit was written on paper first and typed from it. The date of care is the
/// day's; who typed it and when stands on every entry, as always.
struct PaperSheet {
  using Key = PaperId;
  roster::ChildId child;
  roster::DayId day;
  std::string number;     ///< printed on the sheet; one sheet, one child
  base::MemberId checker; ///< compared the entries with the sheet; another than who typed
  bool operator==(const PaperSheet&) const = default;
};

} // namespace gk::chairside
