#pragma once

#include "ui/asking/context.h"

#include <optional>
#include <string>

namespace gk::ui {

/// Whether a form of the child still says yes, so that someone has to say how it was withdrawn.
base::Result<bool> aFormSaysYes(session::Reader& book, roster::ChildId child);

inline constexpr const char* withdrawalQuestion = "Who withdrew consent, how, and who recorded it?";

/// Asks that where a form still says yes; `how` is what was said, to be written with the outcome.
/// False when the person backed out or said nothing.
base::Result<bool> askWithdrawal(Context& context, const QString& name, roster::ChildId child,
                                 std::optional<std::string>& how);

} // namespace gk::ui
