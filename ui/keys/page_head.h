#pragma once

#include <QWidget>

class QBoxLayout;
class QLabel;

namespace gk::ui {

/// The title of a page with one line below it, and what stands at its right. The window takes it
/// into its top row, beside who is at work; a page by itself keeps it at its top.
class PageHead final : public QWidget {
  Q_OBJECT

 public:
  /// Takes both labels; `sub` may be none.
  PageHead(QLabel* title, QLabel* sub, QWidget* parent);

  void add(QWidget* beside);

 private:
  QBoxLayout* row_;
  QBoxLayout* beside_;
};

} // namespace gk::ui
