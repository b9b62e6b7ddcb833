#pragma once

#include "session/key_verbs.h"
#include "session/reader_held.h"

namespace gk::session {

struct KeyVerbs::OpenedNames {
  vault::Vault vault;
  std::optional<base::MemberId> who;
};

} // namespace gk::session
