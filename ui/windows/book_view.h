#pragma once

#include "ui/support/context.h"
#include "ui/support/message.h"

#include <QTimer>
#include <QWidget>

#include <chrono>
#include <memory>
#include <vector>

class QLabel;
class QPushButton;
class QStackedWidget;

namespace gk::ui {

class ChairPage;
class CloseOutPage;
class CoverPage;
class DayBoardPage;
class MessageStrip;
class Page;

/// One open logbook: its pages, the strip of messages above them, and the cover before them.
class BookView final : public QWidget {
  Q_OBJECT

 public:
  /// Locks after `idle` without a key or a click.
  BookView(session::Session session, base::Clock& clock, Prompter& prompter,
           std::chrono::milliseconds idle, QWidget* parent);
  ~BookView() override;

  /// Opens the names and goes on where the chair was left. Says so and stays locked otherwise.
  void unlock(const QString& passphrase);
  void lock(const QString& why);
  [[nodiscard]] session::Session& session() { return session_; }
  [[nodiscard]] Acting& acting() { return acting_; }

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void layOut();
  void addPage(QWidget* page, const QString& words, Qt::Key key, const QString& name);
  void connectPage(Page* page);
  void turnTo(QWidget* page);
  void toChair(roster::ChildId child, roster::DayId day);
  void leaveChair();
  void goOn();
  void readOn();
  void toggleHidden();
  [[nodiscard]] QString runningTimer() const;

  session::Session session_;
  Acting acting_;
  Context context_;
  QTimer idle_;
  QTimer reading_; ///< what is done in small pieces while no key waits
  // Owned here and not by Qt, so that every page goes before the session.
  std::unique_ptr<QStackedWidget> stack_;
  CoverPage* cover_;
  QWidget* work_;
  QWidget* bar_;
  QStackedWidget* pages_;
  QLabel* who_;
  MessageStrip* strip_;
  DayBoardPage* board_ = nullptr;
  ChairPage* chair_ = nullptr;
  CloseOutPage* closeOut_ = nullptr;
  std::vector<std::pair<QWidget*, QPushButton*>> buttons_;
  QWidget* cameFrom_ = nullptr; ///< where to go when the chair is done
};

} // namespace gk::ui
