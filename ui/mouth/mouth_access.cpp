#include "ui/mouth/mouth_access.h"

#include "ui/mouth/mouth_map.h"
#include "ui/mouth/surface_target.h"
#include "ui/mouth/tooth_tile.h"
#include "ui/support/text.h"

#include <QAccessibleWidget>

namespace gk::ui {

namespace {

class TileAccess final : public QAccessibleWidget {
 public:
  explicit TileAccess(ToothTile* tile)
      : QAccessibleWidget(tile, QAccessible::ListItem), tile_(tile) {}

  [[nodiscard]] QAccessible::State state() const override {
    auto now = QAccessibleWidget::state();
    now.selectable = true;
    now.selected = tile_->isSelected();
    return now;
  }
  [[nodiscard]] QStringList actionNames() const override { return {pressAction()}; }
  void doAction(const QString& name) override {
    if (name == pressAction()) Q_EMIT tile_->pressed();
  }

 private:
  ToothTile* tile_;
};

class SurfaceAccess final : public QAccessibleWidget {
 public:
  explicit SurfaceAccess(SurfaceTarget* target)
      : QAccessibleWidget(target, QAccessible::CheckBox), target_(target) {}

  [[nodiscard]] QAccessible::State state() const override {
    auto now = QAccessibleWidget::state();
    now.checkable = true;
    now.checked = target_->isChosen();
    return now;
  }
  [[nodiscard]] QStringList actionNames() const override { return {pressAction()}; }
  void doAction(const QString& name) override {
    if (name == pressAction()) Q_EMIT target_->pressed();
  }

 private:
  SurfaceTarget* target_;
};

QAccessibleInterface* makeMouthAccess(const QString&, QObject* object) {
  if (auto* surface = qobject_cast<SurfaceTarget*>(object)) return new SurfaceAccess(surface);
  if (auto* tile = qobject_cast<ToothTile*>(object)) return new TileAccess(tile);
  if (auto* map = qobject_cast<MouthMap*>(object))
    return new QAccessibleWidget(map, QAccessible::List);
  return nullptr;
}

} // namespace

void makeMouthAccessible() {
  QAccessible::installFactory(&makeMouthAccess);
}

} // namespace gk::ui
