#include "ui/close_out/close_out_page.h"

#include "reports/day/close_out_tables.h"
#include "ui/close_out/close_out_entries.h"
#include "ui/close_out/close_out_files.h"
#include "ui/close_out/close_out_signing.h"
#include "ui/keys/flow_layout.h"
#include "ui/keys/key_button.h"
#include "ui/keys/page_head.h"
#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QLabel>
#include <QPushButton>
#include <QShortcut>

#include <algorithm>

namespace gk::ui {

using namespace reports::close_out;

CloseOutPage::CloseOutPage(Context& context, QWidget* parent)
    : Page(context, parent), day_(book()), entries_(new CloseOutEntries(context, day_, this)),
      files_(new CloseOutFiles(context, day_, this)),
      signing_(new CloseOutSigning(context, day_, this)),
      title_(wordsLabel({}, u"title"_s, u"closeOutTitle"_s, this)),
      equation_(wordsLabel({}, u"note"_s, u"closeOutEquation"_s, this)),
      verdict_(wordsLabel({}, u"counts"_s, u"closeOutVerdict"_s, this)),
      browser_(new ReportBrowser(this)) {
  setObjectName(u"closeOutPage"_s);
  layOut();
  connectActs();
  setFocusProxy(browser_);
}

void CloseOutPage::connectActs() {
  tellOf({entries_, files_, signing_});
  connect(browser_, &ReportBrowser::shown, this, &CloseOutPage::showActs);
  connect(browser_, &ReportBrowser::taken, entries_, &CloseOutEntries::take);
  connect(entries_, &CloseOutEntries::childChosen, this, &CloseOutPage::childChosen);
  connect(entries_, &CloseOutEntries::incidentWanted, this, &CloseOutPage::incidentWanted);
  connect(files_, &CloseOutFiles::savedElsewhere, this, &CloseOutPage::savedElsewhere);
  connect(files_, &CloseOutFiles::conflictsFound, this, [this] { browser_->choose(questions); });
  connect(signing_, &CloseOutSigning::daySigned, this, &CloseOutPage::daySigned);
}

void CloseOutPage::layOut() {
  auto* acts = new FlowLayout(8);
  const auto always = [&](const QString& words, Qt::Key key, const QString& name, auto act) {
    auto* made = keyButton(words, QKeySequence(Qt::ALT | key), name, this);
    connect(made, &QPushButton::clicked, this, act);
    return made;
  };
  const auto button = [&](const QString& words, Qt::Key key, const QString& name,
                          std::vector<int> parts, auto act) {
    QPushButton* made = always(words, key, name, act);
    // The key works in every part, also while its button is not shown.
    for (auto* shortcut : made->findChildren<QShortcut*>()) {
      shortcut->setWhatsThis(words);
      shortcut->setParent(this);
    }
    acts->addWidget(made);
    acts_.emplace_back(made, std::move(parts));
    return made;
  };
  const auto ofChild = [this](auto act) {
    return [this, act] {
      const auto child = childHere();
      if (!child) return Q_EMIT said(u"Select a line with a child first."_s);
      (entries_->*act)(*child);
    };
  };
  auto* enter = wordsLabel(u"Enter: open item"_s, u"note"_s, {}, this);
  enter->setWordWrap(false);
  acts->addWidget(enter);
  acts_.emplace_back(enter, std::vector<int>{blockers, questions, supplies, letters, referrals,
                                             papers, effort, confirmed, eachChild, unfinishedTeeth,
                                             toSee, incidents});
  outcome_ = button(u"Outcome"_s, Qt::Key_O, u"closeOutOutcome"_s, {sums, blockers, eachChild},
                    ofChild(&CloseOutEntries::outcome));
  button(u"Log a call"_s, Qt::Key_C, u"closeOutCall"_s, {blockers, urgent, letters},
         ofChild(&CloseOutEntries::call));
  button(u"Referral"_s, Qt::Key_R, u"closeOutRefer"_s, {blockers, urgent, referrals},
         ofChild(&CloseOutEntries::refer));
  button(u"Letters"_s, Qt::Key_L, u"closeOutLetters"_s, {letters, urgent},
         [this] { entries_->writeLetters(childHere()); });
  button(u"Incident"_s, Qt::Key_I, u"closeOutIncident"_s, {incidents, eachChild}, [this] {
    if (day_.id()) Q_EMIT incidentWanted(childHere());
  });
  button(u"Count paper"_s, Qt::Key_K, u"closeOutPaper"_s, {papers},
         [this] { entries_->countPaper(); });
  button(u"Staff and chair hours"_s, Qt::Key_H, u"closeOutEffort"_s, {effort},
         [this] { entries_->sayHours(); });
  button(u"Confirm placements"_s, Qt::Key_Y, u"closeOutConfirm"_s, {confirmed},
         [this] { entries_->confirm(); });
  button(u"Save this list"_s, Qt::Key_V, u"closeOutReturns"_s, {toSee},
         [this] { files_->saveReturns(); });
  button(u"Print this list"_s, Qt::Key_N, u"closeOutReturnsPrint"_s, {toSee},
         [this] { files_->printReturns(); });
  button(u"Back up"_s, Qt::Key_B, u"closeOutBackUp"_s, {laptops}, [this] { files_->backUp(); });
  button(u"Merge laptop"_s, Qt::Key_T, u"closeOutTakeIn"_s, {laptops, questions},
         [this] { files_->takeIn(); });
  reopen_ = button(u"Reopen day"_s, Qt::Key_E, u"closeOutReopen"_s, {sums, lateEntries, confirmed},
                   [this] { signing_->reopen(); });
  lateEntry_ =
      button(u"Late entry"_s, Qt::Key_A, u"closeOutLateEntry"_s, {sums, lateEntries, eachChild},
             [this] { signing_->addLateEntry(childHere()); });
  auto* foot = new QFrame(this);
  foot->setProperty("look", u"card"_s);
  auto* signing = new QBoxLayout(QBoxLayout::LeftToRight, foot);
  signing->setContentsMargins(18, 8, 10, 8);
  signing->addWidget(verdict_, 1);
  auto* lasts = new QBoxLayout(QBoxLayout::LeftToRight);
  signing->addLayout(lasts);
  for (auto* key :
       {always(u"Save report"_s, Qt::Key_S, u"closeOutSave"_s,
               [this] { files_->save(browser_->section()); }),
        always(u"Export for office"_s, Qt::Key_P, u"closeOutPack"_s, [this] { files_->pack(); })}) {
    key->setProperty("look", u"quiet"_s);
    lasts->addWidget(key);
  }
  sign_ = always(u"Sign the day"_s, Qt::Key_G, u"closeOutSign"_s, [this] { signing_->sign(); });
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
}

void CloseOutPage::showActs(int section) {
  for (const auto& [act, parts] : acts_)
    act->setVisible(std::ranges::find(parts, section) != parts.end());
}

std::optional<roster::ChildId> CloseOutPage::childHere() const {
  return day_.childAt(browser_->section(), browser_->row());
}

void CloseOutPage::chooseDay(const std::optional<roster::DayId>& day) {
  if (day_.choose(day)) refresh();
}

void CloseOutPage::refresh() {
  went(day_.read());
  const auto sheet = day_.sheet();
  const bool isSigned = sheet && sheet->closed;
  sign_->setEnabled(sheet && sheet->mayClose() && !isSigned);
  outcome_->setEnabled(sheet && !isSigned);
  for (auto* afterwards : {reopen_, lateEntry_})
    afterwards->setEnabled(isSigned);
  title_->setText(sheet ? u"Close out the day"_s : u"No school day is open"_s);
  equation_->setText(sheet ? day_.head() : QString());
  verdict_->setText(sheet ? day_.verdict() : QString());
  if (!sheet) {
    browser_->setReports({}, {});
    return showActs(-1);
  }
  const bool isFirst = browser_->tables().empty();
  browser_->setSteps(day_.steps(), day_.shown());
  // What has to be done comes first.
  if (isFirst) browser_->choose(blockers);
  showActs(browser_->section());
}

} // namespace gk::ui
