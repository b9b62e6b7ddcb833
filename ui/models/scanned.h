#pragma once

#include "session/reader.h"

namespace gk::ui {

/// The child of exactly this number; none when the book has no such child. `ruleIdentity` where two
/// laptops gave it to two cards: a slip must not seat one of them by chance.
base::Result<std::optional<roster::ChildId>> childOfNumber(session::Reader& book,
                                                           const std::string& number);

} // namespace gk::ui
