#include "ui/help/help_overlay.h"

#include "ui/keys/cap_button.h"
#include "ui/keys/key_button.h"
#include "ui/keys/nav_rail.h"
#include "ui/look/style.h"
#include "ui/support/page_keys.h"
#include "ui/support/text.h"

#include <QAbstractButton>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QShortcut>
#include <QStackedWidget>

#include <algorithm>

namespace gk::ui {

namespace {

QString shownKey(const QKeySequence& key) {
  return key.toString(QKeySequence::NativeText).replace(u"Return"_s, u"Enter"_s);
}

/// "Term Alt+&M" and "&Operator": the words without what marks the letter.
QString withoutMark(QString words) {
  words.remove(u'&');
  const auto key = words.indexOf(u"Alt+"_s);
  return (key >= 0 ? words.left(key) : words).trimmed();
}

void add(std::vector<KeyLine>& keys, const QString& key, const QString& words, bool everywhere) {
  if (key.isEmpty() || words.isEmpty()) return;
  const KeyLine line{key, words, everywhere};
  if (std::ranges::find(keys, line) == keys.end()) keys.push_back(line);
}

void addShortcut(std::vector<KeyLine>& keys, const QShortcut& shortcut, const QWidget& window) {
  const auto* owner = qobject_cast<const QWidget*>(shortcut.parent());
  if (!owner || !shortcut.isEnabled() || !owner->isVisible()) return;
  auto words = shortcut.whatsThis();
  if (words.isEmpty())
    if (const auto* cap = qobject_cast<const CapButton*>(owner)) words = cap->words();
  if (words.isEmpty())
    if (const auto* button = qobject_cast<const QAbstractButton*>(owner))
      words = withoutMark(button->text());
  add(keys, shownKey(shortcut.key()), words, owner == &window);
}

} // namespace

std::vector<KeyLine> keysIn(const QWidget& window) {
  std::vector<KeyLine> keys;
  for (const auto* widget : window.findChildren<QWidget*>()) {
    if (!widget->isVisible()) continue;
    for (const auto& [key, words] : keysTold(*widget))
      add(keys, key, words, false);
    if (const auto* cap = qobject_cast<const CapButton*>(widget); cap && cap->isEnabled())
      if (!cap->findChild<QShortcut*>()) add(keys, cap->key(), cap->words(), false);
    QString marked;
    if (const auto* label = qobject_cast<const QLabel*>(widget); label && label->buddy())
      marked = label->text();
    else if (const auto* button = qobject_cast<const QAbstractButton*>(widget);
             button && !qobject_cast<const CapButton*>(widget))
      marked = button->text();
    if (const auto key = QKeySequence::mnemonic(marked); !key.isEmpty())
      add(keys, shownKey(key), withoutMark(marked), false);
  }
  for (const auto* shortcut : window.findChildren<QShortcut*>())
    addShortcut(keys, *shortcut, window);
  // A key of the window is not said again by its button.
  std::erase_if(keys, [&](const KeyLine& line) {
    return !line.isEverywhere && std::ranges::any_of(keys, [&](const KeyLine& other) {
      return other.isEverywhere && other.key == line.key;
    });
  });
  return keys;
}

HelpOverlay::HelpOverlay(QWidget* over)
    : QFrame(over), title_(wordsLabel({}, u"title"_s, u"helpTitle"_s, this)),
      keysTab_(new QPushButton(u"Keys of this page"_s, this)),
      helpTab_(new QPushButton(u"Help"_s, this)), stack_(new QStackedWidget(this)),
      keysArea_(new QScrollArea(stack_)), helpArea_(new QScrollArea(stack_)),
      help_(wordsLabel({}, u"helpWords"_s, u"helpWords"_s, nullptr)) {
  setObjectName(u"helpOverlay"_s);
  setProperty("look", u"overlay"_s);
  setFocusPolicy(Qt::StrongFocus);
  setAttribute(Qt::WA_StyledBackground);
  auto* head = new QHBoxLayout;
  head->addWidget(title_, 1);
  for (auto* tab : {keysTab_, helpTab_}) {
    tab->setCheckable(true);
    tab->setFocusPolicy(Qt::NoFocus);
    head->addWidget(tab);
  }
  keysTab_->setObjectName(u"helpKeysTab"_s);
  helpTab_->setObjectName(u"helpHelpTab"_s);
  connect(keysTab_, &QPushButton::clicked, this, [this] { showTab(0); });
  connect(helpTab_, &QPushButton::clicked, this, [this] { showTab(1); });
  for (auto* area : {keysArea_, helpArea_}) {
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setFocusPolicy(Qt::NoFocus);
    stack_->addWidget(area);
  }
  help_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
  help_->setContentsMargins(0, 0, 24, 0);
  helpArea_->setWidget(help_);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(40, 24, 40, 20);
  column->setSpacing(12);
  column->addLayout(head);
  column->addWidget(stack_, 1);
  column->addWidget(
      wordsLabel(u"Tab: the other tab. Arrow keys: scroll. Esc: close."_s, u"note"_s, {}, this));
  over->installEventFilter(this);
  hide();
}

void HelpOverlay::open(const QString& place, const QString& help, bool passesKeys) {
  passes_ = passesKeys;
  title_->setText(place);
  help_->setText(help);
  fill(keysIn(*parentWidget()));
  setGeometry(parentWidget()->rect());
  showTab(0);
  show();
  raise();
  setFocus();
}

void HelpOverlay::fill(const std::vector<KeyLine>& keys) {
  auto* inside = new QWidget;
  auto* column = new QVBoxLayout(inside);
  column->setContentsMargins(0, 0, 16, 0);
  column->setSpacing(14);
  for (const bool everywhere : {false, true}) {
    column->addWidget(wordsLabel(everywhere ? u"Everywhere"_s : u"On this page"_s, u"section"_s,
                                 everywhere ? u"helpEverywhere"_s : u"helpHere"_s, inside));
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(14);
    grid->setVerticalSpacing(6);
    const int columns = lookNow().percent > 120 ? 2 : 3;
    std::vector<KeyLine> lines;
    for (const auto& line : keys)
      if (line.isEverywhere == everywhere) lines.push_back(line);
    const auto rows =
        (lines.size() + static_cast<std::size_t>(columns) - 1) / static_cast<std::size_t>(columns);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const int row = static_cast<int>(i % std::max<std::size_t>(rows, 1));
      const int at = static_cast<int>(i / std::max<std::size_t>(rows, 1));
      auto* cap = wordsLabel(lines[i].key, u"cap"_s, u"helpKey"_s, inside);
      cap->setWordWrap(false);
      cap->setAlignment(Qt::AlignCenter);
      grid->addWidget(cap, row, 2 * at, Qt::AlignLeft | Qt::AlignVCenter);
      grid->addWidget(wordsLabel(lines[i].words, {}, u"helpLine"_s, inside), row, 2 * at + 1);
      grid->setColumnStretch(2 * at + 1, 1);
    }
    column->addLayout(grid);
  }
  column->addStretch(1);
  keysArea_->setWidget(inside); // the one before goes with it
}

