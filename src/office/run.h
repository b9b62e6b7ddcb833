#pragma once

#include "office/call/surroundings.h"

#include <span>

namespace gk::office {

/// Runs one call of groovekeeper-office; `args` are the words after the program's name. Results go
/// to `out`. On trouble one line "groovekeeper-office: code: sentence" goes to `err`, with a code
/// of docs/errors.md. Returns 0 when all is well, 1 when the answer is a finding (a day that does
/// not reconcile, a damaged book), 2 for a bad call or trouble; then nothing was changed, except
/// where the sentence says so.
int run(std::span<const std::string> args, const Surroundings& around);

} // namespace gk::office
