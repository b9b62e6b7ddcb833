#include "ui/lists/board_delegate.h"

#include "ui/keys/icons.h"
#include "ui/look/style.h"
#include "ui/models/board_model.h"
#include "ui/models/identity_words.h"
#include "ui/support/text.h"

#include <QPainter>

namespace gk::ui {

namespace {

struct Pill {
  Icon sign;
  QString words;
  bool stops = false;
  bool asks = false;
};

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
  const int side = metrics.height() - 1;
  double x = option.rect.left() + 3;
  for (const auto& pill : pillsOf(*line)) {
    const QRectF box(x, option.rect.center().y() - high / 2.0 + 0.5,
                     side + metrics.horizontalAdvance(pill.words) + 24, high);
    const auto ground = pill.stops ? style::alarm() : pill.asks ? style::worn().ask : style::sunk();
    const auto ink = pill.stops ? style::worn().onAlarm : style::ink();
    painter->setPen(Qt::NoPen);
    painter->setBrush(ground);
    painter->drawRoundedRect(box, high / 2.0, high / 2.0);
    paintIcon(*painter, {x + 8, box.top() + (high - side) / 2.0, double(side), double(side)},
              pill.sign, ink);
    painter->setPen(ink);
    painter->drawText(box.adjusted(side + 13, 0, 0, 0), Qt::AlignLeft | Qt::AlignVCenter,
                      pill.words);
    x = box.right() + 8;
  }
  painter->restore();
}

} // namespace gk::ui
