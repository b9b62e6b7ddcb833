#pragma once

#include <QKeySequence>
#include <QString>

class QLabel;
class QPushButton;
class QWidget;

namespace gk::ui {

/// A button that shows its key: what a hand on the keyboard needs to know stands on the screen.
QPushButton* keyButton(const QString& words, const QKeySequence& key, const QString& name,
                       QWidget* parent);

/// A label in one of the desk sheet's looks: "title", "counts", "big", "note" or plain.
QLabel* wordsLabel(const QString& words, const QString& look, const QString& name, QWidget* parent);

} // namespace gk::ui
