#pragma once

#include "ui/asking/prompter.h"
#include "ui/forms/field.h"

#include <QWidget>

class QCheckBox;
class QComboBox;
class QGridLayout;
class QLabel;
class QLineEdit;

namespace gk::ui {

/// A form made from its description: a label, what is typed, and a line below that says what is
/// usual or what is wrong. Widgets are named by `prefix` and the field's key.
class FieldForm final : public QWidget {
  Q_OBJECT

 public:
  FieldForm(QString prefix, Prompter& prompter, QWidget* parent);

  /// Asks these from now on, in place of those before; fewer side by side where letters are large.
  void ask(const std::vector<Field>& fields, int columns = 3);
  [[nodiscard]] const std::vector<Field>& fields() const { return fields_; }
  void show(const Values& values);
  /// As typed, whether or not it is sound.
  [[nodiscard]] Values typed() const;
  /// None where a field is blank that is needed, or cannot be read: that field says so and has the
  /// keyboard.
  [[nodiscard]] std::optional<Values> read();
  /// Says what is wrong beside the field; false where the form does not ask it.
  bool refuse(const QString& key, const QString& why);
  void settle();
  /// What day it is, by which birth dates are judged.
  void setToday(base::Date today) { today_ = today; }
  /// Into the field that takes scans; false where none does.
  bool scan(const QString& code);
  void takeKeyboard();
  /// The keyboard of `whole` goes to the first field.
  void takeFocusFor(QWidget& whole);
  /// What was refused last, with the field's words; empty when nothing is wrong.
  [[nodiscard]] const QString& trouble() const { return trouble_; }

 Q_SIGNALS:
  void edited();
  /// Enter in a line.
  void entered();

 private:
  struct Cell {
    QWidget* whole = nullptr;
    QLineEdit* line = nullptr;
    QComboBox* box = nullptr;
    std::vector<QCheckBox*> ticks{};
    QLabel* hint = nullptr;
  };

  Cell makeCell(const Field& field);
  void place();
  [[nodiscard]] base::Result<QString> readLine(const Field& field, const QString& text);
  [[nodiscard]] static QWidget* editor(const Cell& cell);
  void mark(const Cell& cell, bool isWrong);

  QString prefix_;
  Prompter& prompter_;
  std::vector<Field> fields_;
  std::vector<Cell> cells_;
  QGridLayout* grid_;
  int columns_ = 3;
  QString trouble_;
  std::optional<base::Date> today_;
  bool showing_ = false; ///< values are filled in; no one types
};

} // namespace gk::ui
