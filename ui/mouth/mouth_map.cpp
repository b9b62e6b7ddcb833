#include "ui/mouth/mouth_map.h"

#include "ui/look/style.h"
#include "ui/mouth/mouth_access.h"
#include "ui/mouth/tooth_tile.h"
#include "ui/support/text.h"

#include <QKeyEvent>
#include <QLabel>
#include <QVariant>

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

QLabel* edgeLabel(const QString& text, const QString& look, QWidget* parent) {
  auto* label = new QLabel(text, parent);
  label->setProperty("look", look);
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
    : QWidget(parent), right_(edgeLabel(u"◀ CHILD'S RIGHT"_s, u"side"_s, this)),
      left_(edgeLabel(u"CHILD'S LEFT ▶"_s, u"side"_s, this)), selected_(dentition::toothAt(16)) {
  makeMouthAccessible();
  setObjectName(u"mouthMap"_s);
  setAccessibleName(u"Mouth, the child's right on the left"_s);
  style::whenDressed(this, [this] { place(); });
}

ToothTile* MouthMap::tile(const Tooth& tooth) {
  if (const auto found = tiles_.find(tooth); found != tiles_.end()) return found->second;
  auto* made = new ToothTile(this);
  connect(made, &ToothTile::pressed, this, [this, tooth] { select(tooth); });
  connect(made, &ToothTile::surfacePressed, this, [this, tooth](dentition::Surface surface) {
    select(tooth);
    Q_EMIT surfacePressed(surface);
  });
  tiles_.emplace(tooth, made);
  return made;
}

void MouthMap::setFaces(const std::vector<TileFace>& faces) {
  faces_ = faces;
  refresh();
  for (auto& [tooth, widget] : tiles_)
    widget->setVisible(std::ranges::find(faces_, tooth, &TileFace::tooth) != faces_.end());
  place();
}

void MouthMap::refresh() {
  for (const auto& face : faces_) {
    tile(face.tooth)->setFace(face, face.tooth == selected_);
    if (face.tooth == selected_) setAccessibleDescription(face.spoken);
  }
}

Arch MouthMap::arch() const {
  const auto others = std::ranges::count_if(
      faces_, [](const TileFace& face) { return !spotOf(face.tooth).has_value(); });
  return {size(), right_->sizeHint().height() + 4, static_cast<int>(others)};
}

QSize MouthMap::minimumSizeHint() const {
  const auto one = ToothTile().minimumSizeHint();
  return {4 * one.width() + 22, 2 * one.height() + right_->sizeHint().height() + 4 + 6};
}

void MouthMap::place() {
  for (auto* label : {right_, left_})
    label->adjustSize();
  right_->move(0, 0);
  left_->move(width() - left_->width(), 0);
  const auto where = arch();
  int others = 0;
  for (const auto& face : faces_)
    tile(face.tooth)
        ->setGeometry(spotOf(face.tooth) ? where.molar(face.tooth) : where.other(others++));
  update();
}

void MouthMap::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  place();
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
