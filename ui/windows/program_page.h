#pragma once

#include "roster/program/program.h"
#include "ui/asking/prompter.h"

#include <QWidget>

class QKeyEvent;
class QLabel;

namespace gk::ui {

class FieldForm;

/// What no logbook is without: the program, as it is printed on letters and as its rules are, each
/// with what is usual. Asked before a new logbook is made, and of one that was made without. What
/// is typed stays until it is taken.
class ProgramPage final : public QWidget {
  Q_OBJECT

 public:
  ProgramPage(Prompter& prompter, const QString& why, const QString& save, QWidget* parent);

  void refuse(const QString& words);

 Q_SIGNALS:
  void given(const gk::roster::Program& program);
  /// Escape.
  void left();

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void save();

  FieldForm* form_;
  QLabel* trouble_;
};

} // namespace gk::ui
