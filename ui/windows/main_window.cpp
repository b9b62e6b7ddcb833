#include "ui/windows/main_window.h"

#include "ui/support/kept_file.h"
#include "ui/support/laptop.h"
#include "ui/support/message.h"
#include "ui/support/text.h"
#include "ui/windows/book_view.h"
#include "ui/windows/start_page.h"

#include <QStackedWidget>

namespace gk::ui {

MainWindow::MainWindow(Machine machine, const PrompterFor& prompter)
    : machine_(std::move(machine)), prompter_(prompter(this)), stack_(new QStackedWidget(this)),
      start_(new StartPage(*prompter_, recentBook(machine_.folder), stack_)) {
  setWindowTitle(u"Groovekeeper"_s);
  stack_->addWidget(start_);
  setCentralWidget(stack_);
  resize(1366, 740);
  connect(start_, &StartPage::openWanted, this, &MainWindow::openBook);
  connect(start_, &StartPage::newWanted, this, &MainWindow::newBook);
  start_->setFocus();
}

MainWindow::~MainWindow() = default;

void MainWindow::openBook(const QString& path) {
  adopt(session::Session::open(toStd(path), machine_.laptop, {machine_.clock, machine_.random}, {},
                               machine_.kind, store::Checkup::meanwhile));
}

void MainWindow::newBook(const QString& path, const QString& passphrase) {
  adopt(session::Session::create(toStd(path), toStd(passphrase), machine_.laptop,
                                 {machine_.clock, machine_.random}, machine_.kind));
  // The passphrase was typed twice just now; asking a third time would teach nothing.
  if (book_) book_->unlock(passphrase);
}

void MainWindow::adopt(base::Result<session::Session> session) {
  if (!session) return start_->refuse(inOneLine(describe(session.error())));
  const auto remembered = rememberBook(machine_.folder, session->path());
  book_ = std::make_unique<BookView>(std::move(*session), machine_.clock, *prompter_, machine_.idle,
                                     stack_);
  keepHabits();
  if (machine_.speaker) book_->hearOn(*machine_.speaker);
  stack_->addWidget(book_.get());
  stack_->setCurrentWidget(book_.get());
  book_->setFocus();
  if (!remembered) start_->refuse(inOneLine(describe(remembered.error())));
}

void MainWindow::keepHabits() {
  auto& acting = book_->acting();
  const auto read = readKept(machine_.folder);
  const auto today = machine_.clock.now().date();
  acting.keep(read.kept.habits);
  if (read.kept.on == today) acting.change(stillUsable(read.kept.setup, book_->session(), today));
  if (!read.trouble.isEmpty()) book_->warn(read.trouble);
  const auto write = [this] {
    const auto& now = book_->acting();
    const auto written =
        writeKept(machine_.folder, {now.habits(), machine_.clock.now().date(), now.now()});
    if (!written) book_->warn(inOneLine(describe(written.error())));
  };
  connect(&acting, &Acting::changed, this, write);
  connect(&acting, &Acting::habitsChanged, this, write);
}

} // namespace gk::ui
