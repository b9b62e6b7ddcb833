#include "store/book.h"
#include "store/migration.h"
#include "store/own_schema.h"
#include "store/rows.h"
#include "store/transaction.h"
#include "store/trouble.h"

namespace gk::store {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

/// Copies by the names of the program's own columns.
std::string copying(const std::string& table, const std::string& columns,
                    const std::string& which) {
  return "INSERT INTO main." + table + " (" + columns + ") SELECT " + columns + " FROM other." +
         table + " WHERE " + which + " IN (SELECT id FROM fresh)";
}

base::Uuid bookId(Connection& connection, std::string_view sql) {
  auto statement = connection.prepare(sql);
  if (!statement.step()) throw Trouble({ErrorCode::storeDamaged, "the book has no identity"});
  return statement.column<base::Uuid>(0);
}

/// The other file, attached while this lives.
class Attached {
 public:
  Attached(Connection& connection, const base::Path& path) : connection_(connection) {
    connection_.prepare("ATTACH DATABASE ? AS other")
        .bindAll(std::string_view(path.native()))
        .run();
  }
  ~Attached() {
    // Fails only while a statement on it is open, which would be a bug caught elsewhere.
    (void)guarded([&] { connection_.execute("DETACH DATABASE other"); });
  }
  Attached(const Attached&) = delete;
  Attached& operator=(const Attached&) = delete;

 private:
  Connection& connection_;
};

[[noreturn]] void refuseFork() {
  throw Trouble({ErrorCode::storeDamaged,
                 "both books hold different entries under one laptop's number; one of them was "
                 "opened under a copied laptop identity, or changed, so they are not merged"});
}

/// A row that both have must be the same row: an entry is never changed.
void refuseForks(Connection& connection) {
  constexpr std::string_view sql =
      "SELECT count(*) FROM other.entry AS o JOIN main.entry AS m ON m.laptop = o.laptop AND "
      "m.sequence = o.sequence WHERE m.id <> o.id";
  auto statement = connection.prepare(sql);
  statement.step();
  if (statement.column<std::int64_t>(0) > 0) refuseFork();
}

/// An act that both have is the same act.
void refuseOtherActs(Connection& connection) {
  constexpr std::string_view sql = "SELECT EXISTS (SELECT 1 FROM other.act_digest AS o JOIN "
                                   "main.act_digest AS m ON m.act = o.act "
                                   "WHERE m.digest <> o.digest)";
  auto statement = connection.prepare(sql);
  statement.step();
  if (statement.column<bool>(0)) refuseFork();
}

} // namespace

Result<Merged> Book::absorb(const base::Path& other, base::Instant now) {
  if (const auto may = mayWrite(); !may) return may.error();
  // Opening it the usual way first gives every refusal of openBook.
  auto probe = openBook(other, Access::readOnly, Durability::everyAct, now);
  if (!probe) return probe.error();
  probe = Error{ErrorCode::notFound, "closed"};
  return guarded([&] {
    const auto& own = newestSchema();
    const Attached attached(connection_, other);
    // From here to the end the other file is read as one state of it: what is looked at is taken.
    Transaction transaction(connection_);
    requireOwnSchema(connection_, "other", own, other); // once more: it may be another file by now
    if (bookId(connection_, "SELECT id FROM main.book") !=
        bookId(connection_, "SELECT id FROM other.book"))
      throw Trouble({ErrorCode::storeNotALogbook,
                     other.string() + " is the logbook of another program; nothing was merged"});
    requireNone(historyFaults(connection_, "other", own), other);
    refuseForks(connection_);
    refuseOtherActs(connection_);
    std::int64_t brought = 0;
    const auto take = [&](const std::string& sql) {
      connection_.execute(sql);
      return connection_.changes();
    };
    // Payload rows first look for entries that are new, so the list of those is kept.
    connection_.execute("CREATE TEMP TABLE fresh AS SELECT id FROM other.entry EXCEPT SELECT id "
                        "FROM main.entry");
    brought = take(copying("entry", own.entry.list(), "id"));
    for (const auto& table : own.records)
      take(copying(table.name, table.list(), "entry"));
    take(copying("act_digest", "act, digest", "act"));
    connection_.execute("DROP TABLE temp.fresh");
    requireNone(signatureFaults(connection_), other);
    transaction.commit();
    // Rows made from now on come after all that was taken in, this laptop's own among it.
    position_ = readPosition(connection_, hand_.laptop);
    ++merges_;
    rivals_.reset();
    return Merged{brought};
  });
}

} // namespace gk::store
