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

} // namespace gk::ui
