#pragma once

#include "ui/drafts/tile_face.h"
#include "ui/mouth/arch.h"

#include <QWidget>

namespace gk::ui {

/// One sealable pit or groove of a tooth, for a finger: the chewing surface a square, a companion a
/// tab whose round end shows where the cheek or the tongue is.
class SurfaceTarget final : public QWidget {
  Q_OBJECT

 public:
  SurfaceTarget(dentition::Surface surface, QWidget* parent);

  void setFace(const TileFace& face);
  [[nodiscard]] dentition::Surface surface() const { return surface_; }
  [[nodiscard]] bool isChosen() const { return face_ && face_->chosen.has(surface_); }

 Q_SIGNALS:
  void pressed();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;

 private:
  dentition::Surface surface_;
  std::optional<TileFace> face_;
};

} // namespace gk::ui
