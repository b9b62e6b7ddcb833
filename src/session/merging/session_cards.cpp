#include "base/text/text.h"
#include "session/cards/card_fold.h"
#include "session/reader_held.h"
#include "session/session_write.h"

#include <algorithm>
#include <tuple>

// Two cards of one child, joined at the desk and parted again.
namespace gk::session {

using base::Error;
using base::ErrorCode;
using roster::CardJoin;
using roster::ChildId;
using store::rowsOf;

namespace {

constexpr auto parted = "the joined cards were separated";

/// When and where a card was first entered: the same on every laptop, whatever is merged.
Result<std::tuple<base::Instant, base::LaptopId, std::int64_t>> bornOf(store::Book& book,
                                                                       ChildId child) {
  const auto ever = book.history<roster::Child>(store::subjectIs(child));
  if (!ever) return ever.error();
  if (ever->empty()) return Error{ErrorCode::notFound, "no such student"};
  const auto& stamp = ever->front().stamp;
  return std::tuple(stamp.at.at, stamp.laptop, stamp.sequence);
}

std::string numbered(const CardSide& side) {
  return "number " + side.number;
}

} // namespace

Result<std::vector<reports::LateOnCard>> DeskVerbs::lateOnCards() {
  return session::lateOnCards(book_);
}

List<CardJoin> DeskVerbs::joinsOf(ChildId kept) {
  return book_.current<CardJoin>(rowsOf("child", kept));
}

Result<ChildId> DeskVerbs::cardNumbered(const std::string& text) {
  const auto found = findChildren(text);
  if (!found) return found.error();
  const auto typed = roster::parseChildNumber(std::string(base::trim(text)));
  const auto isIt = [&](const std::string& number) {
    return typed ? number == *typed : number.substr(0, number.rfind('-')) == base::trim(text);
  };
  for (const auto& one : *found)
    if (isIt(one.number)) return one.child;
  const auto joins = book_.current<CardJoin>(store::everything());
  if (!joins) return joins.error();
  for (const auto& join : *joins) {
    const auto card = cardThen(book_, join.value.other);
    if (!card) return card.error();
    if (isIt(card->row.value.number)) return join.value.other;
  }
  // One that was removed, or joined to a student who is erased.
  const auto ever = book_.history<roster::Child>(store::everything());
  if (!ever) return ever.error();
  for (const auto& row : *ever)
    if (isIt(row.value.number)) return row.id;
  return Error{ErrorCode::notFound, "no student has this number; type it as on the slip"};
}

Result<CardPair> DeskVerbs::cardPair(ChildId one, ChildId other) {
  if (one == other) return Error{ErrorCode::notFound, "choose two different cards"};
  if (!vault_) return Error{ErrorCode::vaultLocked, "unlock the logbook to compare two students"};
  const auto born = bornOf(book_, one);
  if (!born) return born.error();
  const auto bornOther = bornOf(book_, other);
  if (!bornOther) return bornOther.error();
  if (*bornOther < *born) std::swap(one, other);
  CardPair pair{.kept = {.child = one}, .other = {.child = other}};
  const auto schools = this->schools();
  if (!schools) return schools.error();
  std::set<roster::DayId> seen;
  for (auto* side : {&pair.kept, &pair.other}) {
    const auto card = cardThen(book_, side->child);
    if (!card) return card.error();
    const auto& value = card->row.value;
    if (!card->stands) {
      const auto joined = leadsTo(book_, other, one);
      if (!joined) return joined.error();
      pair.isJoined = side == &pair.other && *joined;
      if (!pair.isJoined)
        return Error{ErrorCode::notFound,
                     "student " + value.number + " was removed, or is joined to another student"};
    }
    side->number = value.number;
    std::string school;
    for (const auto& each : *schools)
      if (each.id == value.school) school = each.value.name;
    side->place = school + ", grade " + value.grade +
                  (value.room.empty() ? std::string() : ", room " + value.room);
    side->entered = card->row.stamp.at.date().words();
    if (card->stands) {
      const auto identity = this->identity(side->child);
      if (!identity && identity.error().code != ErrorCode::vaultDamaged) return identity.error();
      side->name = identity ? identity->legalName() : "name cannot be read";
      side->birth = identity ? identity->birth.words() : "birth date cannot be read";
    }
    const auto days = daysSeen(book_, side->child);
    if (!days) return days.error();
    side->visits = days->size();
    for (const auto& day : *days)
      if (!seen.insert(day).second && !pair.onBoth) {
        const auto both = this->day(day);
        if (!both) return both.error();
        pair.onBoth = both->value.date;
      }
    const auto forms = consents(side->child);
    if (!forms) return forms.error();
    side->forms = forms->size();
    const auto letters = book_.current<followup::Letter>(rowsOf("child", side->child));
    if (!letters) return letters.error();
    side->letters = letters->size();
  }
  pair.changes.push_back("The card entered first is kept, with " + numbered(pair.kept) +
                         "; everything of " + numbered(pair.other) + " is moved to it.");
  pair.changes.push_back("A slip with " + numbered(pair.other) + " finds the kept student.");
  std::size_t closed = 0;
  const auto moved = daysSeen(book_, pair.other.child);
  if (!moved) return moved.error();
  for (const auto& day : *moved) {
    const auto isClosed = isSigned(day);
    if (!isClosed) return isClosed.error();
    if (*isClosed) ++closed;
  }
  if (closed > 0)
    pair.changes.push_back(base::counted(closed, "signed day keeps", "signed days keep") +
                           " the signatures and get a late entry that says so.");
  if (pair.other.letters > 0) pair.changes.emplace_back("Letters already printed do not change.");
  pair.changes.emplace_back("It can be undone: Separate cards.");
  return pair;
}

reports::Table cardTable(const CardPair& pair) {
  reports::Table table{"Two cards",
                       {{""}, {"Kept"}, {"Joined to it"}, {"", reports::Kind::text, "same"}},
                       pair.changes};
  const auto line = [&](const char* what, const std::string& kept, const std::string& other) {
    table.rows.push_back({what, kept, other, kept == other ? "same" : "DIFFERS"});
  };
  const auto& [kept, other] = std::tie(pair.kept, pair.other);
  line("Name", kept.name, other.name);
  line("Birth date", kept.birth, other.birth);
  line("School", kept.place, other.place);
  const auto plain = [&](const char* what, const std::string& one, const std::string& two) {
    table.rows.push_back({what, one, two, ""});
  };
  plain("Number", kept.number, other.number);
  plain("Last entered", kept.entered, other.entered);
  plain("Visits", std::to_string(kept.visits), std::to_string(other.visits));
  plain("Forms", std::to_string(kept.forms), std::to_string(other.forms));
  plain("Letters", std::to_string(kept.letters), std::to_string(other.letters));
  return table;
}

Result<base::Done> DeskVerbs::namesNeither(const std::string& text,
                                           const std::vector<ChildId>& cards) {
  for (const auto card : cards) {
    const auto ever = identityRevisions(card); // also of one that is joined, and as it was once
    if (!ever) return ever.error();
    for (const auto& one : *ever)
      if (namesSomebody(text, one.identity, one.identity))
        return Error{ErrorCode::textMalformed,
                     "what you wrote is kept where everyone can read it: say it without a name"};
  }
  return base::Done{};
}

Result<roster::CardJoinId> DeskVerbs::joinCards(By by, ChildId one, ChildId other,
                                                const std::string& reason) {
  const auto may = admit(Verb::joinCards, by, {.child = one, .reason = reason});
  if (!may) return may.error();
  const auto pair = cardPair(one, other);
  if (!pair) return pair.error();
  if (auto quiet = namesNeither(reason, {pair->kept.child, pair->other.child}); !quiet)
    return quiet.error();
  if (pair->onBoth)
    return Error{ErrorCode::ruleSameChild,
                 "both were seen on " + pair->onBoth->words() +
                     ", and one student has one visit a day; correct that day first, or they are "
                     "two students"};
  MergeEdits edits(book_);
  foldCards(edits, pair->other.child, pair->kept.child);
  if (edits.failure()) return *edits.failure();
  if (pair->isJoined && edits.isIdle())
    return Error{ErrorCode::notFound, "these two cards are joined already"};
  std::vector<base::DayId> signedDays;
  for (const auto& day : edits.daysMoved()) {
    const auto closed = isSigned(day);
    if (!closed) return closed.error();
    if (*closed) signedDays.push_back(day);
  }
  return write(*may, pair->kept.child, [&](store::Act& act) {
    const auto join = act.add(CardJoin{pair->kept.child, pair->other.child});
    for (const auto& day : signedDays)
      act.add(roster::Addendum{
          day, pair->kept.child,
          "two cards were one student: the other card's records of this day are on this one"});
    edits.write(act, sameChild);
    return join;
  });
}

Result<base::Done> DeskVerbs::partCards(By by, ChildId kept, const std::string& reason) {
  const auto may = admit(Verb::partCards, by, {.child = kept, .reason = reason});
  if (!may) return may.error();
  const auto joins = joinsOf(kept);
  if (!joins) return joins.error();
  if (joins->empty()) return Error{ErrorCode::notFound, "no other card was joined to this student"};
  const auto other = joins->back().value.other;
  if (auto quiet = namesNeither(reason, {kept, other}); !quiet) return quiet;
  // Each laptop may have joined them, and one may have done so again.
  MergeEdits edits(book_);
  std::vector<base::EntryId> words;
  for (const auto& join : *joins) {
    if (join.value.other != other) continue;
    edits.undoing(join.stamp.entry, parted);
    words.push_back(join.stamp.entry);
  }
  unfoldCards(edits, other, kept);
  if (edits.failure()) return *edits.failure();
  std::vector<base::DayId> signedDays;
  for (const auto& day : edits.daysMoved()) {
    const auto closed = isSigned(day);
    if (!closed) return closed.error();
    if (*closed) signedDays.push_back(day);
  }
  return write(*may, kept, [&](store::Act& act) {
    for (const auto& day : signedDays)
      act.add(roster::Addendum{
          day, kept, "two students had been joined: what was the other's is on the other's card"});
    edits.write(act, parted);
    for (const auto& word : words)
      act.retract(word, reason);
    return base::Done{};
  });
}

} // namespace gk::session
