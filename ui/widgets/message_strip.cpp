#include "ui/widgets/message_strip.h"

#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QEvent>
#include <QFontMetrics>
#include <QLabel>
#include <QStyle>
#include <QVariant>

#include <algorithm>
#include <array>

namespace gk::ui {

MessageStrip::MessageStrip(QWidget* parent, Room room)
    : QWidget(parent), room_(room), label_(new QLabel(parent ? parent : this)) {
  setObjectName(u"messageStrip"_s);
  label_->setObjectName(u"messageText"_s);
  label_->setWordWrap(true);
  label_->setTextFormat(Qt::PlainText);
  // What it lies over stays in reach of the mouse.
  label_->setAttribute(Qt::WA_TransparentForMouseEvents);
  refresh();
}

void MessageStrip::post(const Message& trouble, Until until) {
  const auto line = inOneLine(trouble);
  if (troubles_.empty() || troubles_.back().line != line) troubles_.push_back({line, until});
  refresh();
}

void MessageStrip::say(const QString& news) {
  news_ = news;
  refresh();
}

void MessageStrip::dismiss() {
  if (!troubles_.empty())
    troubles_.pop_front();
  else
    news_.clear();
  refresh();
}

void MessageStrip::layOver(std::optional<int> y) {
  if (y == over_) return;
  over_ = y;
  place();
}

void MessageStrip::settle() {
  std::erase_if(troubles_, [](const Trouble& one) { return one.until == Until::nextAct; });
  news_.clear();
  refresh();
}

QString MessageStrip::text() const {
  return label_ ? label_->text() : QString();
}

void MessageStrip::refresh() {
  if (!label_) return;
  if (troubles_.empty()) {
    label_->setText(news_);
    label_->setProperty("look", u"news"_s);
  } else {
    const auto more = troubles_.size() - 1;
    label_->setText(u"! "_s + troubles_.front().line +
                    (more > 0 ? u"  (Esc, %1 more)"_s.arg(more) : u"  (Esc)"_s));
    label_->setProperty("look", u"trouble"_s);
  }
  // A sheet looks at a property only when asked to.
  label_->style()->unpolish(label_);
  label_->style()->polish(label_);
  label_->setAccessibleName(label_->text());
  place();
}

/// The strip is one line high; its words lie over the page where they need more.
void MessageStrip::place() {
  if (!label_) return;
  auto* over = parentWidget() ? parentWidget() : this;
  if (label_->parentWidget() != over) label_->setParent(over);
  label_->ensurePolished();
  const bool speaks = !label_->text().isEmpty();
  // Not the label's own font, which changes while it puts on its look.
  auto font = label_->font();
  font.setPixelSize(style::px(17));
  font.setBold(true);
  const int line = QFontMetrics(font).height() + 2 * style::px(7);
  const int kept = !over_ && (speaks || room_ == Room::kept) ? line : 0;
  if (minimumHeight() != kept || maximumHeight() != kept) setFixedHeight(kept);
  constexpr int side = 12;
  const int wide = (over_ ? over->width() : width()) - 2 * side;
  const int wanted = std::max(line, label_->heightForWidth(wide));
  const auto at = over_ ? QPoint(0, *over_) : over == this ? QPoint() : pos();
  // At the foot of a page it grows upward, so that no key below is covered.
  const bool isLow = !over_ && over != this && (growsUp_ || at.y() > over->height() / 2);
  label_->setGeometry(at.x() + side, isLow ? at.y() + kept - wanted : at.y(), wide, wanted);
  const bool wasHidden = isHidden() && testAttribute(Qt::WA_WState_ExplicitShowHide);
  label_->setVisible(speaks && !wasHidden);
  label_->raise();
}

bool MessageStrip::event(QEvent* event) {
  const bool done = QWidget::event(event);
  static constexpr std::array moved{QEvent::Move,         QEvent::Resize,
                                    QEvent::ParentChange, QEvent::ShowToParent,
                                    QEvent::HideToParent, QEvent::StyleChange};
  if (std::ranges::find(moved, event->type()) != moved.end()) place();
  return done;
}

} // namespace gk::ui
