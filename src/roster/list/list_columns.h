#pragma once

#include "base/identity/id.h"
#include "roster/program/program.h"

namespace gk::roster {

using ListColumnsId = base::Id<struct ListColumnsTag>;

/// How the lists of one school are read, as someone said at an import: headings, and no cell.
struct ListColumns {
  using Key = ListColumnsId;
  SchoolId school;
  std::string columns; ///< as rememberedLayout gives it
  bool operator==(const ListColumns&) const = default;
};

} // namespace gk::roster
