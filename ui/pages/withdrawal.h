#pragma once

#include "ui/support/context.h"

namespace gk::ui {

/// Whether a form of the child still says yes, so that somebody has to say how it was withdrawn.
base::Result<bool> aFormSaysYes(session::Reader& book, roster::ChildId child);

inline constexpr const char* withdrawalQuestion =
    "Who withdrew the consent, how, and who took the word?";

/// Asks that where a form still says yes; empty where none does. None when the person backed out or
/// said nothing.
base::Result<std::optional<QString>> askWithdrawal(Context& context, const QString& name,
                                                   roster::ChildId child);

} // namespace gk::ui
