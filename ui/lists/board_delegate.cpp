#include "ui/lists/board_delegate.h"

#include "ui/keys/icons.h"
#include "ui/look/style.h"
#include "ui/models/board_model.h"
#include "ui/models/identity_words.h"
#include "ui/support/text.h"

#include <QPainter>

#include <algorithm>

namespace gk::ui {

namespace {

constexpr int betweenPills = 8;

int signSide(const QFontMetrics& letters) {
  return letters.height() - 1;
}

double pillWidth(const Pill& pill, const QFontMetrics& letters) {
  return (pill.sign ? signSide(letters) + 24 : 12) + letters.horizontalAdvance(pill.words);
}

std::vector<Pill> pillsOf(const session::BoardLine& line) {
  std::vector<Pill> pills;
  using roster::FlagAction;
  for (const auto& flag : line.flags)
    if (flag.action == FlagAction::stop) pills.push_back({Icon::stop, flagName(flag), true});
  for (const auto& flag : line.flags)
    if (flag.action == FlagAction::ask) pills.push_back({Icon::ask, flagName(flag), false, true});
  if (line.sameName) pills.push_back({Icon::team, u"SAME NAME"_s, false, true});
  if (line.waitsForDentist) pills.push_back({Icon::clock, u"dentist first"_s});
  if (!line.paper.empty()) pills.push_back({Icon::note, u"paper "_s + toQt(line.paper)});
  if (line.recheckDue) pills.push_back({Icon::redo, u"recheck"_s});
  return pills;
}

} // namespace

std::vector<Pill> pillsIn(const session::BoardLine& line, double width,
                          const QFontMetrics& letters) {
  const auto all = pillsOf(line);
  const auto counting = [&](std::size_t shown) {
    return Pill{{}, u"+%1"_s.arg(all.size() - shown), false, false};
  };
  // As many from the first on as leave room for the count of the others.
  for (auto shown = all.size(); shown > 0; --shown) {
    std::vector<Pill> pills(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(shown));
    if (shown < all.size()) pills.push_back(counting(shown));
    double needed = betweenPills * static_cast<double>(pills.size() - 1);
    for (const auto& pill : pills)
      needed += pillWidth(pill, letters);
    if (needed <= width) return pills;
  }
  if (all.empty()) return {};
  // Not even one: its words give way, its sign and the count of the others stay.
  std::vector<Pill> pills{all.front()};
  if (all.size() > 1) pills.push_back(counting(1));
  double room = width - signSide(letters) - 24;
  if (all.size() > 1) room -= betweenPills + pillWidth(pills.back(), letters);
  auto& words = pills.front().words;
  words = letters.elidedText(words, Qt::ElideRight, std::max(0, static_cast<int>(room)));
  return pills;
}

void BoardDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const {
  const auto* model = qobject_cast<const BoardModel*>(index.model());
  const auto line = model ? model->lineAt(index.row()) : std::nullopt;
  if (!line || index.column() != BoardModel::alerts)
    return CellDelegate::paint(painter, option, index);
  auto cell = option;
  initStyleOption(&cell, index);
  cell.text.clear();
  cell.state &= ~QStyle::State_HasFocus;
  const auto* widget = option.widget;
  widget->style()->drawControl(QStyle::CE_ItemViewItem, &cell, painter, widget);
  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  painter->setClipRect(option.rect);
  auto font = option.font;
  font.setPixelSize(style::px(14));
  font.setWeight(QFont::DemiBold);
  painter->setFont(font);
  const QFontMetrics metrics(font);
  const int high = std::min(metrics.height() + style::px(6), option.rect.height() - 4);
  const int side = signSide(metrics);
  constexpr int inset = 3;
  double x = option.rect.left() + inset;
  for (const auto& pill : pillsIn(*line, option.rect.width() - 2 * inset, metrics)) {
    const QRectF box(x, option.rect.center().y() - high / 2.0 + 0.5, pillWidth(pill, metrics),
                     high);
    const auto ground = pill.stops ? style::alarm() : pill.asks ? style::worn().ask : style::sunk();
    const auto ink = pill.stops ? style::worn().onAlarm : style::ink();
    painter->setPen(Qt::NoPen);
    painter->setBrush(ground);
    painter->drawRoundedRect(box, high / 2.0, high / 2.0);
    if (pill.sign)
      paintIcon(*painter, {x + 8, box.top() + (high - side) / 2.0, double(side), double(side)},
                *pill.sign, ink);
    painter->setPen(ink);
    painter->drawText(box.adjusted(pill.sign ? side + 13 : 6, 0, 0, 0),
                      Qt::AlignLeft | Qt::AlignVCenter, pill.words);
    x = box.right() + betweenPills;
  }
  painter->restore();
}

} // namespace gk::ui
