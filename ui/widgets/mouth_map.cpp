#include "ui/widgets/mouth_map.h"

#include "ui/support/text.h"
#include "ui/widgets/tooth_tile.h"

#include <QGridLayout>
#include <QKeyEvent>
#include <QLabel>

#include <algorithm>
#include <array>

namespace gk::ui {

using dentition::Tooth;

namespace {

struct Spot {
  int row; ///< 0 upper, 1 lower
  int column;
};

constexpr std::array<std::array<int, 4>, 2> chart{{{17, 16, 26, 27}, {47, 46, 36, 37}}};

std::optional<Spot> spotOf(const Tooth& tooth) {
  for (int row = 0; row < 2; ++row)
    for (int column = 0; column < 4; ++column)
      if (chart[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)] == tooth.iso())
        return Spot{row, column};
  return std::nullopt;
}

Tooth at(int row, int column) {
  return dentition::toothAt(chart[static_cast<std::size_t>(std::clamp(row, 0, 1))]
                                 [static_cast<std::size_t>(std::clamp(column, 0, 3))]);
}

/// The first molar of a corner, or the second when the first has the cursor.
Tooth corner(int firstMolar, const Tooth& from) {
  return dentition::toothAt(from.iso() == firstMolar ? firstMolar + 1 : firstMolar);
}

QLabel* sideLabel(const QString& text, QWidget* parent) {
  auto* label = new QLabel(text, parent);
  label->setProperty("look", u"side"_s);
  return label;
}

} // namespace

std::optional<Tooth> toothForKey(int key, const Tooth& from) {
  const auto spot = spotOf(from).value_or(Spot{0, 1});
  switch (key) {
  case Qt::Key_7:
  case Qt::Key_Home:
    return corner(16, from);
  case Qt::Key_9:
  case Qt::Key_PageUp:
    return corner(26, from);
  case Qt::Key_1:
  case Qt::Key_End:
    return corner(46, from);
  case Qt::Key_3:
  case Qt::Key_PageDown:
    return corner(36, from);
  case Qt::Key_Left:
    return at(spot.row, spot.column - 1);
  case Qt::Key_Right:
    return at(spot.row, spot.column + 1);
  case Qt::Key_Up:
    return at(0, spot.column);
  case Qt::Key_Down:
    return at(1, spot.column);
  default:
    return std::nullopt;
  }
}

MouthMap::MouthMap(QWidget* parent)
    : QWidget(parent), corners_(new QGridLayout), more_(new QHBoxLayout),
      selected_(dentition::toothAt(16)) {
  setObjectName(u"mouthMap"_s);
  setAccessibleName(u"Mouth, the child's right on the left"_s);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(4);
  auto* sides = new QHBoxLayout;
  sides->addWidget(sideLabel(u"CHILD'S RIGHT"_s, this));
  sides->addStretch();
  auto* keys = new QLabel(u"7 9 1 3: corner, again: 2nd molar"_s, this);
  keys->setProperty("look", u"small"_s);
  sides->addWidget(keys);
  sides->addStretch();
  sides->addWidget(sideLabel(u"CHILD'S LEFT"_s, this));
  column->addLayout(sides);
  corners_->setSpacing(4);
  column->addLayout(corners_, 1);
  column->addLayout(more_);
}

ToothTile* MouthMap::tile(const Tooth& tooth) {
  if (const auto found = tiles_.find(tooth); found != tiles_.end()) return found->second;
  auto* made = new ToothTile(this);
  connect(made, &ToothTile::pressed, this, [this, tooth] { select(tooth); });
  if (const auto spot = spotOf(tooth))
    corners_->addWidget(made, spot->row, spot->column);
  else
    more_->addWidget(made);
  tiles_.emplace(tooth, made);
  return made;
}

void MouthMap::setFaces(const std::vector<TileFace>& faces) {
  faces_ = faces;
  for (auto& [tooth, widget] : tiles_)
    widget->setVisible(std::ranges::find(faces_, tooth, &TileFace::tooth) != faces_.end());
  refresh();
}

void MouthMap::refresh() {
  for (const auto& face : faces_) {
    auto* widget = tile(face.tooth);
    widget->setFace(face, face.tooth == selected_);
    widget->setVisible(true);
    if (face.tooth == selected_) setAccessibleDescription(face.spoken);
  }
}

void MouthMap::select(const Tooth& tooth) {
  if (tooth == selected_) return;
  selected_ = tooth;
  refresh();
  Q_EMIT selectionChanged();
}

bool MouthMap::press(const QKeyEvent& event) {
  const auto tooth = toothForKey(event.key(), selected_);
  if (!tooth) return false;
  select(*tooth);
  return true;
}

} // namespace gk::ui
