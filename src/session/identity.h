#pragma once

#include "roster/child.h"
#include "roster/likeness.h"
#include "vault/identity.h"

namespace gk::session {

using Identity = vault::Identity;
using Guardian = vault::Guardian;

/// Who it is, as roster::likeness compares.
roster::Person personOf(const Identity& identity);

} // namespace gk::session
