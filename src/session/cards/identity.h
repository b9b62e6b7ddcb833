#pragma once

#include "base/identity/entry.h"
#include "roster/child/child.h"
#include "roster/child/likeness.h"
#include "vault/identity.h"

namespace gk::session {

using Identity = vault::Identity;
using Guardian = vault::Guardian;

/// Who a child was said to be, by whom and why.
struct IdentityRevision {
  base::Stamp stamp;
  Identity identity;
};

/// Who it is, as roster::likeness compares.
roster::Person personOf(const Identity& identity);

/// Whether a text that everyone can read names the child or a guardian.
bool namesSomebody(const std::string& text, const Identity& before, const Identity& now);

} // namespace gk::session
