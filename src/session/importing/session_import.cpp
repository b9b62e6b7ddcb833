#include "roster/list/list_columns.h"
#include "session/desk/importing.h"
#include "session/reader_held.h"
#include "session/session_write.h"
#include "session/undo/undo_history.h"

#include <algorithm>
#include <ranges>
#include <set>

namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

/// On every row that an import changes; who imported and when is on the act.
constexpr auto byList = "as on the school's list";

struct ChangeRows {
  ChangedChild to;
  std::vector<Recorded<store::SealedIdentity>> boxes;
  std::vector<Recorded<roster::Background>> backgrounds;
};

} // namespace

Result<std::vector<roster::ChildId>> DeskVerbs::importRoster(By by, RosterImport import) {
  const auto may = admit(Verb::importRoster, by);
  if (!may) return may.error();
  if (!vault_) return Error{ErrorCode::vaultLocked, "unlock the logbook to import a list"};
  if (const auto newest = sealsWithNewest(); !newest) return newest.error();
  // A list that says nothing new is no act, whatever was said of its columns.
  if (import.entering.empty() && import.changed.empty()) return std::vector<roster::ChildId>();
  const auto school = only<roster::School>(store::subjectIs(import.school), "school");
  if (!school) return school.error();
  const auto works = worksAt(import.school, world_.clock.now().date());
  if (!works) return works.error();
  const auto ages = import.agesConfirmed ? Confirmed::yes : Confirmed::no;
  if (const auto sound = makeSound(import.entering, ages); !sound) return sound.error();
  if (!import.othersConfirmed)
    if (const auto others = areOtherChildren(*this, import.entering, Confirmed::no, import.matched);
        !others)
      return others.error();

  const auto today = world_.clock.now().date();
  std::vector<ChangeRows> changing;
  for (auto& change : import.changed) {
    const auto now = asItStands(change.was);
    if (!now) return now.error();
    change.was = *now;
    const auto grade = roster::parseGrade(change.card.grade);
    if (!grade) return grade.error();
    if (change.card.number != now->value.number || change.card.note != now->value.note)
      return Error{ErrorCode::ruleIdentity,
                   "a list changes neither a student's number nor its note"};
    const auto child = change.was.id;
    if (change.form) {
      if (const auto form = roster::checkForm(change.form(child), today); !form)
        return form.error();
      if (roster::hasLeft(change.card, today))
        return Error{ErrorCode::ruleConsentForm, "student " + now->value.number +
                                                     " left the program, and the list has a new "
                                                     "form; record first that the student came "
                                                     "back"};
    }
    auto boxes = book_.current<store::SealedIdentity>(store::rowsOf("child", child));
    if (!boxes) return boxes.error();
    auto backgrounds = book_.current<roster::Background>(store::rowsOf("child", child));
    if (!backgrounds) return backgrounds.error();
    if (change.identity) {
      if (const auto named = vault::checkIdentity(*change.identity); !named) return named.error();
      if (roster::judgeBirthDate(change.identity->birth, *grade, today) ==
          roster::BirthVerdict::impossible)
        return Error{ErrorCode::ruleBirthDate, "a birth date on the list would not make a student "
                                               "of 3 to 19 years; check the year"};
    }
    changing.push_back({std::move(change), std::move(*boxes), std::move(*backgrounds)});
  }
  auto columns = book_.current<roster::ListColumns>(store::rowsOf("school", import.school));
  if (!columns) return columns.error();

  return write(*may, {}, [&](store::Act& act) {
    std::vector<roster::ChildId> ids;
    for (const auto& entering : import.entering)
      ids.push_back(add(act, entering));
    for (const auto& [to, boxes, backgrounds] : changing) {
      const auto child = to.was.id;
      if (to.card != to.was.value) act.correct(to.was, to.card, byList);
      if (to.identity) {
        const auto sealed =
            vault_->seal(book_.enteredAs(child.uuid()), *to.identity, world_.random);
        replaceAll(act, boxes, store::SealedIdentity{child, sealed.nonce, sealed.box}, byList);
      }
      for (const auto& alert : to.alerts)
        act.add(flagOf(alert, child));
      if (to.form) act.add(to.form(child));
      if (to.background) replaceAll(act, backgrounds, to.background(child), byList);
    }
    const bool isNew = columns->empty() || columns->back().value.columns != import.columns;
    if (!import.columns.empty() && isNew)
      replaceAll(act, *columns, roster::ListColumns{import.school, import.columns}, byList);
    return ids;
  });
}

