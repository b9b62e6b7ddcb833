#pragma once

#include "reports/print/table.h"

#include <QDialog>

class QListWidget;
class QTableWidget;

namespace gk::ui {

/// A question with all its answers in sight and none chosen: an arrow, a digit or a first letter
/// chooses, Enter takes what is chosen and does nothing before.
class DecideDialog final : public QDialog {
 public:
  /// `table` to decide by, if there is one; rows whose first cell is filled stand out.
  DecideDialog(QWidget* parent, const QString& question, const QStringList& options,
               const reports::Table* table = nullptr);

  /// The place of the option, from 0. Precondition: accepted.
  [[nodiscard]] int chosen() const;
  void accept() override;

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  void showEvent(QShowEvent* event) override;

 private:
  /// As wide and as high as the table needs to be read whole, where the screen has the room.
  void fit();

  QListWidget* list_;
  QTableWidget* table_ = nullptr;
};

} // namespace gk::ui
