#include "base/text/text.h"
#include "reports/day/close_out_tables.h"
#include "reports/day/close_out_words.h"
#include "reports/day/return_visits.h"
#include "reports/display_names.h"
#include "ui/close_out/close_out_page.h"
#include "ui/close_out/close_out_words.h"
#include "ui/support/text.h"

#include <QLabel>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <ranges>

// The close-out as steps: how far each is, and lines of one kind answered together.
namespace gk::ui {

using namespace reports::close_out;

/// Students without an outcome whom no one saw are one line, and so are the teeth of a student.
void CloseOutPage::fold() {
  fixes_.clear();
  unreferred_.clear();
  const auto& all = sheet_->blockers;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (all[i].kind == reports::BlockerKind::noReferral) unreferred_.push_back(i);
  const auto isAlike = [&](const reports::Blocker& one, const reports::Blocker& other) {
    if (one.kind != other.kind) return false;
    if (one.kind == reports::BlockerKind::toothWithoutReason) return one.child == other.child;
    return one.kind == reports::BlockerKind::noOutcome && !wasSeen(*one.child) &&
           !wasSeen(*other.child);
  };
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto known = std::ranges::find_if(
        fixes_, [&](const FixRow& row) { return isAlike(all[row.front()], all[i]); });
    if (known == fixes_.end())
      fixes_.push_back({i});
    else
      known->push_back(i);
  }
  // Whoever must be called today comes first.
  std::ranges::stable_partition(fixes_, [&](const FixRow& row) {
    return all[row.front()].kind == reports::BlockerKind::urgentNotCalled ||
           all[row.front()].kind == reports::BlockerKind::noReferral;
  });
}

bool CloseOutPage::wasSeen(const roster::ChildId& child) const {
  const auto line = std::ranges::find(sheet_->lines, child, &reports::ChildLine::child);
  return line != sheet_->lines.end() && (line->urgency || !line->sealed.empty());
}

QString CloseOutPage::nameOf(const roster::ChildId& child) const {
  for (const auto* lines : {&sheet_->lines, &sheet_->stillToSee})
    for (const auto& line : *lines)
      if (line.child == child) return toQt(line.shown);
  const auto letter = std::ranges::find(sheet_->letters, child, &reports::LetterLine::child);
  return letter == sheet_->letters.end() ? u"the student on this line"_s : toQt(letter->shown);
}

reports::Table CloseOutPage::fixTable(const reports::Table& whole) const {
  auto folded = whole;
  folded.rows.clear();
  for (const auto& row : fixes_) {
    auto cells = whole.rows.at(row.front());
    const auto& first = sheet_->blockers[row.front()];
    if (row.size() > 1 && first.kind == reports::BlockerKind::noOutcome)
      cells.front() = base::counted(row.size(), "student", "students");
    else if (row.size() > 1)
      cells.back() = cells.back().with(" (" + base::counted(row.size(), "tooth", "teeth") + ")");
    folded.rows.push_back(std::move(cells));
  }
  return folded;
}

reports::Table CloseOutPage::withGuardians(reports::Table whole,
                                           const std::vector<roster::ChildId>& children) const {
  if (!book().isUnlocked() || whole.rows.size() != children.size()) return whole;
  for (const auto* heading : {"Parent", "Phone", "Language"})
    whole.columns.push_back({heading});
  for (std::size_t i = 0; i < whole.rows.size(); ++i) {
    const auto identity = book().identity(children[i]);
    std::array<std::string, 3> cells;
    if (identity)
      for (const auto& guardian : identity->guardians) {
        const auto put = [](std::string& cell, const std::string& more) {
          if (more.empty()) return;
          cell += (cell.empty() ? "" : "; ") + more;
        };
        put(cells[0], guardian.name);
        put(cells[1], guardian.phone);
        put(cells[2], guardian.language);
      }
    whole.rows[i].insert(whole.rows[i].end(), cells.begin(), cells.end());
  }
  return whole;
}

