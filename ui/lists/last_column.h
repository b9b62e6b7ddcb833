#pragma once

#include <QObject>

#include <optional>

class QTableView;

namespace gk::ui {

/// The last column of a list takes what room is left. Where its words need more, it keeps what they
/// need, and the list scrolls sideways: nothing is cut.
class LastColumn final : public QObject {
  Q_OBJECT

 public:
  /// Before that, a column gives way: from its usual width to its least, in pixels of usual
  /// letters.
  struct GivesWay {
    int column;
    int least;
    int usual;
  };

  /// Of a list that has its model and its delegate.
  explicit LastColumn(QTableView& table, std::optional<GivesWay> before = {});

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  /// Once what happens now is over: a page fits its columns after it has shown other rows.
  void fitSoon();
  void fit();

  QTableView& table_;
  std::optional<GivesWay> before_;
  bool isSoon_ = false;
};

} // namespace gk::ui
