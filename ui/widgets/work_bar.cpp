#include "ui/widgets/work_bar.h"

#include "ui/asking/long_work.h"
#include "ui/keys/key_button.h"
#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>

#include <algorithm>

namespace gk::ui {

namespace {

// What is over sooner need not be shown.
constexpr auto shownAfter = std::chrono::milliseconds(300);

} // namespace

WorkBar::WorkBar(LongWork& work, QWidget* over)
    : QFrame(over), work_(work), words_(wordsLabel({}, u"note"_s, u"workWords"_s, this)),
      far_(new QProgressBar(this)) {
  setObjectName(u"workBar"_s);
  setAutoFillBackground(true);
  setFrameShape(QFrame::StyledPanel);
  auto* cancel =
      keyButton(u"Cancel"_s, QKeySequence(Qt::CTRL | Qt::Key_Period), u"workCancel"_s, this);
  cancel->setFocusPolicy(Qt::NoFocus);
  words_->setWordWrap(false);
  far_->setTextVisible(false);
  far_->setAccessibleName(u"How far the work is"_s);
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(6, 0, 6, 0);
  row->addWidget(words_);
  row->addWidget(far_, 1);
  row->addWidget(cancel);
  patience_.setSingleShot(true);
  patience_.setInterval(shownAfter);
  connect(&patience_, &QTimer::timeout, this, &WorkBar::follow);
  connect(cancel, &QPushButton::clicked, &work_, &LongWork::cancel);
  connect(&work_, &LongWork::changed, this, [this] {
    if (!work_.isBusy())
      patience_.stop();
    else if (isHidden() && !patience_.isActive())
      return patience_.start();
    follow();
  });
  over->installEventFilter(this);
  hide();
}

void WorkBar::standIn(QWidget* line) {
  line_ = line;
  place();
}

void WorkBar::follow() {
  const auto state = work_.state();
  if (patience_.isActive()) return;
  setVisible(state.has_value());
  if (!state) return;
  words_->setText(wordsOf(*state));
  words_->setAccessibleName(words_->text());
  constexpr int parts = 1000;
  far_->setRange(0, state->whole > 0 ? parts : 0); // of none it moves to and fro
  if (state->whole > 0)
    far_->setValue(static_cast<int>(std::min(state->done, state->whole) * parts / state->whole));
  place();
}

void WorkBar::place() {
  auto* over = parentWidget();
  const int width = std::min(over->width(), style::px(560));
  const int height = std::max(sizeHint().height(), style::px(34));
  const bool isThere = line_ && line_->isVisible();
  const int top = isThere ? line_->mapTo(over, QPoint()).y() : over->height() - height;
  setGeometry(over->width() - width, top, width, height);
  raise();
}

bool WorkBar::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::Resize && isVisible()) place();
  return QFrame::eventFilter(watched, event);
}

} // namespace gk::ui