namespace {

using Rows = std::vector<store::HistoryLine>;

bool isImport(const Rows& act) {
  return !act.empty() && act.front().verb == ruleOf(Verb::importRoster).name;
}

/// The newest import that left something on the child which still stands, or else the one that
/// brought it; empty where none did.
Result<Rows> importOf(store::Book& book, roster::ChildId child) {
  const auto about = book.entriesAbout(child);
  if (!about) return about.error();
  Rows newest;
  for (const auto& entry : *about) {
    auto act = book.actOf(entry);
    if (!act) return act.error();
    if (isImport(*act) && (newest.empty() || newest.front().stamp.entry < act->front().stamp.entry))
      newest = std::move(*act);
  }
  if (!newest.empty()) return newest;
  // A thing's identity is its first row's, and that row is of the act that brought it.
  auto first = book.actOf(base::EntryId(child.uuid()));
  if (!first) return first.error();
  return isImport(*first) ? std::move(*first) : Rows();
}

Error goneOn() {
  return {ErrorCode::ruleReason, "something is recorded on a student of this import already, so it "
                                 "stays; correct the students that are wrong one by one"};
}

/// What takes one row of an import back: what it said before, or nothing.
struct Back {
  base::EntryId carried;
  std::optional<base::EntryId> before{};
};

} // namespace

Result<base::Done> DeskVerbs::takeBackImport(By by, roster::ChildId oneOfThem,
                                             const std::string& reason) {
  const auto may = admit(Verb::takeBackImport, by, {.reason = reason});
  if (!may) return may.error();
  const auto act = importOf(book_, oneOfThem);
  if (!act) return act.error();
  if (act->empty()) return Error{ErrorCode::notFound, "no roster import brought this student"};
  std::set<base::EntryId> ofImport;
  for (const auto& row : *act)
    ofImport.insert(row.stamp.entry);

  std::vector<Back> back;
  std::set<roster::ChildId> children;
  bool isAnyLeft = false;
  for (const auto& row : *act) {
    auto all = book_.rowsOfSubject(row.subject);
    if (!all) return all.error();
    const auto states = statesOf(*all);
    if (row.kind == "retraction") return goneOn();
    if (states.empty()) continue; // taken back one by one before
    const auto child = book_.childOf(row.stamp.entry);
    if (!child) return child.error();
    if (*child) {
      children.insert(**child);
      isAnyLeft = true;
    }
    if (states.back().meant != row.stamp.entry) {
      // How the school's lists are read may have been said again since, and that stays.
      if (!*child) continue;
      return goneOn();
    }
    back.push_back({states.back().carried});
    if (states.size() > 1) back.back().before = states[states.size() - 2].meant;
  }
  if (!isAnyLeft) return Error{ErrorCode::notFound, "this import was already undone"};
  for (const auto& child : children) {
    const auto about = book_.entriesAbout(child);
    if (!about) return about.error();
    for (const auto& entry : *about)
      if (!ofImport.contains(entry) && entry > act->front().stamp.entry) return goneOn();
  }
  forgetRoll();
  return write(*may, {}, [&](store::Act& writing) {
    for (const auto& one : back | std::views::reverse) {
      if (one.before)
        writing.restate(*one.before, one.carried, reason);
      else
        writing.retract(one.carried, reason);
    }
    return base::Done{};
  });
}

} // namespace gk::session
