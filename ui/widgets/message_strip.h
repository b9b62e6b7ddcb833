#pragma once

#include "ui/support/message.h"

#include <QWidget>

#include <deque>

class QLabel;

namespace gk::ui {

/// Messages in a strip of the page; never a box, since nothing may cover the timer. Troubles wait
/// in a queue until dismissed or until an act succeeds; none of them needs an answer.
class MessageStrip final : public QWidget {
  Q_OBJECT

 public:
  explicit MessageStrip(QWidget* parent = nullptr);

  void post(const Message& trouble);
  /// News that may be missed: shown when no trouble is, until the next.
  void say(const QString& news);
  /// The trouble shown is over; the next in the queue is shown.
  void dismiss();
  /// An act succeeded: what stood here is answered.
  void settle();

  [[nodiscard]] QString text() const;
  [[nodiscard]] bool hasTrouble() const { return !troubles_.empty(); }

 private:
  void refresh();

  QLabel* label_;
  std::deque<QString> troubles_;
  QString news_;
};

} // namespace gk::ui
