#pragma once

#include "ui/forms/area.h"

namespace gk::ui {

/// The forms of people's own passphrases and of the recovery code. Passphrases are asked for in
/// dialogs that show dots, never in fields that a history could keep.

/// Of the person who enters: the first one, another, or one after a revoked key.
AreaForm ownPassphraseForm(Context& context);
AreaForm revokeKeyForm(Context& context);
/// All rights and the key end; then the unsigned days that the person worked on are named, and
/// another key of the names is offered.
AreaForm leftTeamForm(Context& context);

/// Made, shown and printed once.
AreaForm recoveryCodeForm(Context& context);
AreaForm withdrawCodeForm(Context& context);
/// Another key of the names; then who enters the own passphrase once, and which copies still open,
/// are named.
AreaForm replaceKeyForm(Context& context);

/// "set", "none: signs by name only", "revoked".
std::string keyWords(session::Session& book, base::MemberId who);

} // namespace gk::ui
