#pragma once

#include "base/contract.h"
#include "base/result.h"

namespace gk::test {

/// What is refused repeats nothing of what was read: no six signs of it that the program does not
/// say by itself are looked for here; the canary test does. That there is a sentence is.
template <class T>
void judge(const base::Result<T>& result) {
  if (!result) base::require(!result.error().detail.empty(), "a refusal without a word");
}

} // namespace gk::test
