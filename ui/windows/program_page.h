#pragma once

#include "roster/program.h"
#include "ui/support/prompter.h"

#include <QWidget>

class QComboBox;
class QFormLayout;
class QKeyEvent;
class QLabel;
class QLineEdit;
class QPushButton;

namespace gk::ui {

/// What no logbook is without: the program, as it is printed on letters and as its rules are. Asked
/// before a new logbook is made, and of one that was made without. What is typed stays until it is
/// taken.
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
  QLineEdit* line(QFormLayout* into, const QString& words, const QString& name);
  QComboBox* choice(QFormLayout* into, const QString& words, const QString& name,
                    const QStringList& options, int usual);
  void save();

  Prompter& prompter_;
  QLineEdit* name_ = nullptr;
  QLineEdit* county_ = nullptr;
  QLineEdit* phone_ = nullptr;
  QComboBox* supervision_ = nullptr;
  QLineEdit* dentist_ = nullptr;
  QLineEdit* until_ = nullptr;
  QLineEdit* footing_ = nullptr;
  QComboBox* notation_ = nullptr;
  QLabel* trouble_;
};

} // namespace gk::ui
