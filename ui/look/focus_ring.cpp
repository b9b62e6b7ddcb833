#include "ui/look/focus_ring.h"

#include "ui/look/style.h"

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QAbstractSpinBox>
#include <QApplication>
#include <QComboBox>
#include <QEvent>
#include <QLineEdit>
#include <QPainter>
#include <QPlainTextEdit>
#include <QTextEdit>
#include <QTimer>

#include <algorithm>
#include <array>
#include <utility>

namespace gk::ui {

namespace {

constexpr int ringLine = 3;
constexpr int ringGap = 2; ///< between the control and the ring
constexpr double ringCorner = 11;

class Ring final : public QWidget {
 public:
  explicit Ring(QWidget* window) : QWidget(window) {
    setObjectName(QStringLiteral("focusRing"));
    setAttribute(Qt::WA_TransparentForMouseEvents);
    setAttribute(Qt::WA_NoSystemBackground);
    setFocusPolicy(Qt::NoFocus);
  }

 protected:
  void paintEvent(QPaintEvent* /*event*/) override {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(style::worn().focus, ringLine));
    const double half = ringLine / 2.0;
    painter.drawRoundedRect(QRectF(rect()).adjusted(half, half, -half, -half), ringCorner,
                            ringCorner);
  }
};

/// A page or a panel that reads keys shows by its own keys where one is.
bool isControl(const QWidget* widget) {
  return qobject_cast<const QAbstractButton*>(widget) ||
         qobject_cast<const QAbstractItemView*>(widget) ||
         qobject_cast<const QAbstractSpinBox*>(widget) || qobject_cast<const QComboBox*>(widget) ||
         qobject_cast<const QLineEdit*>(widget) || qobject_cast<const QPlainTextEdit*>(widget) ||
         qobject_cast<const QTextEdit*>(widget);
}

} // namespace

void FocusRing::wear() {
  if (!qApp->findChild<FocusRing*>({}, Qt::FindDirectChildrenOnly)) new FocusRing(qApp);
}

FocusRing::FocusRing(QObject* application) : QObject(application) {
  connect(qApp, &QApplication::focusChanged, this,
          [this](QWidget* /*before*/, QWidget* now) { follow(now); });
}

FocusRing::~FocusRing() = default;

void FocusRing::follow(QWidget* now) {
  letGo();
  if (!now || !isControl(now) || now->windowType() == Qt::Popup) return;
  target_ = now;
  for (auto* widget = now; widget; widget = widget->isWindow() ? nullptr : widget->parentWidget()) {
    widget->installEventFilter(this);
    watched_ += widget;
  }
  auto* window = now->window();
  if (!ring_ || ring_->parentWidget() != window) {
    delete ring_;
    ring_ = new Ring(window);
  }
  place();
}

void FocusRing::letGo() {
  for (const auto& widget : watched_)
    if (widget) widget->removeEventFilter(this);
  watched_.clear();
  target_.clear();
  if (ring_) ring_->hide();
}

void FocusRing::place() {
  if (!target_ || !ring_) return;
  auto* window = ring_->parentWidget();
  QRect box(target_->mapTo(window, QPoint()), target_->size());
  // What is scrolled out of sight is not pointed at.
  QRect seen = box;
  for (auto* in = target_->parentWidget(); in && in != window; in = in->parentWidget())
    seen &= QRect(in->mapTo(window, QPoint()), in->size());
  if (!target_->isVisible() || seen.isEmpty()) return ring_->hide();
  constexpr int out = ringLine + ringGap;
  const auto wanted = seen.adjusted(-out, -out, out, out) & window->rect();
  if (ring_->geometry() != wanted) ring_->setGeometry(wanted);
  ring_->show();
  ring_->raise();
}

bool FocusRing::eventFilter(QObject* watched, QEvent* event) {
  static constexpr std::array moves{QEvent::Move, QEvent::Resize,       QEvent::Show,
                                    QEvent::Hide, QEvent::ParentChange, QEvent::LayoutRequest};
  // A page that is put elsewhere moves with other widgets from then on.
  isMoved_ = isMoved_ || event->type() == QEvent::ParentChange;
  // Once the whole layout has settled.
  if (std::ranges::find(moves, event->type()) != moves.end() && !waits_) {
    waits_ = true;
    QTimer::singleShot(0, this, [this] {
      waits_ = false;
      if (std::exchange(isMoved_, false))
        follow(target_);
      else
        place();
    });
  }
  if (event->type() == QEvent::StyleChange && ring_) ring_->update();
  return QObject::eventFilter(watched, event);
}

} // namespace gk::ui
