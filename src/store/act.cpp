#include "store/book.h"
#include "store/rows/row_io.h"

namespace gk::store {

Act::Act(Connection& connection, const Hand& hand, const ActStamp& stamp, const Position& position)
    : connection_(connection), hand_(hand), stamp_(stamp), by_(stamp.by), position_(position),
      mark_(connection.hands().nextMark(hand.laptop)) {}

base::EntryId Act::insertEntry(std::string_view kind, const std::optional<Replaced>& replaced) {
  if (!first_) connection_.numberFor(hand_.laptop); // a hand without an act would say nothing
  const base::EntryId id(nextIdentity(stamp_.at.at, position_.last, mark_));
  if (!first_) first_ = id;
  using MaybeEntry = std::optional<base::EntryId>;
  using MaybeText = std::optional<std::string_view>;
  const bool isQuoted = by_.author != stamp_.by.author;
  connection_
      .prepare("INSERT INTO entry (id, kind, nth, subject, supersedes, author, recorder, reason) "
               "VALUES (?, (SELECT number FROM entry_kind WHERE name = ?), ?, ?, ?, ?, ?, ?)")
      .bindAll(id, kind, count_, replaced ? MaybeEntry(replaced->thing) : MaybeEntry(),
               replaced ? MaybeEntry(replaced->entry) : MaybeEntry(),
               isQuoted ? by_.author : std::nullopt, isQuoted ? by_.recorder : std::nullopt,
               replaced ? MaybeText(soundOr(replaced->reason)) : MaybeText())
      .run();
  position_.last = id.uuid();
  ++count_;
  if (kind == "child" && !replaced) addSalt(id);
  return id;
}

/// What is of a child from now on enters its digests with this, until the child is erased. Drawn
/// from the operating system by SQLite: it is shown nowhere and decides nothing.
void Act::addSalt(base::EntryId child) {
  connection_.prepare("INSERT INTO child_salt (child, salt) VALUES (?, randomblob(16))")
      .bindAll(child)
      .run();
}

void Act::retract(base::EntryId entry, const std::string& reason) {
  base::require(!reason.empty(), "a retraction needs a reason");
  insertEntry("retraction", Replaced{entry, entry, reason});
}

base::By Act::quoting(const std::optional<base::MemberId>& author) {
  const auto now = by_;
  if (author && author != now.author)
    by_ = {author, now.recorder ? now.recorder : now.author, now.station};
  return now;
}

Position Act::sealed() {
  if (!first_) return position_;
  const auto sequence = position_.sequence + 1;
  position_.digest = sealAct(connection_, newestSchema(), hand_,
                             {*first_, sequence, count_, stamp_.at, stamp_.by, stamp_.verb},
                             base::EntryId(position_.last), position_.digest);
  position_.sequence += count_;
  return position_;
}

} // namespace gk::store
