#pragma once

#include "ui/drafts/tile_face.h"
#include "ui/mouth/arch.h"

#include <QWidget>

#include <map>
#include <vector>

class QKeyEvent;
class QLabel;

namespace gk::ui {

class ToothTile;

/// The tooth that an arrow key or a corner of the number pad means, from where the cursor is: 7, 9,
/// 1 and 3 are the corners of the mouth as it is seen, first molar at the first press, second at
/// the next. Empty for every other key.
std::optional<dentition::Tooth> toothForKey(int key, const dentition::Tooth& from);

/// The child's mouth as one looks at it: the two arches with a big tile for each of the eight
/// permanent molars, a row for other teeth, and every sealable surface to be touched. What is shown
/// is given as faces.
class MouthMap final : public QWidget {
  Q_OBJECT

 public:
  explicit MouthMap(QWidget* parent = nullptr);

  /// Faces of the eight permanent molars and of any others, in any order.
  void setFaces(const std::vector<TileFace>& faces);
  [[nodiscard]] const dentition::Tooth& selected() const { return selected_; }
  void select(const dentition::Tooth& tooth);
  /// Whether the key moved the cursor.
  bool press(const QKeyEvent& event);
  [[nodiscard]] QSize minimumSizeHint() const override;

 Q_SIGNALS:
  void selectionChanged();
  /// A finger on a surface; its tooth is selected already.
  void surfacePressed(dentition::Surface surface);

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  ToothTile* tile(const dentition::Tooth& tooth);
  [[nodiscard]] Arch arch() const;
  void refresh();
  void place();

  QLabel* right_;
  QLabel* left_;
  std::map<dentition::Tooth, ToothTile*> tiles_;
  std::vector<TileFace> faces_;
  dentition::Tooth selected_;
};

} // namespace gk::ui
