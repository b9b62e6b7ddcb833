#pragma once

#include "session/reader.h"

namespace gk::ui {

/// The child of exactly this number; none when the book has no such child. `ruleIdentity` where two
/// laptops gave it to two cards: a slip must not seat one of them by chance.
base::Result<std::optional<roster::ChildId>> childOfNumber(session::Reader& book,
                                                           const std::string& number);

/// The number that was typed, with or without its check digit; none when it is no child's number.
std::optional<std::string> numberMeant(const std::string& typed);

} // namespace gk::ui