void HelpOverlay::showTab(int tab) {
  stack_->setCurrentIndex(tab);
  keysTab_->setChecked(tab == 0);
  helpTab_->setChecked(tab == 1);
}

void HelpOverlay::shut() {
  if (!isVisible()) return;
  hide();
  Q_EMIT closed();
}

bool HelpOverlay::event(QEvent* event) {
  // No shortcut acts on what is not seen.
  if (event->type() == QEvent::ShortcutOverride) {
    event->accept();
    return true;
  }
  if (event->type() == QEvent::KeyPress) {
    keyPressEvent(static_cast<QKeyEvent*>(event)); // Tab among them
    return true;
  }
  return QFrame::event(event);
}

void HelpOverlay::keyPressEvent(QKeyEvent* event) {
  event->accept();
  auto* bar = static_cast<QScrollArea*>(stack_->currentWidget())->verticalScrollBar();
  switch (event->key()) {
  case Qt::Key_Shift:
  case Qt::Key_Control:
  case Qt::Key_Alt:
  case Qt::Key_Meta:
  case Qt::Key_CapsLock:
    return;
  case Qt::Key_Tab:
  case Qt::Key_Backtab:
  case Qt::Key_Left:
  case Qt::Key_Right:
    return showTab(1 - stack_->currentIndex());
  case Qt::Key_Up:
    return bar->setValue(bar->value() - 40);
  case Qt::Key_Down:
    return bar->setValue(bar->value() + 40);
  case Qt::Key_PageUp:
    return bar->setValue(bar->value() - bar->pageStep());
  case Qt::Key_PageDown:
    return bar->setValue(bar->value() + bar->pageStep());
  default:
    break;
  }
  shut();
  const bool isOwn = event->text() == u"?"_s;
  if (passes_ && !isOwn) Q_EMIT passed(event);
}

bool HelpOverlay::eventFilter(QObject* watched, QEvent* event) {
  if (watched == parentWidget() && event->type() == QEvent::Resize)
    setGeometry(parentWidget()->rect());
  return QFrame::eventFilter(watched, event);
}

} // namespace gk::ui
