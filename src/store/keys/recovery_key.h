#pragma once

#include "store/sqlite/connection.h"
#include "store/values/key_row.h"

#include <optional>

namespace gk::store {

/// The key once more, under the recovery code; none where there is no code.
std::optional<KeyRow> recoveryKey(Connection& book);
/// In place of what was there; none takes it away. Inside a transaction.
void keepRecoveryKey(Connection& book, const std::optional<KeyRow>& key);
/// Whether it is as it was written.
bool isRecoveryWhole(Connection& book);
/// Whether there is none, or the history says that one was made and not withdrawn.
bool isRecoveryKnown(Connection& book);

} // namespace gk::store
