#include "store/book.h"
#include "store/row_io.h"

namespace gk::store {

Act::Act(Connection& connection, ActStamp stamp, Position position, base::Random& random)
    : connection_(connection), stamp_(stamp), position_(position), random_(random) {}

base::EntryId Act::insertEntry(std::string_view kind, std::optional<base::Uuid> subject,
                               std::optional<base::EntryId> supersedes, const std::string& reason) {
  const auto id = base::nextUuid7(stamp_.at.at, position_.last, random_);
  position_ = {position_.sequence + 1, id};
  if (!act_) act_ = id;
  connection_
      .prepare("INSERT INTO entry (id, subject, act, kind, laptop, sequence, author, recorder, at, "
               "utc_offset, supersedes, reason, verb, station) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, "
               "?, ?, ?, ?, ?)")
      .bindAll(id, subject.value_or(id), *act_, kind, stamp_.laptop, position_.sequence,
               stamp_.by.author, stamp_.by.recorder, stamp_.at.at,
               static_cast<int>(stamp_.at.offset.count()), supersedes, soundOr(reason), stamp_.verb,
               base::nameOf(stamp_.by.station))
      .run();
  return base::EntryId(id);
}

void Act::retract(base::EntryId entry, const std::string& reason) {
  base::require(!reason.empty(), "a retraction needs a reason");
  insertEntry("retraction", entry.uuid(), entry, reason);
}

base::By Act::quoting(const std::optional<base::MemberId>& author) {
  const auto now = stamp_.by;
  if (author && author != now.author)
    stamp_.by = {author, now.recorder ? now.recorder : now.author, now.station};
  return now;
}

} // namespace gk::store
