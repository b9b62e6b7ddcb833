#include "ui/asking/qt_prompter.h"

#include "base/contract.h"
#include "ui/asking/decide_dialog.h"
#include "ui/asking/pin_pad.h"
#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QApplication>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QInputDialog>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMessageBox>
#include <QPrintDialog>
#include <QPrinter>
#include <QVBoxLayout>

namespace gk::ui {

namespace {

const QString title = u"Groovekeeper"_s;

/// While it lives, a key that is held down answers no question that opens under it.
class NoHeldKeys final : public QObject {
 public:
  NoHeldKeys() { qApp->installEventFilter(this); }
  bool eventFilter(QObject*, QEvent* event) override {
    if (event->type() != QEvent::KeyPress) return false;
    const auto* key = static_cast<QKeyEvent*>(event);
    return key->isAutoRepeat() && (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter);
  }
};

std::optional<QString> unlessEmpty(const QString& path) {
  if (path.isEmpty()) return std::nullopt;
  return path;
}

/// A long question goes on in the next line, so that no dialog is wider than the screen.
void wrap(QInputDialog& dialog) {
  for (auto* words : dialog.findChildren<QLabel*>()) {
    words->setWordWrap(true);
    words->setMinimumWidth(style::px(420));
  }
}

std::optional<QString> typedIn(QWidget* over, const QString& question, const QString& suggestion,
                               QLineEdit::EchoMode echo) {
  QInputDialog dialog(over);
  dialog.setWindowTitle(title);
  dialog.setLabelText(question);
  dialog.setTextEchoMode(echo);
  dialog.setTextValue(suggestion);
  wrap(dialog);
  if (dialog.exec() != QDialog::Accepted) return std::nullopt;
  return dialog.textValue();
}

} // namespace

bool QtPrompter::confirm(const QString& question) {
  const NoHeldKeys guard;
  return QMessageBox::question(parent_, title, question) == QMessageBox::Yes;
}

std::optional<QString> QtPrompter::text(const QString& question, const QString& suggestion) {
  const NoHeldKeys guard;
  return typedIn(parent_, question, suggestion, QLineEdit::Normal);
}

std::optional<QStringList> QtPrompter::fill(const QString& question,
                                            const std::vector<FormLine>& lines) {
  const NoHeldKeys guard;
  base::require(!lines.empty(), "a form without a field");
  QDialog dialog(parent_);
  dialog.setObjectName(u"fillDialog"_s);
  dialog.setWindowTitle(title);
  auto* words = new QLabel(question, &dialog);
  words->setWordWrap(true);
  auto* form = new QFormLayout;
  std::vector<QLineEdit*> fields;
  for (const auto& line : lines) {
    auto* field = new QLineEdit(line.standing, &dialog);
    field->setObjectName(u"fillField%1"_s.arg(fields.size()));
    field->setAccessibleName(line.words);
    form->addRow(line.words, field);
    fields.push_back(field);
  }
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel, &dialog);
  QObject::connect(buttons, &QDialogButtonBox::accepted, &dialog, &QDialog::accept);
  QObject::connect(buttons, &QDialogButtonBox::rejected, &dialog, &QDialog::reject);
  auto* column = new QVBoxLayout(&dialog);
  column->addWidget(words);
  column->addLayout(form);
  column->addWidget(buttons);
  fields.front()->selectAll();
  fields.front()->setFocus();
  if (dialog.exec() != QDialog::Accepted) return std::nullopt;
  QStringList said;
  for (const auto* field : fields)
    said += field->text().trimmed();
  return said;
}

std::optional<int> QtPrompter::choose(const QString& question, const QStringList& options) {
  const NoHeldKeys guard;
  base::require(!options.isEmpty(), "a choice between nothing");
  QInputDialog dialog(parent_);
  dialog.setComboBoxItems(options);
  dialog.setWindowTitle(title);
  dialog.setLabelText(question);
  wrap(dialog);
  if (dialog.exec() != QDialog::Accepted) return std::nullopt;
  // By its place: two schools may have one name.
  return dialog.findChild<QComboBox*>()->currentIndex();
}

std::optional<int> QtPrompter::decide(const QString& question, const QStringList& options) {
  const NoHeldKeys guard;
  base::require(!options.isEmpty(), "a choice between nothing");
  DecideDialog dialog(parent_, question, options);
  dialog.setWindowTitle(title);
  if (dialog.exec() != QDialog::Accepted) return std::nullopt;
  return dialog.chosen();
}

std::optional<int> QtPrompter::decideBy(const reports::Table& table, const QString& question,
                                        const QStringList& options) {
  const NoHeldKeys guard;
  base::require(!options.isEmpty(), "a choice between nothing");
  DecideDialog dialog(parent_, question, options, &table);
  dialog.setWindowTitle(title);
  if (dialog.exec() != QDialog::Accepted) return std::nullopt;
  return dialog.chosen();
}

std::optional<QString> QtPrompter::openFile(const QString& what, const QString& filter) {
  return unlessEmpty(QFileDialog::getOpenFileName(parent_, what, {}, filter));
}

std::optional<QString> QtPrompter::saveFile(const QString& what, const QString& suggestion,
                                            const QString& filter, FileHolds holds) {
  return unlessEmpty(
      QFileDialog::getSaveFileName(parent_, titleOf(what, holds), suggestion, filter));
}

std::optional<QString> QtPrompter::newFile(const QString& what, const QString& suggestion,
                                           const QString& filter, FileHolds holds) {
  return unlessEmpty(QFileDialog::getSaveFileName(parent_, titleOf(what, holds), suggestion, filter,
                                                  nullptr, QFileDialog::DontConfirmOverwrite));
}

std::optional<QString> QtPrompter::folder(const QString& what, FileHolds holds) {
  return unlessEmpty(QFileDialog::getExistingDirectory(parent_, titleOf(what, holds)));
}

std::shared_ptr<QPagedPaintDevice> QtPrompter::printer() {
  auto printer = std::make_shared<QPrinter>(QPrinter::HighResolution);
  QPrintDialog dialog(printer.get(), parent_);
  // The system's dialog can print to a file as well.
  dialog.setWindowTitle(
      u"Print. A file instead of paper is not sealed: anyone who has it can read it"_s);
  if (dialog.exec() != QDialog::Accepted) return nullptr;
  return printer;
}

std::optional<QString> QtPrompter::passphrase(const QString& question) {
  return typedIn(parent_, question, {}, QLineEdit::Password);
}

std::optional<QString> QtPrompter::pin(const QString& question) {
  const NoHeldKeys guard;
  QDialog dialog(parent_);
  dialog.setObjectName(u"pinDialog"_s);
  dialog.setWindowTitle(title);
  auto* words = new QLabel(question + u"\nEsc: cancel"_s, &dialog);
  words->setWordWrap(true);
  auto* pad = new PinPad(&dialog);
  auto* column = new QVBoxLayout(&dialog);
  column->addWidget(words);
  column->addWidget(pad);
  std::optional<QString> typed;
  QObject::connect(pad, &PinPad::given, &dialog, [&](const QString& pin) {
    typed = QString(pin.constData(), pin.size()); // the pad overwrites its own
    dialog.accept();
  });
  pad->setFocus();
  dialog.exec();
  return typed;
}

} // namespace gk::ui
