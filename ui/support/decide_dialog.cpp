#include "ui/support/decide_dialog.h"

#include "ui/support/text.h"

#include <QDialogButtonBox>
#include <QKeyEvent>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace gk::ui {

DecideDialog::DecideDialog(QWidget* parent, const QString& question, const QStringList& options)
    : QDialog(parent), list_(new QListWidget(this)) {
  setObjectName(u"decideDialog"_s);
  auto* words = new QLabel(question, this);
  words->setWordWrap(true);
  list_->addItems(options);
  list_->setAccessibleName(question);
  list_->setCurrentRow(-1);
  list_->installEventFilter(this);
  list_->ensurePolished();
  const int inSight = std::min(list_->count(), 9);
  list_->setMinimumHeight(inSight * list_->sizeHintForRow(0) + 2 * list_->frameWidth() + 4);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel, this);
  auto* ok = buttons->button(QDialogButtonBox::Ok);
  ok->setEnabled(false);
  connect(list_, &QListWidget::currentRowChanged, ok, [ok](int row) { ok->setEnabled(row >= 0); });
  connect(list_, &QListWidget::itemDoubleClicked, this, &DecideDialog::accept);
  connect(buttons, &QDialogButtonBox::accepted, this, &DecideDialog::accept);
  connect(buttons, &QDialogButtonBox::rejected, this, &DecideDialog::reject);
  auto* column = new QVBoxLayout(this);
  column->addWidget(words);
  column->addWidget(list_);
  column->addWidget(buttons);
  list_->setFocus();
}

int DecideDialog::chosen() const {
  return list_->currentRow();
}

void DecideDialog::accept() {
  if (list_->currentRow() >= 0) QDialog::accept();
}

bool DecideDialog::eventFilter(QObject* watched, QEvent* event) {
  // A list that is told of the focus chooses its first line.
  if (event->type() == QEvent::FocusIn) return true;
  if (event->type() != QEvent::KeyPress) return QDialog::eventFilter(watched, event);
  const auto* key = static_cast<QKeyEvent*>(event);
  if (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) {
    accept();
    return true;
  }
  const int digit = key->key() - Qt::Key_1;
  if (digit >= 0 && digit < std::min(list_->count(), 9)) {
    list_->setCurrentRow(digit);
    return true;
  }
  return QDialog::eventFilter(watched, event);
}

} // namespace gk::ui
