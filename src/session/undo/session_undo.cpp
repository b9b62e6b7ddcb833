#include "base/text/text.h"
#include "session/rights/act_words.h"
#include "session/session_write.h"
#include "session/undo/undo_history.h"

#include <algorithm>
#include <ranges>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using base::Station;

namespace {

constexpr auto undone = "undone";
constexpr auto redone = "redone";

Error nothing(std::string why) {
  return {ErrorCode::notFound, std::move(why)};
}

bool isAt(const PastAct& act, Station station) {
  return act.rule && act.rows.front().station == station;
}

} // namespace

/// Whether something of an act was not undone or retracted since, be it corrected or not.
Result<bool> Session::isStanding(const std::vector<store::HistoryLine>& rows) {
  for (const auto& row : rows) {
    // Undo leaves an alert where it is, so that it keeps nothing else standing either.
    if (row.kind == "medical_flag" && rows.size() > 1) continue;
    auto all = book_.rowsOfSubject(row.subject);
    if (!all) return all.error();
    for (const auto& state : statesOf(*all))
      if (state.meant == row.stamp.entry) return true;
  }
  return false;
}

/// Whatever day the place shows, the act's own may be another, or signed at the other laptop.
Result<base::Done> Session::isOfOpenDay(const UndoAt& at, base::EntryId row) {
  const auto own = book_.dayOf(row);
  if (!own) return own.error();
  if (!*own) return base::Done{};
  if (at.day && *own != at.day) return nothing("the last act here is of another school day");
  if (const auto open = dayInState(**own, DayMust::beOpen); !open) return open.error();
  return base::Done{};
}

/// The act that undo would take back there, with its rows.
Result<PastAct> Session::lastUndoable(const UndoAt& at) {
  const auto today = world_.clock.now().date();
  if (at.station == Station::chair && !at.child)
    return nothing("no child is in the chair, so there is nothing to undo there");
  if (at.day)
    if (const auto day = dayInState(*at.day, DayMust::beOpen); !day) return day.error();
  PastActs past(book_);
  while (true) {
    auto act = past.next();
    if (!act) return act.error();
    if (!*act) return nothing("nothing to undo here");
    const auto& rows = (*act)->rows;
    const auto* rule = (*act)->rule;
    if (!rule) return nothing("nothing to undo here: what is older was recorded before");
    if (rule->verb == Verb::undo) continue;
    if (rule->takenBack == TakenBack::never)
      return nothing("nothing before this is undone: " + std::string(rule->words) +
                     ". Correct it with a reason instead");
    if (!isAt(**act, at.station)) continue;
    const auto stands = isStanding(rows);
    if (!stands) return stands.error();
    // A seating that was undone ends what undo reaches at the chair all the same.
    if (!*stands && at.child && rule->verb == Verb::seat)
      return nothing("undo ends at the identity check");
    if (!*stands) continue;
    if (rule->takenBack == TakenBack::byOwn)
      return nothing("undo does not take this back: " + std::string(rule->words) +
                     ". Correct it instead");
    if (rows.front().stamp.at.date() != today) return nothing("nothing of today to undo here");
    // A day that was canceled by a wrong key is no open one.
    if (rule->verb != Verb::cancelDay)
      if (const auto ofDay = isOfOpenDay(at, rows.front().stamp.entry); !ofDay)
        return ofDay.error();
    if (at.child) {
      const auto child = book_.childOf(rows.front().stamp.entry);
      if (!child) return child.error();
      if (*child != at.child) return nothing("the last act at the chair is another child's");
    }
    return std::move(**act);
  }
}

Result<UndoableAct> Session::undoable(const UndoAt& at) {
  auto act = lastUndoable(at);
  if (!act) return act.error();
  auto words = wordsOf(*act);
  if (!words) return words.error();
  return UndoableAct{act->act, act->rule->verb, std::move(*words), hasFlowed(book_, act->rows)};
}

Result<std::string> Session::wordsOf(const PastAct& act) {
  auto words = actWords(book_, *act.rule, act.rows);
  if (!words) return words;
  const auto child = book_.childOf(act.rows.front().stamp.entry);
  if (!child) return child.error();
  if (!*child) return words;
  auto name = shortName(**child);
  if (!name) return name;
  return *words + ", " + *name;
}

/// Whether something that stands was done here after this act, wherever in the window.
Result<bool> Session::wentOnAfter(const PastAct& act) {
  PastActs past(book_);
  while (true) {
    auto newer = past.next();
    if (!newer) return newer.error();
    if (!*newer || (*newer)->act == act.act) return false;
    if ((*newer)->rule && (*newer)->rule->verb == Verb::undo) continue;
    auto stands = isStanding((*newer)->rows);
    if (!stands || *stands) return stands;
  }
}

