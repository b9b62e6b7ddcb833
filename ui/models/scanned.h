#pragma once

#include "session/reader.h"

namespace gk::ui {

/// The child of exactly this number; none when the book has no such child.
base::Result<std::optional<roster::ChildId>> childOfNumber(session::Reader& book,
                                                           const std::string& number);

} // namespace gk::ui
