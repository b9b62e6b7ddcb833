#include "ui/widgets/page.h"

namespace gk::ui {

Page::Page(Context& context, QWidget* parent) : QWidget(parent), context_(context) {
  changes_ = book().onChanged([this](const session::Change&) { noteChange(); });
}

void Page::tellOf(std::initializer_list<const PageActs*> acts) const {
  for (const auto* one : acts) {
    connect(one, &PageActs::said, this, &Page::said);
    connect(one, &PageActs::failed, this, &Page::failed);
  }
}

void Page::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  if (!stale_) return;
  stale_ = false;
  refresh();
}

void Page::noteChange() {
  stale_ = !isVisible();
  const bool isOpen = book().isUnlocked();
  const bool mustLetGo = wasSeen_ && !isOpen;
  wasSeen_ = isOpen;
  if (!stale_)
    refresh();
  else if (mustLetGo)
    letGo();
}

} // namespace gk::ui
