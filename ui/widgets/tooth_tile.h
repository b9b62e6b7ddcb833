#pragma once

#include "ui/models/tile_face.h"

#include <QWidget>

namespace gk::ui {

/// One big tile. Painted from its face alone.
class ToothTile final : public QWidget {
  Q_OBJECT

 public:
  explicit ToothTile(QWidget* parent = nullptr);

  void setFace(const TileFace& face, bool selected);
  [[nodiscard]] QSize sizeHint() const override { return {190, 200}; }
  [[nodiscard]] QSize minimumSizeHint() const override { return {150, 130}; }

 Q_SIGNALS:
  void pressed();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;

 private:
  std::optional<TileFace> face_;
  bool selected_ = false;
};

} // namespace gk::ui