/// The other laptop may have handed it out, or gone on from it.
Result<base::Done> Session::othersLeftIt(const PastAct& act) {
  const auto since = book_.othersSince(act.rows.front().stamp.entry);
  if (!since) return since.error();
  const auto child = book_.childOf(act.rows.front().stamp.entry);
  if (!child) return child.error();
  for (const auto& row : *since) {
    const auto* rule = ruleNamed(row.verb);
    if (rule && rule->takenBack == TakenBack::never)
      return nothing("nothing before this is undone, from the other laptop: " +
                     std::string(rule->words) + ". Correct it with a reason instead");
    if (!*child || !row.current) continue;
    const auto whose = book_.childOf(row.stamp.entry);
    if (!whose) return whose.error();
    if (*whose == *child)
      return nothing("the other laptop recorded this student since; correct it instead");
  }
  return base::Done{};
}

/// What a form allows is not taken from under care that was given.
Result<base::Done> Session::noCareHangsOn(const PastAct& act, roster::ChildId child) {
  const auto has =
      isAny<chairside::Seating, chairside::Screening, chairside::Field, chairside::Placement,
            chairside::Varnish, followup::RetentionCheck>(store::rowsOf("child", child));
  if (!has) return has.error();
  if (*has)
    return nothing("the student was seen since, so the " +
                   std::string(act.rule->verb == Verb::overrideConsent ? "override" : "form") +
                   " stays; withdraw or correct it instead");
  return base::Done{};
}

/// A student who was added, a dentist's word, or a lot, light or school is not taken from under
/// what was done since.
Result<base::Done> Session::nothingHangsOn(const PastAct& act) {
  if (act.rule->atSetup) {
    const auto wentOn = wentOnAfter(act);
    if (!wentOn) return wentOn.error();
    if (*wentOn)
      return nothing("something was recorded since, perhaps with it; correct it, set it aside or "
                     "take it out of service instead");
  }
  for (const auto& row : act.rows) {
    if (row.kind == "child" && !row.stamp.supersedes) { // else it is corrected back, and stays
      auto about = book_.entriesAbout(roster::ChildId(row.subject));
      if (!about) return about.error();
      for (const auto& entry : *about)
        if (std::ranges::find(act.rows, entry, [](const auto& one) { return one.stamp.entry; }) ==
            act.rows.end())
          return nothing("something is recorded on this student since, so the card stays");
    }
    if (row.kind == "consent" || row.kind == "consent_override") {
      const auto child = book_.childOf(row.stamp.entry);
      if (!child) return child.error();
      if (*child)
        if (const auto free = noCareHangsOn(act, **child); !free) return free.error();
    }
    if (row.kind == "authorization") {
      const auto child = book_.childOf(row.stamp.entry);
      if (!child) return child.error();
      auto fields = book_.current<chairside::Field>(store::rowsOf("child", child->value()));
      if (!fields) return fields.error();
      for (const auto& field : *fields)
        if (field.stamp.entry > row.stamp.entry)
          return nothing("teeth were isolated under this authorization since; withdraw it instead");
    }
  }
  return base::Done{};
}

Result<std::string> Session::undo(By by, const UndoAt& at, const std::string& why) {
  auto act = lastUndoable(at);
  if (!act) return act.error();
  by.station = at.station;
  const auto may = admit(Verb::undo, by);
  if (!may) return may.error();
  // Who may not do it may not take it back either.
  if (const auto entitledTo = entitled(may->author().id, act->rule->right, may->on()); !entitledTo)
    return entitledTo.error();
  if (base::trim(why).empty() && hasFlowed(book_, act->rows))
    return Error{ErrorCode::ruleReason,
                 "sealant was already placed, so this is a correction: say what was wrong"};
  if (const auto free = nothingHangsOn(*act); !free) return free.error();
  if (const auto left = othersLeftIt(*act); !left) return left.error();
  auto words = wordsOf(*act);
  if (!words) return words;
  const std::string reason = base::trim(why).empty() ? undone : why;
  constexpr std::string_view alertStays = "; the alert stays"; // one form may have brought several

  struct Back {
    base::EntryId carried;
    std::optional<base::EntryId> before;
  };
  std::vector<Back> back;
  for (const auto& row : act->rows) {
    // What was said of an allergy at the seat stays said: it ends only where it is resolved.
    if (row.kind == "medical_flag" && act->rule->verb != Verb::enrollChild) {
      if (!words->ends_with(alertStays)) *words += alertStays;
      continue;
    }
    auto rows = book_.rowsOfSubject(row.subject);
    if (!rows) return rows.error();
    const auto states = statesOf(*rows);
    if (row.kind == "retraction" || states.empty() || states.back().meant != row.stamp.entry)
      return nothing("the last act here was corrected since; correct it again instead");
    back.push_back({states.back().carried, {}});
    if (states.size() > 1) back.back().before = states[states.size() - 2].meant;
  }
  auto written = write(*may, {}, [&](store::Act& writing) {
    for (const auto& one : back | std::views::reverse) {
      if (one.before)
        writing.restate(*one.before, one.carried, reason);
      else
        writing.retract(one.carried, reason);
    }
    return base::Done{};
  });
  if (!written) return written.error();
  return words;
}