reports::Table CloseOutPage::referralsToShow(const reports::Table& whole) const {
  auto shown = whole;
  for (const auto at : unreferred_ | std::views::reverse) {
    const auto& open = sheet_->blockers[at];
    const auto line = std::ranges::find(sheet_->lines, *open.child, &reports::ChildLine::child);
    reports::Cells cells(shown.columns.size(), reports::Cell(reports::nothing));
    cells.at(0) = open.shown;
    if (line != sheet_->lines.end() && line->urgency) cells.at(1) = *line->urgency;
    cells.at(2) = open.what;
    cells.back() = "TO DO";
    shown.rows.insert(shown.rows.begin(), std::move(cells));
  }
  return shown;
}

std::vector<PartState> CloseOutPage::steps() const {
  using Mark = PartState::Mark;
  const auto& sheet = *sheet_;
  const auto left = [](std::size_t count) {
    return count == 0 ? u"none"_s : u"%1 to do"_s.arg(count);
  };
  const auto step = [](int section, const QString& words, const QString& state, bool isDone,
                       Mark otherwise = Mark::open) {
    return PartState{section, words, state, isDone ? Mark::done : otherwise};
  };
  const auto uncalled = static_cast<std::size_t>(std::ranges::count_if(
      sheet.urgent, [](const auto& line) { return !line.reached && !line.next.empty(); }));
  const auto sums = reports::letterSums(sheet.letters);
  const auto due = sums.seen + sums.absent;
  const auto printed = sums.seenWith + sums.absentWith;
  const auto inError = std::ranges::count_if(sheet.letters, &reports::LetterLine::isInError);
  const auto uncounted = static_cast<std::size_t>(
      std::ranges::count_if(sheet.papers, [](const auto& line) { return !line.isSettled(); }));
  const auto noBackup = static_cast<std::size_t>(
      std::ranges::count_if(sheet.laptops, [](const auto& line) { return !line.isBackedUp(); }));
  const auto unsaid = reports::unconfirmedWords(sheet).empty();
  const auto returning = reports::returnVisits(sheet).size();
  const int difference = std::abs(sheet.equation.difference());
  const auto number = [](std::size_t count) { return QString::number(count); };
  const auto made =
      sheet.referrals.empty() ? u"none made"_s : u"%1 made"_s.arg(sheet.referrals.size());
  return {step(urgent, u"Urgent calls"_s,
               sheet.urgent.empty() ? u"none today"_s
                                    : u"%1 of %2 to call"_s.arg(uncalled).arg(sheet.urgent.size()),
               uncalled == 0, Mark::urgent),
          step(reports::close_out::sums, u"Students accounted for"_s,
               difference == 0 ? u"all %1"_s.arg(sheet.equation.consented)
                               : u"%1 left"_s.arg(difference),
               difference == 0 && sheet.equation.odd.empty(), Mark::urgent),
          step(blockers, u"Fix before signing"_s, left(sheet.blockers.size()),
               sheet.blockers.empty(), Mark::urgent),
          step(questions, u"Laptop conflicts"_s, left(sheet.questions.size()),
               sheet.questions.empty(), Mark::urgent),
          step(referrals, u"Referrals"_s,
               unreferred_.empty() ? made : u"%1 to do, "_s.arg(unreferred_.size()) + made,
               unreferred_.empty(), Mark::urgent),
          step(letters, u"Letters home"_s,
               (due == 0 ? u"none due"_s : u"%1 of %2 printed"_s.arg(printed).arg(due)) +
                   (inError > 0 ? u", %1 by mistake"_s.arg(inError) : QString()),
               printed == due && inError == 0),
          step(toSee, u"Return visits"_s, returning == 0 ? u"none"_s : number(returning), true),
          step(supplies, u"Supplies and lots"_s,
               sheet.supplies.empty() ? u"none used"_s : u"%1 used"_s.arg(sheet.supplies.size()),
               std::ranges::all_of(sheet.supplies,
                                   [](const auto& line) { return line.opened.has_value(); })),
          step(papers, u"Printed lists"_s,
               uncounted > 0        ? u"%1 to count"_s.arg(uncounted)
               : sheet.paperCounted ? u"counted"_s
                                    : u"not counted"_s,
               uncounted == 0 && sheet.paperCounted),
          step(incidents, u"Incidents"_s,
               sheet.incidents.empty() ? u"none"_s : number(sheet.incidents.size()), true),
          step(effort, u"Staff and chair hours"_s, sheet.effort ? u"entered"_s : u"not entered"_s,
               sheet.effort.has_value()),
          step(confirmed, u"Placements confirmed"_s, unsaid ? u"all"_s : u"not yet"_s, unsaid),
          step(laptops, u"Backups"_s,
               u"%1 of %2"_s.arg(sheet.laptops.size() - noBackup).arg(sheet.laptops.size()),
               noBackup == 0),
          {eachChild, u"Students"_s, number(sheet.lines.size())},
          {unfinishedTeeth, u"Unfinished teeth"_s, number(sheet.unfinished.size())},
          {exceptions, u"Exceptions"_s, number(sheet.exceptions.size())},
          {counts, u"Counts"_s, {}},
          {lateEntries, u"Late entries"_s, number(sheet.lateEntries.size())}};
}

