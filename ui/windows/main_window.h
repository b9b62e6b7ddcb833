#pragma once

#include "session/session.h"
#include "ui/asking/prompter.h"

#include <QMainWindow>

#include <chrono>
#include <functional>
#include <memory>

class QStackedWidget;

namespace gk::ui {

class BookView;
class LongWork;
class Speaker;
class ProgramPage;
class StartPage;
class WorkBar;

/// The invented logbook, to try everything on.
struct DemoBook {
  base::Path path;
  std::string passphrase;
};

/// What the window stands on; all of it outlives the window.
struct Machine {
  base::Clock& clock;
  base::Random& random;
  session::HandMemory laptop;
  base::Path folder; ///< where this laptop keeps what is its own
  std::chrono::milliseconds idle{std::chrono::minutes(2)};
  session::BookKind kind = session::BookKind::real;
  Speaker* speaker = nullptr; ///< none: the timer's flash alone
  /// Makes it in that folder, or finds it there; not offered where there is none.
  std::function<base::Result<DemoBook>(const base::Path& folder)> demo{};
};

/// The program's one window: the start page, then the logbook. Its title never names anyone.
class MainWindow final : public QMainWindow {
  Q_OBJECT

 public:
  using PrompterFor = std::function<std::unique_ptr<Prompter>(QWidget*)>;

  MainWindow(Machine machine, const PrompterFor& prompter);
  ~MainWindow() override;

  void openBook(const QString& path);
  /// None before a logbook is open.
  [[nodiscard]] BookView* book() const { return book_.get(); }
  /// All that runs beside the window.
  [[nodiscard]] LongWork& work() { return *work_; }

 protected:
  /// Backs up first where that is due; a drive that is not there never keeps it open for good.
  void closeEvent(QCloseEvent* event) override;

 private:
  void showPage(QWidget* page);
  void openNow(const QString& path);
  /// Asks which, shows what it has and what would be lost, and puts it in the place of the book
  /// that is open, or was open last.
  void restoreBackup();
  void restoreFrom(const base::Path& backup, const base::Path& present);
  /// Asks which, its passphrase and where the logbook in it goes, and opens that.
  void openEnvelope();
  void openDemo();
  /// Asks where, and makes it with its program or not at all.
  void newBook(const roster::Program& program);
  /// What this laptop kept from its last start, and from now on what is chosen.
  void keepHabits();
  void adopt(session::Session session);

  Machine machine_;
  std::unique_ptr<LongWork> work_; // outlives the book
  bool mayClose_ = false;
  bool isClosing_ = false; ///< closeEvent is asking
  std::unique_ptr<Prompter> prompter_;
  QStackedWidget* stack_;
  StartPage* start_;
  ProgramPage* program_;
  QString passphrase_; ///< of the logbook that is being made
  WorkBar* bar_;
  std::unique_ptr<BookView> book_;
};

} // namespace gk::ui
