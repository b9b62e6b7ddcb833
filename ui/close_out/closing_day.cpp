#include "ui/close_out/closing_day.h"

#include "base/text/text.h"
#include "reports/day/close_out_tables.h"
#include "reports/day/close_out_words.h"
#include "reports/day/return_visits.h"
#include "reports/display_names.h"
#include "ui/support/text.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <ranges>
#include <utility>

namespace gk::ui {

using namespace reports::close_out;

namespace {

template <class Line>
std::optional<roster::ChildId> childOf(const std::vector<Line>& lines, std::size_t row) {
  return row < lines.size() ? std::optional(lines[row].child) : std::nullopt;
}

} // namespace

bool ClosingDay::choose(const std::optional<roster::DayId>& day) {
  return std::exchange(chosen_, day) != day;
}

base::Result<base::Done> ClosingDay::read() {
  sheet_.reset();
  tables_.clear();
  day_ = chosen_;
  if (!day_) {
    const auto open = book_.openDayNow();
    if (!open && open.error().code != base::ErrorCode::notFound) return open.error();
    if (!open) return base::Done{};
    day_ = open->id;
  }
  const auto records = book_.dayRecords(*day_);
  if (!records) return records.error();
  const auto names = book_.names(*records);
  if (!names) return names.error();
  sheet_ = std::make_shared<const reports::CloseOut>(reports::closeOut(*records, *names));
  tables_ = reports::closeOutTables(*sheet_);
  fold();
  return base::Done{};
}

/// Students without an outcome whom no one saw are one line, and so are the teeth of a student.
void ClosingDay::fold() {
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
        fixes_, [&](const auto& row) { return isAlike(all[row.front()], all[i]); });
    if (known == fixes_.end())
      fixes_.push_back({i});
    else
      known->push_back(i);
  }
  // Whoever must be called today comes first.
  std::ranges::stable_partition(fixes_, [&](const auto& row) {
    return all[row.front()].kind == reports::BlockerKind::urgentNotCalled ||
           all[row.front()].kind == reports::BlockerKind::noReferral;
  });
}

std::vector<reports::Blocker> ClosingDay::blockersAt(std::size_t row) const {
  std::vector<reports::Blocker> alike;
  for (const auto place : fixes_.at(row))
    alike.push_back(sheet_->blockers[place]);
  return alike;
}

const reports::ReferralLine* ClosingDay::referralAt(std::size_t row) const {
  return row < unreferred_.size() ? nullptr : &sheet_->referrals.at(row - unreferred_.size());
}

bool ClosingDay::wasSeen(const roster::ChildId& child) const {
  const auto line = std::ranges::find(sheet_->lines, child, &reports::ChildLine::child);
  return line != sheet_->lines.end() && (line->urgency || !line->sealed.empty());
}

QString ClosingDay::nameOf(const roster::ChildId& child) const {
  for (const auto* lines : {&sheet_->lines, &sheet_->stillToSee})
    for (const auto& line : *lines)
      if (line.child == child) return toQt(line.shown);
  const auto letter = std::ranges::find(sheet_->letters, child, &reports::LetterLine::child);
  return letter == sheet_->letters.end() ? u"the student on this line"_s : toQt(letter->shown);
}

std::optional<roster::ChildId> ClosingDay::childAt(int section, int row) const {
  if (!sheet_ || row < 0) return std::nullopt;
  const auto& sheet = *sheet_;
  const auto at = static_cast<std::size_t>(row);
  switch (section) {
  case blockers:
    return at < fixes_.size() ? sheet.blockers[fixes_[at].front()].child : std::nullopt;
  case questions: {
    const auto asked = sheet.questions.size();
    if (at < asked) return sheet.questions[at].child;
    if (at - asked >= sheet.answered.size()) return std::nullopt;
    return sheet.answered[at - asked].answer.value.child;
  }
  case urgent:
    return childOf(sheet.urgent, at);
  case eachChild:
    return childOf(sheet.lines, at);
  case unfinishedTeeth:
    return childOf(sheet.unfinished, at);
  case letters:
    return childOf(sheet.letters, at);
  case referrals:
    if (at < unreferred_.size()) return sheet.blockers[unreferred_[at]].child;
    return childOf(sheet.referrals, at - unreferred_.size());
  case toSee:
    return childOf(reports::returnVisits(sheet), at);
  case lateEntries:
    return childOf(sheet.lateEntries, at);
  case exceptions:
    return childOf(sheet.exceptions, at);
  default:
    return std::nullopt;
  }
}

void ClosingDay::addGuardians(reports::Table& whole, int section, std::size_t children) const {
  if (!book_.isUnlocked() || whole.rows.size() != children) return;
  for (const auto* heading : {"Parent", "Phone", "Language"})
    whole.columns.push_back({heading});
  for (std::size_t i = 0; i < whole.rows.size(); ++i) {
    const auto identity = book_.identity(*childAt(section, static_cast<int>(i)));
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
}

std::vector<reports::Table> ClosingDay::shown() const {
  auto all = tables_;
  auto& toFix = all.at(blockers).rows;
  toFix.clear();
  for (const auto& row : fixes_) {
    auto cells = tables_.at(blockers).rows.at(row.front());
    const bool isOutcome = sheet_->blockers[row.front()].kind == reports::BlockerKind::noOutcome;
    if (row.size() > 1 && isOutcome)
      cells.front() = base::counted(row.size(), "student", "students");
    else if (row.size() > 1)
      cells.back() = cells.back().with(" (" + base::counted(row.size(), "tooth", "teeth") + ")");
    toFix.push_back(std::move(cells));
  }
  // Who needs a referral and has none comes first.
  auto& referred = all.at(referrals);
  for (const auto at : unreferred_ | std::views::reverse) {
    const auto& open = sheet_->blockers[at];
    const auto line = std::ranges::find(sheet_->lines, *open.child, &reports::ChildLine::child);
    reports::Cells cells(referred.columns.size(), reports::Cell(reports::nothing));
    cells.at(0) = open.shown;
    if (line != sheet_->lines.end() && line->urgency) cells.at(1) = *line->urgency;
    cells.at(2) = open.what;
    cells.back() = "TO DO";
    referred.rows.insert(referred.rows.begin(), std::move(cells));
  }
  addGuardians(all.at(urgent), urgent, sheet_->urgent.size());
  addGuardians(referred, referrals, unreferred_.size() + sheet_->referrals.size());
  return all;
}

QString ClosingDay::head() const {
  const auto& sums = sheet_->equation;
  return toQt(sheet_->school + ", " + sheet_->date.weekday() + ", " + sheet_->date.words()) +
         u"\nConsented %1  =  screened %2  +  absent %3  +  declined %4  +  left %5  +  "
         "withdrawn %6  +  on hold %7  +  not seen %8"_s.arg(sums.consented)
             .arg(sums.screened)
             .arg(sums.absent)
             .arg(sums.declined)
             .arg(sums.left)
             .arg(sums.withdrawn)
             .arg(sums.onHold)
             .arg(sums.notReached);
}

QString ClosingDay::verdict() const {
  const auto sign = !sheet_->mayClose() ? u"✖ "_s : sheet_->closed ? u"■ "_s : u"✔ "_s;
  return sign + toQt(reports::verdictOf(*sheet_));
}

std::vector<PartState> ClosingDay::steps() const {
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

} // namespace gk::ui
