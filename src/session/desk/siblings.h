#pragma once

#include "session/session.h"

#include <span>

namespace gk::session {

/// A guardian's phone that was corrected.
struct NewPhone {
  std::string guardian;
  std::string from;
  std::string to;
};

/// Guardians of the same name whose phone is another now, and who had one.
std::vector<NewPhone> newPhones(const Identity& before, const Identity& after);

/// Other students who have such a guardian, by name, with the old phone. Phones are compared by
/// their digits, names without accents and case.
Result<std::vector<KnownChild>> alsoReachedAt(Session& session, roster::ChildId but,
                                              std::span<const NewPhone> phones);

/// The same correction for one of them.
Result<base::Done> correctPhone(Session& session, By by, const KnownChild& child,
                                std::span<const NewPhone> phones, const std::string& reason);

} // namespace gk::session
