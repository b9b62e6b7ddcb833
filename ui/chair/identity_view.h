#pragma once

#include "session/values/views.h"

#include <QWidget>

class QLabel;
class QVBoxLayout;

namespace gk::ui {

/// Who this is, what may be done, what must be known: the card as large as the space allows.
class IdentityView final : public QWidget {
  Q_OBJECT

 public:
  explicit IdentityView(QWidget* parent = nullptr);

  void setCard(const session::IdentityCard& card);
  /// Letters as large as let all of it stand in this room.
  void fit(QSize room);

 private:
  void setLetters(int percent);

  QLabel* name_;
  QLabel* facts_;
  QLabel* alert_;
  QLabel* stop_;
  QLabel* askFirst_;
  QLabel* notes_;
  QLabel* consent_;
  QString fitted_; ///< to what room, words and look
};

} // namespace gk::ui
