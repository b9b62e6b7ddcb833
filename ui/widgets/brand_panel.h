#pragma once

#include <QWidget>

namespace gk::ui {

/// The side of the first page: the mark, the name, and one sentence, on the ground of the rail.
class BrandPanel final : public QWidget {
  Q_OBJECT

 public:
  explicit BrandPanel(QWidget* parent);

 protected:
  void paintEvent(QPaintEvent* event) override;
};

/// The mark alone, where a page is plain.
class BrandMark final : public QWidget {
  Q_OBJECT

 public:
  explicit BrandMark(QWidget* parent);

 protected:
  void paintEvent(QPaintEvent* event) override;
};

} // namespace gk::ui
