#include "ui/models/board_model.h"

#include "base/text/text.h"
#include "ui/look/style.h"
#include "ui/models/identity_words.h"
#include "ui/support/text.h"

#include <QBrush>
#include <QFont>

#include <algorithm>
#include <array>

namespace gk::ui {

namespace {

using session::BoardLine;
using session::Place;

constexpr std::array places{Place::waiting, Place::inChair, Place::parked, Place::done,
                            Place::absent};

std::string digitsOf(std::string_view text) {
  std::string digits;
  for (char c : text)
    if (c >= '0' && c <= '9') digits += c;
  return digits;
}

bool fits(const BoardLine& line, const std::string& wanted) {
  if (base::trim(wanted).empty()) return true;
  const auto digits = digitsOf(wanted);
  if (!digits.empty()) return digitsOf(line.number).starts_with(digits);
  const auto folded = base::folded(wanted);
  const auto name = base::folded(line.name);
  return std::ranges::all_of(base::split(folded, ' '),
                             [&](auto word) { return name.find(word) != std::string::npos; });
}

QString cell(const BoardLine& line, int column) {
  switch (column) {
  case BoardModel::number:
    return toQt(line.number);
  case BoardModel::name:
    return toQt(line.name);
  case BoardModel::room:
    return toQt(line.room);
  case BoardModel::grade:
    return toQt(line.grade);
  case BoardModel::alerts:
    return alertWords(line);
  case BoardModel::age:
    return line.age ? QString::number(*line.age) : QString();
  case BoardModel::outcome:
    return toQt(line.outcome.empty() ? line.plan : line.outcome);
  default:
    return {};
  }
}

QVariant headingData(const QString& words, int column, int role) {
  if (role == Qt::DisplayRole && column == 0) return words;
  if (role == Qt::BackgroundRole) return QBrush(style::sunk());
  if (role == Qt::ForegroundRole) return QBrush(style::ink());
  if (role == Qt::FontRole) {
    QFont bold;
    bold.setPixelSize(style::px(16));
    bold.setBold(true);
    return bold;
  }
  return {};
}

} // namespace

QString placeWords(Place place) {
  switch (place) {
  case Place::waiting:
    return u"Waiting"_s;
  case Place::inChair:
    return u"In the chair"_s;
  case Place::parked:
    return u"In progress"_s;
  case Place::done:
    return u"Done"_s;
  case Place::absent:
    return u"Not seen"_s;
  }
  return {};
}

QString alertWords(const BoardLine& line) {
  QStringList words;
  for (const auto action : {roster::FlagAction::stop, roster::FlagAction::ask})
    for (const auto& flag : line.flags)
      if (flag.action == action)
        words += (action == roster::FlagAction::stop ? u"✖ "_s : u"▲ "_s) + flagName(flag);
  if (line.sameName) words += u"≡ SAME NAME"_s;
  if (line.waitsForDentist) words += u"○ dentist first"_s;
  if (!line.paper.empty()) words += u"✎ paper "_s + toQt(line.paper);
  if (line.recheckDue) words += u"↻ recheck"_s;
  return words.join(u"   "_s);
}

QString paceWords(const session::DayPace& pace) {
  if (pace.seen == 0) return {};
  const auto counts = u"Seen %1, left %2."_s.arg(pace.seen).arg(pace.left);
  const auto note = paceNote(pace);
  return note.isEmpty() ? counts : counts + u' ' + note;
}

QString paceNote(const session::DayPace& pace) {
  if (pace.seen == 0 || !pace.each) return {};
  auto words = u"%1 min a student"_s.arg(pace.each->count());
  if (pace.ends) words += u"; at today's pace done about "_s + toQt(pace.ends->clockWords());
  return words + u'.';
}

void BoardModel::show(std::vector<BoardLine> lines) {
  lines_ = std::move(lines);
  arrange();
}

void BoardModel::search(const QString& wanted) {
  if (wanted == wanted_) return;
  wanted_ = wanted;
  arrange();
}

void BoardModel::arrange() {
  beginResetModel();
  rows_.clear();
  const auto wanted = toStd(wanted_);
  for (const auto place : places) {
    const auto heading = rows_.size();
    for (const auto& line : lines_)
      if (line.place == place && fits(line, wanted)) rows_.emplace_back(line);
    if (rows_.size() == heading) continue;
    const auto words = placeWords(place) + u", "_s + QString::number(countOf(place));
    rows_.insert(rows_.begin() + static_cast<std::ptrdiff_t>(heading), words);
  }
  endResetModel();
}

int BoardModel::countOf(Place place) const {
  return static_cast<int>(
      std::ranges::count_if(lines_, [&](const auto& line) { return line.place == place; }));
}

QString BoardModel::counts() const {
  QStringList words;
  for (const auto place : places)
    words += placeWords(place) + u" "_s + QString::number(countOf(place));
  return words.join(u"    "_s);
}

std::optional<BoardLine> BoardModel::lineAt(int row) const {
  if (row < 0 || row >= rowCount()) return std::nullopt;
  const auto* line = std::get_if<BoardLine>(&rows_[static_cast<std::size_t>(row)]);
  return line ? std::optional(*line) : std::nullopt;
}

std::optional<int> BoardModel::rowOf(const roster::ChildId& child) const {
  for (int row = 0; row < rowCount(); ++row)
    if (const auto line = lineAt(row); line && line->child == child) return row;
  return std::nullopt;
}

std::vector<BoardLine> BoardModel::found() const {
  std::vector<BoardLine> lines;
  for (const auto& row : rows_)
    if (const auto* line = std::get_if<BoardLine>(&row)) lines.push_back(*line);
  return lines;
}

std::vector<int> BoardModel::headingRows() const {
  std::vector<int> rows;
  for (int row = 0; row < rowCount(); ++row)
    if (!lineAt(row)) rows.push_back(row);
  return rows;
}

int BoardModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int BoardModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : int{columns};
}

QVariant BoardModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid()) return {};
  const auto& row = rows_.at(static_cast<std::size_t>(index.row()));
  if (const auto* heading = std::get_if<QString>(&row))
    return headingData(*heading, index.column(), role);
  const auto& line = std::get<BoardLine>(row);
  if (role == Qt::DisplayRole || role == Qt::ToolTipRole) return cell(line, index.column());
  if (role == Qt::AccessibleTextRole && index.column() == alerts) return alertWords(line);
  if (role == Qt::FontRole && index.column() == alerts && line.stopFlag) {
    QFont bold;
    bold.setPixelSize(style::px(16));
    bold.setBold(true);
    return bold;
  }
  return {};
}

QVariant BoardModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  switch (section) {
  case number:
    return u"Number"_s;
  case name:
    return u"Name"_s;
  case room:
    return u"Room"_s;
  case grade:
    return u"Grade"_s;
  case alerts:
    return u"Alerts"_s;
  case age:
    return u"Age"_s;
  case outcome:
    return u"Plan, outcome"_s;
  default:
    return {};
  }
}

Qt::ItemFlags BoardModel::flags(const QModelIndex& index) const {
  // A heading is passed over by the arrow keys.
  return lineAt(index.row()) ? QAbstractTableModel::flags(index) : Qt::NoItemFlags;
}

} // namespace gk::ui
