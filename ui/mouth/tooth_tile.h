#pragma once

#include "ui/drafts/tile_face.h"

#include <QStringList>
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
  /// Of the letters as last drawn, in pixels; 0 before.
  [[nodiscard]] int smallestDrawn() const { return smallest_; }
  /// Of the keys that choose the tooth, as last drawn.
  [[nodiscard]] int capsDrawn() const { return caps_; }
  /// Whether no words had to end in dots.
  [[nodiscard]] bool hasRoom() const { return !cut_; }

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
  [[nodiscard]] QStringList mainWord() const;
  /// The first of these ways that fits, from the left; how wide it is then.
  double write(QPainter& painter, const QRectF& box, const QStringList& ways, int wished,
               bool bold);
  void drew(int pixels);
  void paintCaps(QPainter& painter, const QRectF& room);
  void paintTitle(QPainter& painter, const QRectF& first, const QRectF& second);
  void paintTall(QPainter& painter);
  void paintSmall(QPainter& painter);
  void paintLow(QPainter& painter);

  std::optional<TileFace> face_;
  std::map<dentition::Surface, SurfaceTarget*> targets_;
  bool selected_ = false;
  int smallest_ = 0;
  int caps_ = 0;
  bool cut_ = false;
};

} // namespace gk::ui
