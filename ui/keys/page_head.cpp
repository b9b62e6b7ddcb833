#include "ui/keys/page_head.h"

#include "ui/keys/flow_layout.h"
#include "ui/look/style.h"

#include <QHBoxLayout>
#include <QLabel>

namespace gk::ui {

PageHead::PageHead(QLabel* title, QLabel* sub, QWidget* parent)
    : QWidget(parent), row_(new QBoxLayout(QBoxLayout::LeftToRight, this)),
      beside_(new QBoxLayout(QBoxLayout::LeftToRight)) {
  setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Preferred);
  row_->setContentsMargins(0, 0, 0, 0);
  row_->setSpacing(10);
  auto* words = new QVBoxLayout;
  words->setSpacing(0);
  words->addWidget(title);
  if (sub) words->addWidget(sub);
  row_->addLayout(words, 1);
  row_->setAlignment(words, Qt::AlignTop);
  beside_->setSpacing(10);
  row_->addLayout(beside_);
  // Large letters leave no room beside the title.
  style::whenDressed(this, [this, title, sub] {
    const bool large = lookNow().percent > 120;
    const auto direction = large ? QBoxLayout::TopToBottom : QBoxLayout::LeftToRight;
    row_->setDirection(direction);
    beside_->setDirection(lookNow().percent > 150 ? QBoxLayout::TopToBottom
                                                  : QBoxLayout::LeftToRight);
    for (auto* label : {title, sub}) {
      if (!label) continue;
      label->setWordWrap(true);  // the name of a school is never cut
      label->setMinimumWidth(1); // words wrap before they widen the window
    }
  });
}

void PageHead::add(QWidget* beside) {
  beside_->addWidget(beside, 0, Qt::AlignTop);
}

} // namespace gk::ui
