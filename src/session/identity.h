#pragma once

#include "roster/child.h"
#include "vault/identity.h"

namespace gk::session {

using Identity = vault::Identity;
using Guardian = vault::Guardian;

} // namespace gk::session
