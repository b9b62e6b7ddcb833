#pragma once

#include "session/views.h"

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

 private:
  QLabel* name_;
  QLabel* facts_;
  QLabel* alert_;
  QLabel* stop_;
  QLabel* askFirst_;
  QLabel* notes_;
  QLabel* consent_;
};

} // namespace gk::ui
