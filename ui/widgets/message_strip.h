#pragma once

#include "ui/support/message.h"

#include <QPointer>
#include <QWidget>

#include <deque>
#include <optional>

class QLabel;

namespace gk::ui {

/// Messages in a strip of the page; never a box, since nothing may cover the timer. Troubles wait
/// in a queue until dismissed or until their cause is gone; none of them needs an answer. A message
/// never moves the page under the mouse: one line of it has its room, more lies over the page.
class MessageStrip final : public QWidget {
  Q_OBJECT

 public:
  /// How long a trouble is true.
  enum class Until {
    nextAct,  ///< an act that went well answers it
    dismissed ///< no act does: the clock is wrong, the file is damaged
  };
  /// Whether the line's room is kept while there is nothing to say.
  enum class Room { whenNeeded, kept };

  explicit MessageStrip(QWidget* parent = nullptr, Room room = Room::whenNeeded);

  void post(const Message& trouble, Until until = Until::nextAct);
  /// News that may be missed: shown when no trouble is, until the next.
  void say(const QString& news);
  /// The trouble shown is over; the next in the queue is shown.
  void dismiss();
  /// An act succeeded: what stood here is answered.
  void settle();

  /// From now on it takes no room, and what it says lies over the page at that height; none: it
  /// has its own line again.
  void layOver(std::optional<int> y);

  /// More than one line lies over what is above it, wherever on the page the strip is.
  void growsUp(bool wanted) { growsUp_ = wanted; }

  [[nodiscard]] QString text() const;
  [[nodiscard]] bool hasTrouble() const { return !troubles_.empty(); }

 protected:
  bool event(QEvent* event) override;

 private:
  struct Trouble {
    QString line;
    Until until;
  };

  void refresh();
  void place();

  Room room_;
  QPointer<QLabel> label_; ///< beside this in the parent, which may delete it first
  std::deque<Trouble> troubles_;
  QString news_;
  std::optional<int> over_;
  bool growsUp_ = false;
};

} // namespace gk::ui
