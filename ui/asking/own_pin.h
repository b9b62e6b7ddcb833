#pragma once

#include "ui/asking/context.h"

namespace gk::ui {

/// The PIN of the one who answers for an act, asked for where she has one: "the consent override".
/// None when she backed out, or too many were wrong and the names are locked.
std::optional<session::OwnPin> askOwnPin(Context& context, const std::optional<base::MemberId>& who,
                                         const QString& act);

/// "Odile Fernsby", for a question; empty where the team cannot be read.
QString memberName(session::Session& book, base::MemberId who);

} // namespace gk::ui
