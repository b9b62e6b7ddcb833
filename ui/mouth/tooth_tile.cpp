#include "ui/mouth/tooth_tile.h"

#include "ui/look/style.h"
#include "ui/look/touch.h"
#include "ui/mouth/surface_target.h"
#include "ui/mouth/tile_words.h"
#include "ui/mouth/tooth_marks.h"
#include "ui/support/text.h"

#include <QMouseEvent>
#include <QPainter>

#include <algorithm>

namespace gk::ui {

using dentition::Surface;

namespace {

constexpr int margin = 12;
/// Room of the lines above and below the surfaces, at the usual size of letters.
constexpr int titleRoom = 58;
constexpr int wordRoom = 66;
/// The same in a small tile; the title takes two lines where there is height.
constexpr int smallRoom = 34;
constexpr int smallTitle = 58;
/// What words need beside the surfaces.
constexpr int wordsBeside = 110;
/// Under this an arm's length hides a word.
constexpr int least = 18;
/// A line of the least letters.
constexpr double leastLine = 21;
/// The key of a corner as a cap.
constexpr double capSide = 22;
constexpr double capsApart = 2;

QString cornerWords(const dentition::Tooth& tooth) {
  return (tooth.isUpper() ? u"Upper "_s : u"Lower "_s) + (tooth.isRight() ? u"right"_s : u"left"_s);
}

/// "UR", where the tile is too narrow for more.
QString shortCorner(const dentition::Tooth& tooth) {
  return QString(tooth.isUpper() ? u'U' : u'L') + (tooth.isRight() ? u'R' : u'L');
}

/// "1st", "2nd", or what else the tooth is.
QString placeWords(const dentition::Tooth& tooth) {
  if (tooth.isFirstPermanentMolar()) return u"1st"_s;
  if (tooth.isSecondPermanentMolar()) return u"2nd"_s;
  return (tooth.isPrimary() ? u"primary "_s : u"place "_s) + QString::number(tooth.position());
}

/// How often the number pad's key of the corner is pressed for the tooth: a second molar's twice.
int pressesOf(const dentition::Tooth& tooth) {
  return tooth.isFirstPermanentMolar() ? 1 : tooth.isSecondPermanentMolar() ? 2 : 0;
}

/// As wide as the caps of a tooth are with what keeps them from the words.
double capsWidth(const dentition::Tooth& tooth) {
  return pressesOf(tooth) * (capSide + capsApart);
}

QFont lettersOf(const QFont& font, int size, bool bold) {
  auto made = font;
  made.setPixelSize(size);
  made.setBold(bold);
  return made;
}

double widthOf(const QFont& font, const QString& words) {
  return QFontMetricsF(font).horizontalAdvance(words);
}

} // namespace

/// As large as wished, or as the box lets them be, or in a shorter way.
double ToothTile::write(QPainter& painter, const QRectF& box, const QStringList& ways, int wished,
                        bool bold) {
  const int most =
      std::max(std::min(style::px(wished), static_cast<int>(box.height() * 0.86)), least);
  auto shown = ways.back();
  auto font = lettersOf(painter.font(), least, bold);
  const auto fits = [&](const QString& way) {
    for (int size = most; size >= least; --size) {
      font.setPixelSize(size);
      if (widthOf(font, way) <= box.width()) return true;
    }
    return false;
  };
  const auto found = std::ranges::find_if(ways, fits);
  shown = found != ways.end()
              ? *found
              : QFontMetrics(font).elidedText(shown, Qt::ElideRight, static_cast<int>(box.width()));
  cut_ = cut_ || found == ways.end();
  painter.setFont(font);
  painter.drawText(box, int{Qt::AlignVCenter} | int{Qt::AlignLeft}, shown);
  drew(font.pixelSize());
  return widthOf(font, shown);
}

/// The caps of the corner's key, from the left of the room on.
void ToothTile::paintCaps(QPainter& painter, const QRectF& room) {
  const auto& tooth = face_->tooth;
  const auto key =
      tooth.isUpper() ? (tooth.isRight() ? u"7"_s : u"9"_s) : (tooth.isRight() ? u"1"_s : u"3"_s);
  painter.save();
  auto font = lettersOf(painter.font(), least, false);
  font.setWeight(QFont::DemiBold);
  painter.setFont(font);
  for (caps_ = 0; caps_ < pressesOf(tooth); ++caps_) {
    const QRectF cap(room.left() + caps_ * (capSide + capsApart), room.center().y() - capSide / 2,
                     capSide, capSide);
    painter.setPen(QPen(style::edge(), 1));
    painter.setBrush(style::sunk());
    painter.drawRoundedRect(cap, 4, 4);
    painter.setPen(style::ink());
    painter.drawText(cap, Qt::AlignCenter, key);
  }
  painter.restore();
}

void ToothTile::drew(int pixels) {
  smallest_ = smallest_ == 0 ? pixels : std::min(smallest_, pixels);
}

ToothTile::ToothTile(QWidget* parent) : QWidget(parent) {}

ToothTile::Shape ToothTile::shape() const {
  if (height() >= titleRoom + style::touch() + wordRoom) return Shape::tall;
  return width() < 2 * style::touch() + style::touchGap() + wordsBeside ? Shape::small : Shape::low;
}

int ToothTile::smallTitleRoom() const {
  return height() >= smallTitle + style::touch() + smallRoom ? smallTitle : smallRoom;
}

QSize ToothTile::minimumSizeHint() const {
  return {2 * style::touch() + style::touchGap() + 2 * margin, 2 * smallRoom + style::touch()};
}

void ToothTile::setFace(const TileFace& face, bool selected) {
  face_ = face;
  selected_ = selected;
  setAccessibleName(face.spoken);
  setObjectName(u"tile%1"_s.arg(face.tooth.iso()));
  const auto shown = dentition::usualSurfaces(face.tooth).with(face.chosen).with(face.covered);
  for (const auto surface : shown.values()) {
    auto*& target = targets_[surface];
    if (!target) {
      target = new SurfaceTarget(surface, this);
      connect(target, &SurfaceTarget::pressed, this,
              [this, surface] { Q_EMIT surfacePressed(surface); });
    }
    target->setFace(face);
  }
  for (auto& [surface, target] : targets_)
    target->setVisible(shown.has(surface));
  placeTargets();
  update();
}

void ToothTile::mousePressEvent(QMouseEvent* event) {
  event->accept();
  Q_EMIT pressed();
}

void ToothTile::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  placeTargets();
}

