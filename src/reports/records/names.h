#pragma once

#include "roster/child/child.h"

#include <map>
#include <string>

namespace gk::reports {

/// What to call each child, handed over by whoever may know. A child that is not here, as while
/// the vault is locked, is shown by number.
using Names = std::map<roster::ChildId, std::string>;

} // namespace gk::reports
