#include "ui/totals/filter_chips.h"

#include "ui/keys/cap_button.h"
#include "ui/keys/flow_layout.h"
#include "ui/support/text.h"

#include <memory>

namespace gk::ui {

FilterChips::FilterChips(QWidget* parent) : QWidget(parent), row_(new FlowLayout(6, this)) {
  setObjectName(u"totalsChips"_s);
  row_->setContentsMargins(0, 0, 0, 0);
  hide();
}

void FilterChips::show(const std::vector<Chip>& chips) {
  QStringList words;
  for (const auto& chip : chips)
    words += chip.words;
  if (words == shown_) return;
  shown_ = words;
  while (row_->count() > 0) {
    const std::unique_ptr<QLayoutItem> item(row_->takeAt(0));
    // Not at once: it may be the one that is being pressed.
    item->widget()->hide();
    item->widget()->deleteLater();
  }
  for (const auto& chip : chips) {
    auto* button = new CapButton(this);
    button->setWords(u"\u00d7"_s, chip.words, CapButton::Cap::after);
    button->setObjectName(u"totalsChip%1"_s.arg(chip.filter));
    button->setAccessibleName(u"Remove the filter "_s + chip.words);
    button->setProperty("look", u"ask"_s);
    connect(button, &QPushButton::clicked, this,
            [this, which = chip.filter] { Q_EMIT removed(which); });
    row_->addWidget(button);
    button->show();
  }
  setVisible(!chips.empty());
  updateGeometry();
}

} // namespace gk::ui