/// The square and at most one tab beside it; what is left of the width is the square's.
void ToothTile::placeTargets() {
  if (!face_) return;
  const int touch = style::touch();
  const int gap = style::touchGap();
  const int wide = width() - 2 * margin;
  const bool isLow = shape() == Shape::low;
  const int above = isLow ? margin : shape() == Shape::tall ? titleRoom : smallTitleRoom();
  const int below = isLow ? margin : shape() == Shape::tall ? wordRoom : smallRoom;
  const int high = height() - above - below;
  const int tabs = static_cast<int>(targets_.size()) - 1;
  const int beside = tabs > 0 ? touch + gap : 0;
  const int square = std::clamp(std::min(wide - tabs * beside, high), touch, 150);
  const int room = square + tabs * beside;
  const int left = isLow ? width() - margin - room : (width() - room) / 2;
  const int top = above + (high - square) / 2;
  const bool tabIsLeft = tabs > 0 && std::ranges::any_of(targets_, [&](const auto& one) {
                           return tabSide(face_->tooth, one.first) == TabSide::left;
                         });
  int x = tabIsLeft ? left + beside : left;
  for (auto& [surface, target] : targets_) {
    const auto side = tabSide(face_->tooth, surface);
    if (!side)
      target->setGeometry(x, top, square, square);
    else
      target->setGeometry(*side == TabSide::left ? x - beside : x + square + gap,
                          top + (square - std::max(touch, square * 6 / 10)) / 2, touch,
                          std::max(touch, square * 6 / 10));
  }
}

void ToothTile::paintEvent(QPaintEvent*) {
  if (!face_) return;
  smallest_ = 0;
  caps_ = 0;
  cut_ = false;
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setFont(font());
  painter.fillRect(rect(), style::ground());
  const QRectF tile = QRectF(rect()).adjusted(5, 5, -5, -5);
  if (selected_) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(style::strong());
    painter.drawRoundedRect(rect(), 14, 14);
  }
  painter.setPen(Qt::NoPen);
  painter.setBrush(face_->inHand || face_->isNext ? style::hand()
                   : face_->quiet && !selected_   ? style::ground()
                                                  : style::card());
  painter.drawRoundedRect(tile, 10, 10);
  paintOutline(painter, tile, *face_);
  // A neck from each tab to the tooth it belongs to.
  const auto square = targets_.find(Surface::occlusal);
  for (const auto& [surface, target] : targets_) {
    const auto side = tabSide(face_->tooth, surface);
    if (!side || square == targets_.end() || target->isHidden()) continue;
    painter.setPen(QPen(style::edge(), 2, face_->quiet ? Qt::DashLine : Qt::SolidLine));
    painter.drawLine(target->geometry().center(), square->second->geometry().center());
  }
  switch (shape()) {
  case Shape::tall:
    paintTall(painter);
    return;
  case Shape::small:
    paintSmall(painter);
    return;
  case Shape::low:
    paintLow(painter);
    return;
  }
}

void ToothTile::paintTall(QPainter& painter) {
  const auto& face = *face_;
  const QRectF inner = QRectF(rect()).adjusted(margin, 8, -margin, -8);
  painter.setPen(face.quiet ? style::quiet() : style::ink());
  paintTitle(painter, {inner.left(), inner.top(), inner.width(), 28},
             {inner.left(), inner.top() + 27, inner.width(), 28});
  const double below = height() - wordRoom;
  // "SEAL (non-cavitated)" is one large word, and what it is of below it with the surfaces.
  auto detail = face.word.section(u" ("_s, 1, 1).remove(u')');
  write(painter, {inner.left(), below, inner.width(), 34}, mainWord(), face.quiet ? 24 : 26,
        !face.quiet);
  QRectF strip(inner.left(), below + 34, inner.width(), 24);
  if (!face.due.isEmpty()) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(style::strong());
    painter.drawRoundedRect(strip.adjusted(-4, 0, 4, 0), 5, 5);
    painter.setPen(style::onStrong());
    write(painter, strip, waysToSayStrip(face.strip), 20, true);
    return;
  }
  if (!detail.isEmpty() && !face.strip.isEmpty())
    detail += u", "_s + face.strip.section(u' ', -1); // the surfaces
  write(painter, strip, waysToSayStrip(detail.isEmpty() ? face.strip : detail), 18, false);
}

