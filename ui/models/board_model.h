#pragma once

#include "session/day/day_pace.h"

#include <QAbstractTableModel>

#include <optional>
#include <variant>

namespace gk::ui {

/// The day board: the lines in their groups, each under a heading with its count. Value rows; the
/// page reads them again after every change.
class BoardModel final : public QAbstractTableModel {
  Q_OBJECT

 public:
  enum Columns { number, name, room, grade, age, alerts, outcome, columns };

  using QAbstractTableModel::QAbstractTableModel;

  /// Lines in the order of the session's board.
  void show(std::vector<session::BoardLine> lines);
  /// Keeps what fits: a number from its start, scanned or typed, or every word of a name. Accents
  /// and the order of the words do not matter.
  void search(const QString& wanted);

  /// None on a heading.
  [[nodiscard]] std::optional<session::BoardLine> lineAt(int row) const;
  [[nodiscard]] std::optional<int> rowOf(const roster::ChildId& child) const;
  [[nodiscard]] std::vector<session::BoardLine> found() const;
  [[nodiscard]] std::vector<int> headingRows() const;
  /// "Waiting 5   In the chair 1 ...": the whole day, whatever is searched.
  [[nodiscard]] QString counts() const;
  /// How many are in that place, whatever is searched.
  [[nodiscard]] int countOf(session::Place place) const;

  [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
  [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                    int role) const override;
  [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;

 private:
  void arrange();

  std::vector<session::BoardLine> lines_;
  QString wanted_;
  std::vector<std::variant<QString, session::BoardLine>> rows_;
};

/// "Waiting".
QString placeWords(session::Place place);

/// "Seen 5, left 9. 17 min a student; at today's pace done about 1:40 PM." Empty before the first.
QString paceWords(const session::DayPace& pace);
/// The same without the counts, for where they stand beside it.
QString paceNote(const session::DayPace& pace);

/// Each alert is a shape and a word, never a color alone.
QString alertWords(const session::BoardLine& line);

} // namespace gk::ui
