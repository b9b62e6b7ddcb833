#include "ui/close_out/close_out_page.h"

#include "reports/day/close_out_tables.h"
#include "reports/day/return_visits.h"
#include "reports/display_names.h"
#include "ui/close_out/close_out_questions.h"
#include "ui/close_out/close_out_words.h"
#include "ui/close_out/closing_counts.h"
#include "ui/close_out/closing_questions.h"
#include "ui/close_out/letters_desk.h"
#include "ui/close_out/merge_question.h"
#include "ui/keys/flow_layout.h"
#include "ui/keys/key_button.h"
#include "ui/keys/page_head.h"
#include "ui/lists/report_browser.h"
#include "ui/look/style.h"
#include "ui/safety/withdrawal.h"
#include "ui/support/text.h"

#include <QLabel>
#include <QPushButton>
#include <QShortcut>

#include <algorithm>

namespace gk::ui {

using namespace reports::close_out;

namespace {

template <class Line>
std::optional<roster::ChildId> childOf(const std::vector<Line>& lines, int row) {
  const auto place = static_cast<std::size_t>(row);
  if (row < 0 || place >= lines.size()) return std::nullopt;
  return lines[place].child;
}

} // namespace

CloseOutPage::CloseOutPage(Context& context, QWidget* parent)
    : Page(context, parent), title_(wordsLabel({}, u"title"_s, u"closeOutTitle"_s, this)),
      equation_(wordsLabel({}, u"note"_s, u"closeOutEquation"_s, this)),
      verdict_(wordsLabel({}, u"counts"_s, u"closeOutVerdict"_s, this)),
      browser_(new ReportBrowser(this)) {
  setObjectName(u"closeOutPage"_s);
  layOut();
  connect(browser_, &ReportBrowser::taken, this, [this](int section, int row) {
    if (sheet_ && row >= 0) {
      const auto at = static_cast<std::size_t>(row);
      if (section == blockers) return fix(at);
      if (section == questions) return answer(at);
      if (section == letters && sheet_->letters.at(at).stand == reports::LetterStand::handedInError)
        return call();
      if (section == papers) return void(countPaper());
      if (section == effort) return sayHours();
      if (section == supplies) return count(at);
      if (section == referrals) return at < unreferred_.size() ? refer() : follow(at);
      if (section == confirmed) return confirm();
      if (section == incidents) return Q_EMIT incidentWanted(std::nullopt);
    }
    if (const auto child = childAt(section, row)) Q_EMIT childChosen(*child, *day_);
  });
  setFocusProxy(browser_);
}

void CloseOutPage::layOut() {
  auto* acts = new FlowLayout(8);
  const auto button = [&](const QString& words, Qt::Key key, const QString& name,
                          std::vector<int> parts, auto act) {
    auto* made = keyButton(words, QKeySequence(Qt::ALT | key), name, this);
    // The key works in every part, also while its button is not shown.
    for (auto* shortcut : made->findChildren<QShortcut*>()) {
      shortcut->setWhatsThis(words);
      shortcut->setParent(this);
    }
    connect(made, &QPushButton::clicked, this, act);
    acts->addWidget(made);
    acts_.emplace_back(made, std::move(parts));
    return made;
  };
  auto* enter = wordsLabel(u"Enter: open item"_s, u"note"_s, {}, this);
  enter->setWordWrap(false);
  acts->addWidget(enter);
  acts_.emplace_back(enter, std::vector<int>{blockers, questions, supplies, letters, referrals,
                                             papers, effort, confirmed, eachChild, unfinishedTeeth,
                                             toSee, incidents});
  outcome_ = button(u"Outcome"_s, Qt::Key_O, u"closeOutOutcome"_s, {sums, blockers, eachChild},
                    [this] { outcome(); });
  button(u"Log a call"_s, Qt::Key_C, u"closeOutCall"_s, {blockers, urgent, letters},
         [this] { call(); });
  button(u"Referral"_s, Qt::Key_R, u"closeOutRefer"_s, {blockers, urgent, referrals},
         [this] { refer(); });
  button(u"Letters"_s, Qt::Key_L, u"closeOutLetters"_s, {letters, urgent},
         [this] { writeLetters(); });
  button(u"Incident"_s, Qt::Key_I, u"closeOutIncident"_s, {incidents, eachChild}, [this] {
    if (day_) Q_EMIT incidentWanted(childAt(browser_->section(), browser_->row()));
  });
  button(u"Count paper"_s, Qt::Key_K, u"closeOutPaper"_s, {papers}, [this] { countPaper(); });
  button(u"Staff and chair hours"_s, Qt::Key_H, u"closeOutEffort"_s, {effort},
         [this] { sayHours(); });
  button(u"Confirm placements"_s, Qt::Key_Y, u"closeOutConfirm"_s, {confirmed},
         [this] { confirm(); });
  button(u"Save this list"_s, Qt::Key_V, u"closeOutReturns"_s, {toSee}, [this] { saveReturns(); });
  button(u"Print this list"_s, Qt::Key_N, u"closeOutReturnsPrint"_s, {toSee},
         [this] { printReturns(); });
  button(u"Back up"_s, Qt::Key_B, u"closeOutBackUp"_s, {laptops}, [this] { backUp(); });
  button(u"Merge laptop"_s, Qt::Key_T, u"closeOutTakeIn"_s, {laptops, questions},
         [this] { takeIn(); });
  reopen_ = button(u"Reopen day"_s, Qt::Key_E, u"closeOutReopen"_s, {sums, lateEntries, confirmed},
                   [this] { reopen(); });
  lateEntry_ = button(u"Late entry"_s, Qt::Key_A, u"closeOutLateEntry"_s,
                      {sums, lateEntries, eachChild}, [this] { addLateEntry(); });
  const auto always = [&](const QString& words, Qt::Key key, const QString& name, auto act) {
    auto* made = keyButton(words, QKeySequence(Qt::ALT | key), name, this);
    connect(made, &QPushButton::clicked, this, act);
    return made;
  };
  auto* foot = new QFrame(this);
  foot->setProperty("look", u"card"_s);
  auto* signing = new QBoxLayout(QBoxLayout::LeftToRight, foot);
  signing->setContentsMargins(18, 8, 10, 8);
  signing->addWidget(verdict_, 1);
  auto* lasts = new QBoxLayout(QBoxLayout::LeftToRight);
  signing->addLayout(lasts);
  for (auto* key :
       {always(u"Save report"_s, Qt::Key_S, u"closeOutSave"_s, [this] { save(); }),
        always(u"Export for office"_s, Qt::Key_P, u"closeOutPack"_s, [this] { pack(); })}) {
    key->setProperty("look", u"quiet"_s);
    lasts->addWidget(key);
  }
  sign_ = always(u"Sign the day"_s, Qt::Key_G, u"closeOutSign"_s, [this] { sign(); });
  sign_->setProperty("look", u"main"_s);
  lasts->addWidget(sign_);
  // Large letters leave no room beside the sentence; the keys stay in one row, all in sight.
  style::whenDressed(foot, [signing, lasts] {
    for (const auto& [row, most] : {std::pair(signing, 120), {lasts, 150}})
      row->setDirection(lookNow().percent > most ? QBoxLayout::TopToBottom
                                                 : QBoxLayout::LeftToRight);
  });
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(18, 4, 18, 0);
  column->setSpacing(10);
  column->addWidget(new PageHead(title_, equation_, this));
  column->addWidget(browser_, 1);
  column->addLayout(acts);
  column->addWidget(foot);
  connect(browser_, &ReportBrowser::shown, this, &CloseOutPage::showActs);
}

void CloseOutPage::showActs(int section) {
  for (const auto& [act, parts] : acts_)
    act->setVisible(std::ranges::find(parts, section) != parts.end());
}

void CloseOutPage::chooseDay(const std::optional<roster::DayId>& day) {
  if (day == chosen_) return;
  chosen_ = day;
  refresh();
}

void CloseOutPage::refresh() {
  sheet_.reset();
  day_ = chosen_;
  if (!day_) {
    const auto open = book().openDayNow();
    if (open)
      day_ = open->id;
    else if (open.error().code != base::ErrorCode::notFound)
      Q_EMIT failed(describe(open.error()));
  }
  if (day_) {
    const auto records = book().dayRecords(*day_);
    const auto names =
        records ? book().names(*records) : base::Result<reports::Names>(records.error());
    if (went(names)) sheet_ = reports::closeOut(*records, *names);
  }
  sign_->setEnabled(sheet_ && sheet_->mayClose() && !sheet_->closed);
  outcome_->setEnabled(sheet_ && !sheet_->closed);
  for (auto* afterwards : {reopen_, lateEntry_})
    afterwards->setEnabled(sheet_ && sheet_->closed);
  if (!sheet_) {
    title_->setText(u"No school day is open"_s);
    equation_->clear();
    verdict_->clear();
    tables_.clear();
    fixes_.clear();
    unreferred_.clear();
    browser_->setReports({}, {});
    showActs(-1);
    return;
  }
  tables_ = reports::closeOutTables(*sheet_);
  fold();
  showSheet(tables_);
}

std::optional<roster::ChildId> CloseOutPage::childAt(int section, int row) const {
  if (!sheet_) return std::nullopt;
  switch (section) {
  case blockers: {
    const auto place = static_cast<std::size_t>(row);
    if (row < 0 || place >= fixes_.size()) return std::nullopt;
    return sheet_->blockers.at(fixes_[place].front()).child;
  }
  case questions: {
    const auto asked = static_cast<int>(sheet_->questions.size());
    if (row < asked) return childOf(sheet_->questions, row);
    const auto place = static_cast<std::size_t>(row - asked);
    if (place >= sheet_->answered.size()) return std::nullopt;
    return sheet_->answered[place].answer.value.child;
  }
  case urgent:
    return childOf(sheet_->urgent, row);
  case eachChild:
    return childOf(sheet_->lines, row);
  case unfinishedTeeth:
    return childOf(sheet_->unfinished, row);
  case letters:
    return childOf(sheet_->letters, row);
  case referrals: {
    const auto open = static_cast<int>(unreferred_.size());
    if (row >= open) return childOf(sheet_->referrals, row - open);
    if (row < 0) return std::nullopt;
    return sheet_->blockers.at(unreferred_[static_cast<std::size_t>(row)]).child;
  }
  case toSee:
    return childOf(reports::returnVisits(*sheet_), row);
  case lateEntries:
    return childOf(sheet_->lateEntries, row);
  case exceptions:
    return childOf(sheet_->exceptions, row);
  default:
    return std::nullopt;
  }
}

std::optional<roster::ChildId> CloseOutPage::wanted() {
  const auto child = childAt(browser_->section(), browser_->row());
  if (!child) Q_EMIT said(u"Select a line with a child first."_s);
  return child;
}

void CloseOutPage::fix(std::size_t row) {
  const auto alike = fixes_.at(row);
  const auto first = sheet_->blockers.at(alike.front());
  if (alike.size() > 1 && first.kind == reports::BlockerKind::noOutcome) return outcomesOf(alike);
  fix(first);
}

/// Straight to what takes the line away: the question, or the child in the chair.
void CloseOutPage::fix(const reports::Blocker& blocker) {
  switch (blocker.kind) {
  case reports::BlockerKind::noOutcome:
    if (!wasSeen(*blocker.child)) {
      (void)outcomeOf(*blocker.child);
      return;
    }
    break;
  case reports::BlockerKind::urgentNotCalled:
    return call();
  case reports::BlockerKind::noReferral:
    return refer();
  case reports::BlockerKind::toothWithoutReason: {
    const auto given = giveReason(context(), *sheet_, *blocker.child, *day_);
    if (!went(given)) return;
    if (*given) {
      Q_EMIT said(u"Reason saved."_s);
      return;
    }
    break;
  }
  case reports::BlockerKind::lightNotRead:
    noted(readLightAgain(context(), *blocker.light, *day_), u"Light saved."_s);
    return;
  case reports::BlockerKind::paperMissing:
    countPaper();
    return;
  case reports::BlockerKind::lateOnJoinedCard:
    return void(noted(joinAgain(context(), blocker), u"The entries are on the kept card now."_s));
  case reports::BlockerKind::twoOutcomes:
  case reports::BlockerKind::outcomeDisagrees:
  case reports::BlockerKind::noConsent:
  case reports::BlockerKind::fieldUnfinished:
    break;
  }
  Q_EMIT childChosen(*blocker.child, *day_);
}

void CloseOutPage::answer(std::size_t row) {
  const auto words = u"Answer saved; both stay in the history."_s;
  if (row < sheet_->questions.size()) {
    const auto question = sheet_->questions[row];
    noted(answerQuestion(context(), question, *day_), words);
    return;
  }
  const auto old = sheet_->answered.at(row - sheet_->questions.size());
  if (!noted(reopenQuestion(context(), old), u"Answer undone: the conflict is open again."_s))
    return;
  const auto again = std::ranges::find_if(sheet_->questions, [&](const auto& question) {
    return question.child == old.answer.value.child || question.other == old.answer.value.child;
  });
  if (again == sheet_->questions.end()) return;
  const auto question = *again;
  noted(answerQuestion(context(), question, *day_), words);
}

bool CloseOutPage::noted(const base::Result<bool>& result, const QString& words) {
  if (!went(result) || !*result) return false;
  Q_EMIT said(words);
  return true;
}

bool CloseOutPage::countPaper() {
  if (!sheet_) return false;
  const auto sheet = *sheet_; // each count shows a new one
  return noted(countPaperIn(context(), sheet, *day_), u"Sheets counted."_s);
}

void CloseOutPage::count(std::size_t row) {
  const auto line = sheet_->supplies.at(row);
  noted(countSupply(context(), line, *day_), u"Lot saved."_s);
}

void CloseOutPage::sayHours() {
  if (!sheet_) return;
  const auto sheet = *sheet_; // saying it shows a new one
  noted(sayEffort(context(), sheet, *day_), u"Staff and chair hours saved."_s);
}

void CloseOutPage::outcome() {
  if (const auto child = wanted()) (void)outcomeOf(*child);
}

bool CloseOutPage::outcomeOf(const roster::ChildId& chosen) {
  const std::optional child(chosen); // a copy: the sheet changes meanwhile
  const auto name = nameOf(*child);
  const bool isAgain = std::ranges::any_of(
      sheet_->lines, [&](const auto& line) { return line.child == *child && line.outcome; });
  const auto ended = askOutcome(context().prompter, name, *child, *day_);
  if (!ended) return false;
  // What was left out at the chair is the chair's to say; here the day is only brought to its end.
  std::optional<std::string> how;
  if (ended->end == chairside::DayEnd::withdrawn) {
    const auto withdrawn = askWithdrawal(context(), name, *child, how);
    if (!went(withdrawn) || !*withdrawn) return false;
  }
  const auto by = context().acting.by(base::Station::closeOut);
  const bool done = how ? went(book().work(by, {.withdrawal = session::Withdrawal{*child, *how},
                                                .outcome = *ended}))
                        : went(book().endVisit(by, *ended, session::Confirmed::yes));
  if (done)
    Q_EMIT said(u"%1: %2. %3"_s.arg(name, toQt(base::displayName(ended->end)),
                                    isAgain ? u"Previous entry kept in history."_s
                                            : u"A new outcome replaces it."_s));
  return done;
}

void CloseOutPage::call() {
  const auto child = wanted();
  if (!child) return;
  const auto attempt = askContact(context().prompter, nameOf(*child), *child, *day_);
  if (attempt && went(book().enterContact(context().acting.by(), *attempt)))
    Q_EMIT said(u"Call logged."_s);
}

void CloseOutPage::refer() {
  const auto child = wanted();
  if (!child) return;
  const auto referral = askReferral(context().prompter, *sheet_, *child, *day_);
  if (referral && went(book().enterReferral(context().acting.by(), *referral)))
    Q_EMIT said(u"Referral made."_s);
}

void CloseOutPage::follow(std::size_t row) {
  const auto& line = sheet_->referrals.at(row - unreferred_.size());
  const auto records = book().dayRecords(*day_);
  if (!went(records)) return;
  const auto made =
      std::ranges::find(records->referrals, line.id, [](const auto& one) { return one.id; });
  if (made != records->referrals.end())
    noted(followReferral(context(), *made, toQt(line.shown)), u"Referral updated."_s);
}

void CloseOutPage::writeLetters() {
  if (!sheet_) return;
  std::make_shared<LettersDesk>(context(), this, *day_)
      ->work(childAt(browser_->section(), browser_->row()),
             [this](const base::Result<QString>& done) {
               if (went(done) && !done->isEmpty()) Q_EMIT said(*done);
             });
}

} // namespace gk::ui
