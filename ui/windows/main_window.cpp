#include "ui/windows/main_window.h"

#include "base/files/files.h"
#include "ui/asking/long_work.h"
#include "ui/files/kept_file.h"
#include "ui/support/laptop.h"
#include "ui/support/message.h"
#include "ui/support/text.h"
#include "ui/widgets/work_bar.h"
#include "ui/windows/book_view.h"
#include "ui/windows/program_page.h"
#include "ui/windows/start_page.h"

#include <QCloseEvent>
#include <QStackedWidget>

namespace gk::ui {

MainWindow::MainWindow(Machine machine, const PrompterFor& prompter)
    : machine_(std::move(machine)), work_(std::make_unique<LongWork>()), prompter_(prompter(this)),
      stack_(new QStackedWidget(this)),
      start_(new StartPage(*prompter_, recentBook(machine_.folder), stack_)),
      program_(new ProgramPage(
          *prompter_,
          u"A new logbook needs its program. You can change all of it later. Esc goes back."_s,
          u"Create logbook"_s, stack_)),
      bar_(new WorkBar(*work_, this)) {
  setWindowTitle(u"Groovekeeper"_s);
  stack_->addWidget(start_);
  setCentralWidget(stack_);
  resize(1366, 740);
  connect(start_, &StartPage::openWanted, this, &MainWindow::openBook);
  connect(start_, &StartPage::restoreWanted, this, &MainWindow::restoreBackup);
  connect(start_, &StartPage::envelopeWanted, this, &MainWindow::openEnvelope);
  if (machine_.demo) start_->offerDemo();
  connect(start_, &StartPage::demoWanted, this, &MainWindow::openDemo);
  stack_->addWidget(program_);
  connect(start_, &StartPage::newWanted, this, [this](const QString& passphrase) {
    passphrase_ = passphrase;
    program_->refuse({});
    showPage(program_);
  });
  connect(program_, &ProgramPage::left, this, [this] {
    passphrase_.clear();
    showPage(start_);
  });
  connect(program_, &ProgramPage::given, this, &MainWindow::newBook);
  start_->setFocus();
}

MainWindow::~MainWindow() = default;

void MainWindow::closeEvent(QCloseEvent* event) {
  if (!mayClose_ && book_ && !work_->hasBook()) {
    // What is due is made meanwhile; nothing due says so at once, before this returns.
    isClosing_ = true;
    book_->beforeClosing([this] {
      mayClose_ = true;
      if (!isClosing_) close();
    });
    isClosing_ = false;
  }
  event->setAccepted(mayClose_ || !book_);
}

void MainWindow::showPage(QWidget* page) {
  stack_->setCurrentWidget(page);
  page->setFocus();
}

void MainWindow::openBook(const QString& path) {
  if (!session::Session::isOfOlderVersion(toStd(path))) return openNow(path);
  start_->refuse({});
  const auto open = [path = base::Path(toStd(path)), laptop = machine_.laptop,
                     world = session::World{machine_.clock, machine_.random},
                     kind = machine_.kind](const base::Progress& progress) {
    return session::Session::open(path, laptop, world, {}, kind, session::Checkup::meanwhile,
                                  progress);
  };
  work_->run(LongKind::update, this, open, [this](base::Result<session::Session> session) {
    if (!session) return start_->refuse(inOneLine(describe(session.error())));
    adopt(std::move(*session));
  });
}

void MainWindow::openNow(const QString& path) {
  auto session =
      session::Session::open(toStd(path), machine_.laptop, {machine_.clock, machine_.random}, {},
                             machine_.kind, session::Checkup::meanwhile);
  if (!session) return start_->refuse(inOneLine(describe(session.error())));
  adopt(std::move(*session));
}

void MainWindow::openDemo() {
  const auto demo = machine_.demo(machine_.folder / "demo");
  if (!demo) return start_->refuse(inOneLine(describe(demo.error())));
  openBook(toQt(demo->path.string()));
  if (!book_) return;
  book_->session().confirmClock(); // its days are invented and long ago
  book_->unlock(toQt(demo->passphrase));
}

void MainWindow::newBook(const roster::Program& program) {
  auto path = prompter_->saveFile(u"Where to keep the logbook"_s, u"logbook.gkbook"_s,
                                  u"Logbook (*.gkbook)"_s, FileHolds::sealedNames);
  if (!path) return;
  if (!path->endsWith(u".gkbook"_s)) *path += u".gkbook"_s;
  const auto question = session::Session::firstClockQuestion(machine_.clock.now());
  if (question && !prompter_->confirm(toQt(*question)))
    return program_->refuse(u"Set the laptop's date and time, then save again."_s);
  auto session = session::Session::create(toStd(*path), toStd(passphrase_), machine_.laptop,
                                          {machine_.clock, machine_.random}, program, machine_.kind,
                                          session::Confirmed::yes);
  if (!session) return program_->refuse(inOneLine(describe(session.error())));
  adopt(std::move(*session));
  // The passphrase was typed twice just now; asking a third time would teach nothing.
  book_->unlock(passphrase_);
  passphrase_.clear();
}

void MainWindow::adopt(session::Session session) {
  const auto remembered = rememberBook(machine_.folder, session.path());
  book_ = std::make_unique<BookView>(std::move(session), machine_.clock, *prompter_, *work_,
                                     machine_.idle, stack_);
  connect(book_.get(), &BookView::restoreWanted, this, &MainWindow::restoreBackup,
          Qt::QueuedConnection); // it closes the page that asks
  bar_->standIn(book_->messageLine());
  keepHabits();
  if (machine_.speaker) book_->hearOn(*machine_.speaker);
  stack_->addWidget(book_.get());
  stack_->setCurrentWidget(book_.get());
  book_->takeKeys();
  if (!remembered) start_->refuse(inOneLine(describe(remembered.error())));
}

void MainWindow::keepHabits() {
  auto& acting = book_->acting();
  const auto read = readKept(machine_.folder);
  const auto today = machine_.clock.now().date();
  acting.keep(read.kept.habits);
  if (read.kept.on == today) acting.change(stillUsable(read.kept.setup, book_->session(), today));
  if (!read.trouble.isEmpty()) book_->warn(read.trouble);
  // A backup that was killed left a hidden half there.
  if (const base::Path place = acting.habits().backup.folder; !place.empty())
    base::clearDrafts(place);
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
