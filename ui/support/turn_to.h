#pragma once

#include <QStackedWidget>

namespace gk::ui {

/// Turns a page up; those behind it ask for no room.
inline void turnTo(QStackedWidget& stack, QWidget& page) {
  for (int i = 0; i < stack.count(); ++i)
    stack.widget(i)->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Ignored);
  page.setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Preferred);
  stack.setCurrentWidget(&page);
}

} // namespace gk::ui