void CloseOutPage::showSheet(const std::vector<reports::Table>& tables) {
  title_->setText(u"Close out the day"_s);
  equation_->setText(
      toQt(sheet_->school + ", " + sheet_->date.weekday() + ", " + sheet_->date.words()) + u"\n"_s +
      equationWords(sheet_->equation));
  verdict_->setText(verdictWords(*sheet_));
  const bool isFirst = browser_->tables().empty();
  auto shown = tables;
  shown.at(blockers) = fixTable(tables.at(blockers));
  const auto childrenOf = [](const auto& lines) {
    std::vector<roster::ChildId> children;
    for (const auto& line : lines)
      children.push_back(line.child);
    return children;
  };
  shown.at(urgent) = withGuardians(tables.at(urgent), childrenOf(sheet_->urgent));
  std::vector<roster::ChildId> referred;
  for (const auto place : unreferred_)
    referred.push_back(*sheet_->blockers[place].child);
  for (const auto& line : sheet_->referrals)
    referred.push_back(line.child);
  shown.at(referrals) = withGuardians(referralsToShow(tables.at(referrals)), referred);
  browser_->setSteps(steps(), std::move(shown));
  // What has to be done comes first.
  if (isFirst) browser_->choose(blockers);
  showActs(browser_->section());
}

/// Many students whom no one saw: one answer for all, or each by itself.
void CloseOutPage::outcomesOf(const FixRow& row) {
  using chairside::DayEnd;
  std::vector<roster::ChildId> children;
  for (const auto place : row)
    children.push_back(*sheet_->blockers[place].child);
  const auto many = counted(std::ssize(children), "student", "students");
  constexpr std::array ends{DayEnd::absent, DayEnd::notReached};
  QStringList options{u"One by one"_s};
  for (const auto end : ends)
    options += u"All %1: %2"_s.arg(children.size()).arg(toQt(base::displayName(end)));
  const auto chosen = context().prompter.decide(
      u"%1 without an outcome. How did the day end?"_s.arg(many), options);
  if (!chosen) return;
  if (*chosen == 0) {
    for (const auto& child : children)
      if (!outcomeOf(child)) return;
    return;
  }
  const auto end = ends.at(static_cast<std::size_t>(*chosen) - 1);
  const auto by = context().acting.by(base::Station::closeOut);
  for (const auto& child : children)
    if (!went(book().endVisit(by, {child, *day_, end, {}}, session::Confirmed::yes))) return;
  Q_EMIT said(u"%1: %2. A new outcome replaces it."_s.arg(many, toQt(base::displayName(end))));
}

void CloseOutPage::showQuestions() {
  browser_->choose(questions);
}

} // namespace gk::ui
