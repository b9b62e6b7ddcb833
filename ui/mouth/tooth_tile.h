#pragma once

#include "ui/drafts/tile_face.h"

#include <QWidget>

#include <map>

namespace gk::ui {

class SurfaceTarget;

/// One big tile: words above and below, and its sealable surfaces as targets of their own. Drawn
/// from its face alone. Words are as large as the look asks and the tile has room for.
class ToothTile final : public QWidget {
  Q_OBJECT

 public:
  explicit ToothTile(QWidget* parent = nullptr);

  void setFace(const TileFace& face, bool selected);
  [[nodiscard]] bool isSelected() const { return selected_; }
  [[nodiscard]] QSize minimumSizeHint() const override;

 Q_SIGNALS:
  void pressed();
  void surfacePressed(dentition::Surface surface);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  /// Words above and below the surfaces in full, or in one line each, or all beside them.
  enum class Shape { tall, small, low };
  [[nodiscard]] Shape shape() const;
  [[nodiscard]] int smallTitleRoom() const;
  void placeTargets();
  void paintTall(QPainter& painter);
  void paintSmall(QPainter& painter);
  void paintLow(QPainter& painter);

  std::optional<TileFace> face_;
  std::map<dentition::Surface, SurfaceTarget*> targets_;
  bool selected_ = false;
};

} // namespace gk::ui
