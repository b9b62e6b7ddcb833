#include "ui/support/acting.h"

namespace gk::ui {

void Acting::change(const Setup& setup) {
  if (setup == setup_) return;
  setup_ = setup;
  Q_EMIT changed();
}

void Acting::keep(const Habits& habits) {
  if (habits == habits_) return;
  habits_ = habits;
  Q_EMIT habitsChanged();
}

} // namespace gk::ui