QStringList ToothTile::mainWord() const {
  return waysToSay(face_->word.section(u" ("_s, 0, 0));
}

/// Where the tooth is, its number, and its key: beside the number, or beside the corner's name
/// where the number leaves no room.
void ToothTile::paintTitle(QPainter& painter, const QRectF& first, const QRectF& second) {
  const auto& tooth = face_->tooth;
  const auto place = placeWords(tooth);
  const auto number = u"#"_s + face_->number;
  const double caps = capsWidth(tooth);
  constexpr double apart = 5;
  constexpr int largestNumber = 20;
  int size = std::max(least, std::min(style::px(24), static_cast<int>(second.height() * 0.86)));
  const auto rest = [&] {
    return second.width() - widthOf(lettersOf(font(), size, true), place) - 2 * apart -
           widthOf(lettersOf(font(), std::min(size, largestNumber), false), number);
  };
  while (size > least && rest() < caps)
    --size;
  const bool isBeside = rest() >= caps;
  const double wide = write(painter, isBeside ? first : first.adjusted(0, 0, -caps, 0),
                            {cornerWords(tooth), shortCorner(tooth)}, 24, true);
  if (isBeside) {
    painter.setFont(lettersOf(font(), size, true));
    painter.drawText(second, int{Qt::AlignVCenter} | int{Qt::AlignLeft}, place);
    painter.setFont(lettersOf(font(), std::min(size, largestNumber), false));
    painter.drawText(second, int{Qt::AlignVCenter} | int{Qt::AlignRight}, number);
    drew(std::min(size, largestNumber));
    const double end = widthOf(lettersOf(font(), size, true), place) + apart;
    paintCaps(painter, second.adjusted(end, 0, 0, 0));
    return;
  }
  write(painter, second, {place + u' ' + number, number}, 24, true);
  paintCaps(painter, first.adjusted(wide + apart, 0, 0, 0));
}

void ToothTile::paintSmall(QPainter& painter) {
  const auto& face = *face_;
  const QRectF inner = QRectF(rect()).adjusted(margin - 2, 6, 2 - margin, -6);
  painter.setPen(face.quiet ? style::quiet() : style::ink());
  const double line = (smallTitle - 4) / 2.0;
  if (smallTitleRoom() == smallTitle) {
    paintTitle(painter, {inner.left(), inner.top(), inner.width(), line},
               {inner.left(), inner.top() + line, inner.width(), line});
  } else {
    const QRectF title(inner.left(), inner.top(), inner.width(), smallRoom - 6);
    const auto place = u' ' + placeWords(face.tooth);
    const double wide = write(
        painter, title,
        {cornerWords(face.tooth) + place, shortCorner(face.tooth) + place, u'#' + face.number}, 24,
        !face.quiet);
    const auto room = title.adjusted(wide + 5, 0, 0, 0);
    if (room.width() >= capsWidth(face.tooth)) paintCaps(painter, room);
  }
  const QRectF word(inner.left(), inner.bottom() - smallRoom + 6, inner.width(), smallRoom - 6);
  if (!face.due.isEmpty()) {
    painter.fillRect(word, style::strong());
    painter.setPen(style::onStrong());
  }
  write(painter, word, face.due.isEmpty() ? mainWord() : waysToSayStrip(face.strip), 26,
        !face.quiet);
}

void ToothTile::paintLow(QPainter& painter) {
  const auto& face = *face_;
  int surfaces = width();
  for (const auto& [surface, target] : targets_)
    surfaces = std::min(surfaces, target->x());
  const QRectF inner(margin, 9, surfaces - margin - 6, height() - 18);
  painter.setPen(face.quiet ? style::quiet() : style::ink());
  std::vector<QStringList> lines{
      {cornerWords(face.tooth), shortCorner(face.tooth)},
      {placeWords(face.tooth) + u"  #"_s + face.number, u"#"_s + face.number},
      mainWord(),
      waysToSayStrip(face.strip)};
  // Where not all have room, the number and the word have.
  const auto most =
      static_cast<std::size_t>(std::max(1, static_cast<int>(inner.height() / leastLine)));
  if (lines.size() > most) lines.pop_back();
  while (lines.size() > most)
    lines.erase(lines.begin());
  const double line = inner.height() / static_cast<double>(lines.size());
  for (std::size_t i = 0; i < lines.size(); ++i)
    write(painter, {inner.left(), inner.top() + static_cast<double>(i) * line, inner.width(), line},
          lines[i], i == 3 ? 18 : 24, i != 3);
}

} // namespace gk::ui
