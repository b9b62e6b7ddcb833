#pragma once

#include "session/session.h"
#include "ui/asking/acting.h"
#include "ui/asking/long_work.h"
#include "ui/asking/prompter.h"

namespace gk::ui {

/// All that a page needs from the outside. Outlives the pages of one open book.
struct Context {
  session::Session& session;
  base::Clock& clock;
  Prompter& prompter;
  Acting& acting;
  LongWork& work;
};

/// Of an act that the person did not back out of, where that would be false: true, or why it
/// failed.
template <class T>
base::Result<bool> isDone(const base::Result<T>& act) {
  if (!act) return act.error();
  return true;
}

} // namespace gk::ui
