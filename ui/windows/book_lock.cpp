#include "reports/display_names.h"
#include "ui/board/day_board_page.h"
#include "ui/chair/chair_page.h"
#include "ui/close_out/confirm_placements.h"
#include "ui/support/text.h"
#include "ui/widgets/message_strip.h"
#include "ui/windows/book_view.h"
#include "ui/windows/cover_page.h"

#include <QLabel>
#include <QStackedWidget>

// Who is at the keyboard, and what hides and locks the names.
namespace gk::ui {

namespace {

Person personOf(const base::Recorded<roster::Member>& member, bool hasPin = false) {
  return {member.id,
          toQt(member.value.name + ", " + std::string(base::displayName(member.value.role))),
          hasPin};
}

} // namespace

QString BookView::lockedIdle() {
  return u"Locked for inactivity. Unlock to continue where you were."_s;
}

void BookView::lock(const QString& why) {
  idle_.stop();
  reading_.stop();
  if (namesHidden_) strip_->dismiss(); // what it says of them is over
  namesHidden_ = false;
  // What works elsewhere has names too; what was counted with them is dropped.
  context_.work.cancel();
  if (context_.work.hasBook()) { // it may not be asked who opens
    lockLater_ = why;
    cover_->lock(why);
    stack_->setCurrentWidget(cover_);
    return takeKeys();
  }
  // The cover says that the names are locked; the chair need not say so as well, after unlocking.
  auto* chairStrip = chair_->findChild<MessageStrip*>();
  const bool wasQuiet = chairStrip && !chairStrip->hasTrouble();
  const auto before = session_.signedIn();
  auto offered = std::vector<Person>();
  // First, so that the pages behind it let go of their names and none reads again.
  cover_->lock(why);
  stack_->setCurrentWidget(cover_);
  letGo();
  if (session_.lockByPin() == session::OpenedBy::pin) offered = people(true);
  if (wasQuiet) chairStrip->settle();
  if (offered.empty())
    cover_->lock(why, openers());
  else
    cover_->lockByPin(why, std::move(offered), before);
  takeKeys();
}

std::vector<Person> BookView::openers() {
  std::vector<Person> found;
  if (const auto members = session_.whoOpens())
    for (const auto& one : *members)
      found.push_back(personOf(one));
  return found;
}

std::vector<Person> BookView::people(bool withPinAlone) {
  std::vector<Person> found;
  const auto members = session_.members();
  if (!members) return found;
  for (const auto& one : *members) {
    if (!one.value.may.has(roster::Task::type)) continue;
    const auto state = session_.pinOf(one.id);
    const bool hasPin = state && *state == roster::PinState::set;
    if (hasPin || !withPinAlone) found.push_back(personOf(one, hasPin));
  }
  return found;
}

void BookView::enter() {
  beat_.start();
  const auto pins = session_.hasPins();
  if (!pins || !*pins) return begin();
  acting_.signIn(std::nullopt);
  const auto& setup = acting_.now();
  const auto before = setup.recorder ? setup.recorder : setup.author;
  const auto opener = session_.openedBy(); // by her own passphrase
  cover_->askWho(people(false), opener ? opener : before);
  stack_->setCurrentWidget(cover_);
  takeKeys();
}

void BookView::signInBy(base::MemberId who, const QString& pin) {
  const bool isOpen = session_.isUnlocked();
  session::OwnPin own;
  std::optional<base::Error> trouble;
  if (isOpen) {
    const auto signedIn = session_.signIn(who, toStd(pin));
    if (signedIn)
      own = *signedIn;
    else
      trouble = signedIn.error();
  } else if (const auto opened = session_.unlockByPin(who, toStd(pin)); !opened) {
    trouble = opened.error();
  }
  if (trouble) {
    const auto message = describe(*trouble);
    if (trouble->code == base::ErrorCode::pinSpent) lock(u"The names are locked"_s);
    return cover_->refuse(message.happened + u' ' + message.now + u' ' + capital(message.detail) +
                          u'.');
  }
  acting_.signIn(who);
  // Whoever may place and is alone is the operator, until another is named.
  auto setup = acting_.now();
  if (const auto members = session_.members(); members && !setup.author)
    for (const auto& one : *members)
      if (one.id == who && one.value.may.has(roster::Task::place)) setup.author = who;
  acting_.change(setup);
  idle_.start();
  begin();
  offerToConfirm(who, own);
}

void BookView::offerToConfirm(base::MemberId who, const session::OwnPin& own) {
  if (!offered_.insert(who).second) return;
  const auto days = session_.placementsToConfirm(who);
  if (!days) return strip_->post(describe(days.error()));
  const auto today = context_.clock.now().date();
  for (const auto& day : *days) {
    if (day.on >= today) continue; // at the day's own close-out
    const auto done = confirmPlacements(context_, who, day, own);
    if (!done) return strip_->post(describe(done.error()));
  }
}

void BookView::rest() {
  if (!chair_->isCareOpen()) return lock(lockedIdle());
  namesHidden_ = true;
  idle_.stop();
  reading_.stop();
  letGo();
  session_.lockByPin();
  turnTo(chair_);
  strip_->post({u"Names are hidden for inactivity."_s, u"Nothing is lost; every chair key works."_s,
                u"F12, then unlock, to show them."_s},
               MessageStrip::Until::dismissed);
}

void BookView::beat() {
  if (session_.noticeSleep())
    return lock(u"The laptop slept. Unlock with the passphrase to continue where you were."_s);
  noticeMoved();
  if (namesHidden_ && !chair_->isCareOpen()) lock(lockedIdle());
}

} // namespace gk::ui
