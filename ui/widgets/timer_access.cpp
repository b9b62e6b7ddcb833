#include "ui/widgets/timer_access.h"

#include "ui/support/text.h"
#include "ui/widgets/timer_view.h"

#include <QAccessibleWidget>

namespace gk::ui {

namespace {

class TimerAccess final : public QAccessibleWidget {
 public:
  explicit TimerAccess(TimerView* timer)
      : QAccessibleWidget(timer, QAccessible::Clock), timer_(timer) {}

  [[nodiscard]] QString text(QAccessible::Text what) const override {
    if (what != QAccessible::Value) return QAccessibleWidget::text(what);
    return timer_->isRunning() ? timer_->text() + u" seconds"_s : u"stopped"_s;
  }

 private:
  TimerView* timer_;
};

QAccessibleInterface* makeTimerAccess(const QString&, QObject* object) {
  auto* timer = qobject_cast<TimerView*>(object);
  return timer ? new TimerAccess(timer) : nullptr;
}

} // namespace

void makeTimerAccessible() {
  QAccessible::installFactory(&makeTimerAccess);
}

} // namespace gk::ui
