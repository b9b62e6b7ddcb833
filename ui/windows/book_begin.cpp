#include "ui/board/day_board_page.h"
#include "ui/chair/chair_page.h"
#include "ui/desk/desk_page.h"
#include "ui/support/text.h"
#include "ui/widgets/message_strip.h"
#include "ui/windows/book_view.h"
#include "ui/windows/cover_page.h"
#include "ui/windows/program_page.h"

#include <QApplication>
#include <QClipboard>
#include <QLabel>
#include <QLineEdit>
#include <QStackedWidget>

namespace gk::ui {

namespace {

// Some milliseconds of work, so that a key never waits long behind it.
constexpr int childrenAtOnce = 50;
constexpr auto checkAgain = std::chrono::milliseconds(100);

} // namespace

void BookView::unlock(const QString& passphrase, const std::optional<base::MemberId>& who) {
  if (context_.work.hasBook())
    return cover_->refuse(u"The logbook is still busy. Wait a second and try again."_s);
  const auto opened = session_.unlock(toStd(passphrase), who);
  if (!opened) {
    const auto message = describe(opened.error());
    const bool isWait = opened.error().code == base::ErrorCode::vaultWait; // how long
    return cover_->refuse(message.happened + u' ' + message.now +
                          (isWait ? u' ' + capital(message.detail) + u'.' : QString()));
  }
  idle_.start();
  const auto program = session_.program();
  if (!program && program.error().code == base::ErrorCode::notFound) return askProgram();
  enter();
}

/// Every page and every letter speaks of the program.
void BookView::askProgram() {
  if (!program_) {
    program_ = new ProgramPage(
        context_.prompter,
        u"This logbook has no program yet. Nothing in it is lost. Enter the program "
        "to continue."_s,
        u"Save the program"_s, stack_.get());
    stack_->addWidget(program_);
    connect(program_, &ProgramPage::given, this, [this](const roster::Program& program) {
      const auto entered = session_.enterProgram(acting_.by(), program);
      if (!entered) return program_->refuse(inOneLine(describe(entered.error())));
      begin();
    });
  }
  stack_->setCurrentWidget(program_);
  program_->setFocus();
}

void BookView::begin() {
  const bool isFirst = !cameFrom_ && pages_->currentWidget() == board_ && !board_->day();
  stack_->setCurrentWidget(work_);
  if (const auto warning = session_.clockWarning(); !warning.empty())
    strip_->post({u"The clock is wrong."_s, {}, {}, toQt(warning)}, MessageStrip::Until::dismissed);
  if (const auto question = session_.clockQuestion())
    askClock(toQt(*question));
  else if (const auto notice = session_.copyNotice(); !notice.empty())
    strip_->post({toQt(notice), {}, {}}, MessageStrip::Until::dismissed);
  else if (const auto traces = session_.tracesNotice(); !traces.empty())
    strip_->post({toQt(traces), {}, {}}, MessageStrip::Until::dismissed);
  showWho();
  if (isFirst)
    goOn();
  else
    turnTo(pages_->currentWidget());
  reading_.start(0);
}

void BookView::askClock(const QString& question) {
  if (context_.prompter.confirm(question)) return session_.confirmClock();
  strip_->post({u"The laptop's clock is wrong."_s, u"Nothing is recorded under a wrong date."_s,
                u"Set the date and time, then lock (F12) and unlock."_s},
               MessageStrip::Until::dismissed);
}

void BookView::readOn() {
  if (context_.work.hasBook()) return reading_.start(checkAgain);
  // Trouble with the roll comes again, and is said, when someone searches.
  const auto read = session_.readRoll(childrenAtOnce);
  if (read && !*read) return;
  const auto checked = session_.isChecked();
  if (checked && !*checked) return reading_.start(checkAgain);
  reading_.stop();
  if (!checked) strip_->post(describe(checked.error()), MessageStrip::Until::dismissed);
}

void BookView::goOn() {
  turnTo(board_);
  // A program that is being set up goes on where something is missing.
  if (!board_->day() && session_.isSettingUp().value_or(false) && desk_->lead()) {
    turnTo(desk_);
    desk_->lead();
    return;
  }
  if (!board_->day() || !chair_->resume(board_->day()->id)) return;
  turnTo(chair_);
  strip_->say(u"Resumed the open visit."_s +
              (acting_.by().author ? QString() : u" Select the provider (F5)."_s));
}

/// What no page holds: what was looked for, and what was copied, be it from here or not: that
/// cannot be told everywhere.
void BookView::letGo() {
  board_->searchLine()->clear();
  QApplication::clipboard()->clear();
}

void BookView::takeKeys() {
  auto* page = stack_->currentWidget();
  (page == work_ ? pages_->currentWidget() : page)->setFocus();
}

} // namespace gk::ui
