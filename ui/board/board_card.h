#pragma once

#include "session/values/views.h"

#include <QFrame>

#include <optional>
#include <vector>

class QLabel;
class QPushButton;

namespace gk::ui {

/// The student of the row that is pointed at, and what can be done now: beside the table, or below
/// it where the letters are large.
class BoardCard final : public QFrame {
  Q_OBJECT

 public:
  explicit BoardCard(QWidget* parent);

  /// The main act alone in its row; outcomes in pairs; then what is done with the list.
  void setKeys(QPushButton* main, std::vector<QPushButton*> outcomes,
               std::vector<QPushButton*> list);
  void show(const std::optional<session::BoardLine>& line);

 private:
  void arrange();

  QLabel* name_;
  QLabel* facts_;
  QLabel* alerts_;
  QLabel* outcome_;
  QLabel* orOutcome_;
  QLabel* theList_;
  QWidget* keys_;
  QPushButton* main_ = nullptr;
  std::vector<QPushButton*> outcomes_;
  std::vector<QPushButton*> list_;
};

} // namespace gk::ui
