#include "ui/widgets/message_strip.h"

#include "ui/support/text.h"

#include <QLabel>
#include <QStyle>
#include <QVBoxLayout>
#include <QVariant>

namespace gk::ui {

MessageStrip::MessageStrip(QWidget* parent) : QWidget(parent), label_(new QLabel(this)) {
  setObjectName(u"messageStrip"_s);
  label_->setObjectName(u"messageText"_s);
  label_->setWordWrap(true);
  label_->setTextFormat(Qt::PlainText);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(label_);
  refresh();
}

void MessageStrip::post(const Message& trouble) {
  const auto line = inOneLine(trouble);
  if (troubles_.empty() || troubles_.back() != line) troubles_.push_back(line);
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

void MessageStrip::settle() {
  troubles_.clear();
  news_.clear();
  refresh();
}

QString MessageStrip::text() const {
  return label_->text();
}

void MessageStrip::refresh() {
  if (troubles_.empty()) {
    label_->setText(news_);
    label_->setProperty("look", u"news"_s);
  } else {
    const auto more = troubles_.size() - 1;
    label_->setText(u"! "_s + troubles_.front() +
                    (more > 0 ? u"  (Esc, %1 more)"_s.arg(more) : u"  (Esc)"_s));
    label_->setProperty("look", u"trouble"_s);
  }
  // A sheet looks at a property only when asked to.
  label_->style()->unpolish(label_);
  label_->style()->polish(label_);
  label_->setVisible(!label_->text().isEmpty());
  label_->setAccessibleName(label_->text());
}

} // namespace gk::ui
