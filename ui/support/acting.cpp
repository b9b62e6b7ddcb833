#include "ui/support/acting.h"

namespace gk::ui {

void Acting::change(const Setup& setup) {
  if (setup == setup_) return;
  setup_ = setup;
  Q_EMIT changed();
}

} // namespace gk::ui
