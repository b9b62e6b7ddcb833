#include "ui/look/choice_box.h"

#include <QAbstractItemView>
#include <QHelpEvent>
#include <QScrollBar>
#include <QStyleOptionComboBox>
#include <QStylePainter>
#include <QToolTip>
#include <algorithm>

namespace gk::ui {

namespace {

/// Of average letters: as many as stand whole.
constexpr int mostLetters = 36;
/// What the style keeps free beside the words, both sides together (QCommonStyle, by its source as
/// remembered).
constexpr int besideWords = 2;
/// By how much the width that Qt asks for by the letters' ink may be less than their advance.
constexpr int inkToAdvance = 4;

} // namespace

ChoiceBox::ChoiceBox(QWidget* parent) : QComboBox(parent) {
  setSizeAdjustPolicy(AdjustToContents);
}

int ChoiceBox::mostForWords() const {
  return fontMetrics().averageCharWidth() * mostLetters;
}

QSize ChoiceBox::sizeHint() const {
  auto size = QComboBox::sizeHint();
  int longest = 0;
  for (int line = 0; line < count(); ++line)
    longest = std::max(longest, fontMetrics().horizontalAdvance(itemText(line)));
  size.rwidth() += inkToAdvance - std::max(0, longest - mostForWords());
  return size;
}

QSize ChoiceBox::minimumSizeHint() const {
  return {sizeHint().width(), QComboBox::minimumSizeHint().height()};
}

int ChoiceBox::roomForWords() const {
  QStyleOptionComboBox option;
  initStyleOption(&option);
  return style()
             ->subControlRect(QStyle::CC_ComboBox, &option, QStyle::SC_ComboBoxEditField, this)
             .width() -
         besideWords;
}

bool ChoiceBox::hasRoomFor(const QString& words) const {
  return fontMetrics().horizontalAdvance(words) <= roomForWords();
}

bool ChoiceBox::isTooLong(const QString& words) const {
  return fontMetrics().horizontalAdvance(words) > mostForWords();
}

void ChoiceBox::showPopup() {
  view()->setMinimumWidth(view()->sizeHintForColumn(0) +
                          view()->verticalScrollBar()->sizeHint().width());
  QComboBox::showPopup();
}

void ChoiceBox::paintEvent(QPaintEvent*) {
  QStylePainter painter(this);
  QStyleOptionComboBox option;
  initStyleOption(&option);
  if (currentIndex() < 0 && !placeholderText().isEmpty()) option.currentText = placeholderText();
  if (!hasRoomFor(option.currentText))
    option.currentText =
        fontMetrics().elidedText(option.currentText, Qt::ElideRight, roomForWords());
  painter.drawComplexControl(QStyle::CC_ComboBox, option);
  painter.drawControl(QStyle::CE_ComboBoxLabel, option);
}

bool ChoiceBox::event(QEvent* event) {
  if (event->type() != QEvent::ToolTip || hasRoomFor(currentText())) return QComboBox::event(event);
  QToolTip::showText(static_cast<const QHelpEvent*>(event)->globalPos(), currentText(), this);
  return true;
}

} // namespace gk::ui
