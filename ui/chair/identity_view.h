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
  /// Of all of it in its smallest letters, in this width.
  [[nodiscard]] int leastHeight(int width);

 private:
  void setLetters(int percent);
  /// Of a look and of all words: the letters that fit are others where it is another.
  [[nodiscard]] QString shown() const;

  QLabel* name_;
  QLabel* facts_;
  QLabel* alert_;
  QLabel* stop_;
  QLabel* askFirst_;
  QLabel* notes_;
  QLabel* consent_;
  QString fitted_;  ///< to what room, words and look
  QString leastOf_; ///< what `least_` was measured of
  int least_ = 0;
};

} // namespace gk::ui
