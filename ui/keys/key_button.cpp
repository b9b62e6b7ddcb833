#include "ui/keys/key_button.h"

#include "ui/keys/cap_button.h"
#include "ui/support/text.h"

#include <QLabel>
#include <QShortcut>
#include <QVariant>

namespace gk::ui {

QPushButton* keyButton(const QString& words, const QKeySequence& key, const QString& name,
                       QWidget* parent) {
  const auto hint = key.toString(QKeySequence::NativeText).replace(u"Return"_s, u"Enter"_s);
  auto* button = new CapButton(parent);
  button->setWords(hint, words);
  button->setObjectName(name);
  // Not the button's own shortcut: that one waits a tenth of a second to look pressed.
  auto* shortcut = new QShortcut(key, button);
  shortcut->setAutoRepeat(false);
  QObject::connect(shortcut, &QShortcut::activated, button, &QPushButton::click);
  button->setAccessibleName(words + u", key "_s + hint);
  button->setAutoDefault(false);
  return button;
}

QLabel* wordsLabel(const QString& words, const QString& look, const QString& name,
                   QWidget* parent) {
  auto* label = new QLabel(words, parent);
  label->setObjectName(name);
  label->setProperty("look", look);
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  return label;
}

} // namespace gk::ui