/// What was undone is not said again over what was done for the child meanwhile.
Result<base::Done> Session::noneIsOfItsChild(const std::vector<PastAct>& since,
                                             const PastAct& undo) {
  const auto child = book_.childOf(*undo.rows.front().stamp.supersedes);
  if (!child) return child.error();
  for (const auto& act : since) {
    const auto whose = book_.childOf(act.rows.front().stamp.entry);
    if (!whose) return whose.error();
    if (!*child || *whose != *child) continue;
    const auto stands = isStanding(act.rows);
    if (!stands) return stands.error();
    if (*stands) return nothing("this student was recorded elsewhere since; do it again instead");
  }
  return base::Done{};
}

/// The newest undo there that was not redone, unless something else was done there since.
Result<PastAct> Session::lastUndo(const UndoAt& at) {
  const auto today = world_.clock.now().date();
  PastActs past(book_);
  std::vector<PastAct> elsewhere; // and since
  int redoneSince = 0;
  while (true) {
    auto act = past.next();
    if (!act) return act.error();
    if (!*act || !(*act)->rule) return nothing("nothing to redo here");
    const auto& rule = *(*act)->rule;
    if (rule.takenBack == TakenBack::never) return nothing("nothing to redo here");
    if ((*act)->rows.front().stamp.at.date() != today) return nothing("nothing to redo here");
    if (!isAt(**act, at.station)) {
      // A form, an alert or a lot that changed elsewhere since may forbid what was undone.
      for (const auto& row : (*act)->rows) {
        const auto kind = row.kind == "retraction" ? std::string() : row.kind;
        if (kind == "consent" || kind == "medical_flag" || kind == "lot" || kind == "child" ||
            kind == "authorization")
          return nothing("a form, an alert or a lot changed since; do it again instead");
      }
      if ((*act)->rule->verb != Verb::undo) elsewhere.push_back(**act);
      continue;
    }
    if (rule.verb == Verb::undo) {
      if (redoneSince-- > 0) continue;
      if (const auto same = noneIsOfItsChild(elsewhere, **act); !same) return same.error();
      return std::move(**act);
    }
    const auto& first = (*act)->rows.front().stamp;
    if (first.reason != redone || !first.supersedes) return nothing("nothing to redo here");
    ++redoneSince;
  }
}

Result<std::string> Session::redo(By by, const UndoAt& at) {
  if (at.day)
    if (const auto day = dayInState(*at.day, DayMust::beOpen); !day) return day.error();
  auto undo = lastUndo(at);
  if (!undo) return undo.error();
  // What was undone may have been carried by a row of an earlier undo.
  const auto carried = *undo->rows.front().stamp.supersedes;
  auto all = book_.rowsOfEntry(carried);
  if (!all) return all.error();
  auto taken = book_.actOf(meantBy(*all, carried));
  if (!taken) return taken.error();
  const auto* rule = taken->empty() ? nullptr : ruleNamed(taken->front().verb);
  if (!rule) return nothing("nothing to redo here");
  // Redo asks for no PIN, so it would speak a second time in that person's name.
  if (rule->pin != PinAsked::no)
    return nothing("only the one who answers for it may say this; do it again instead");
  const PastAct again{taken->front().act, rule, *taken};
  if (const auto ofDay = isOfOpenDay(at, again.rows.front().stamp.entry); !ofDay)
    return ofDay.error();
  if (at.child) {
    const auto child = book_.childOf(again.rows.front().stamp.entry);
    if (!child) return child.error();
    if (*child != at.child) return nothing("nothing to redo for this child");
  }
  by.station = at.station;
  const auto may = admit(Verb::redo, by);
  if (!may) return may.error();
  if (const auto entitledTo = entitled(may->author().id, rule->right, may->on()); !entitledTo)
    return entitledTo.error();
  auto words = wordsOf(again);
  if (!words) return words;
  struct Again {
    base::EntryId source;
    base::EntryId replaced;
  };
  std::vector<Again> agains;
  for (const auto& row : undo->rows | std::views::reverse) {
    const auto source = *row.stamp.supersedes;
    auto rows = book_.rowsOfEntry(source);
    if (!rows) return rows.error();
    // Where the thing is gone the new row follows what was retracted; else what carries it now.
    const auto states = statesOf(*rows);
    agains.push_back({source, states.empty() ? source : states.back().carried});
  }
  auto written = writeAs(*may, rule->name, {}, [&](store::Act& writing) {
    for (const auto& one : agains)
      writing.restate(one.source, one.replaced, redone);
    return base::Done{};
  });
  if (!written) return written.error();
  return words;
}

} // namespace gk::session
