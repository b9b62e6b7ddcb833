#include "store/book.h"
#include "store/migration.h"
#include "store/own_schema.h"
#include "store/sweep.h"
#include "store/transaction.h"
#include "store/trouble.h"

namespace gk::store {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

/// How a merge says in this file's numbers what the other file says in its own.
class Renumbering {
 public:
  /// Each laptop of the other gets a number here, where it has none; those are written by `write`.
  Renumbering(const Hands& ours, const Hands& theirs) : ours_(ours) {
    for (const auto& [number, laptop] : theirs.all()) {
      const bool isNew = ours_.numberOf(laptop) == 0;
      const int here = ours_.taken(laptop, number);
      if (isNew) new_.push_back(here);
      if (here != number)
        cases_ += " WHEN " + std::to_string(number) + " THEN " + std::to_string(here - number);
    }
  }
  void write(Connection& book) const {
    for (const int number : new_)
      book.prepare("INSERT INTO main.hand (number, laptop) VALUES (?, ?)")
          .bindAll(number, *ours_.laptopOf(number))
          .run();
    book.forgetHands();
  }
  /// The identity in `column` of the other file; as it stands there where all numbers agree.
  [[nodiscard]] std::string here(const std::string& column) const {
    if (cases_.empty()) return column;
    return "(" + column + " + CASE " + column + " & 2047" + cases_ + " ELSE 0 END)";
  }
  /// Each column of the table, as it is here.
  [[nodiscard]] std::string here(const OwnTable& table) const {
    std::string list;
    for (const auto& column : table.columns) {
      const auto quoted = '"' + column.name + '"';
      list += (list.empty() ? "" : ", ") + (column.isEntry ? here(quoted) : quoted);
    }
    return list;
  }

 private:
  Hands ours_;
  std::vector<int> new_;
  std::string cases_;
};

/// Copies what is not here yet, by the names of the program's own columns.
std::string copying(const OwnTable& table, const std::string& key, const Renumbering& as,
                    const std::string& also = {}) {
  return "INSERT INTO main.\"" + table.name + "\" (" + table.list() + also + ") SELECT " +
         as.here(table) + also + " FROM other.\"" + table.name + "\" WHERE " + as.here(key) +
         " IN (SELECT id FROM fresh) ORDER BY " + table.inOrder;
}

base::Uuid bookId(Connection& connection, std::string_view sql) {
  auto statement = connection.prepare(sql);
  if (!statement.step()) throw Trouble({ErrorCode::storeDamaged, "the book has no identity"});
  return statement.bytes16(0);
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

/// An act that both have must be the same act: it is never changed. Where two histories of one
/// laptop part, the first act that differs begins at the same row of it.
void refuseForks(Connection& connection, const Renumbering& as) {
  const auto first = as.here("o.first");
  auto statement =
      connection.prepare("SELECT EXISTS (SELECT 1 FROM other.act AS o CROSS JOIN main.act AS m ON "
                         "(m.first & 2047) = (" +
                         first + " & 2047) AND m.sequence = o.sequence WHERE m.first <> " + first +
                         " OR m.digest <> o.digest)");
  statement.step();
  if (statement.column<bool>(0)) refuseFork();
}

} // namespace

Result<Merged> Book::absorb(const base::Path& other, base::Instant now,
                            const base::Progress& progress) {
  if (const auto may = mayWrite(); !may) return may.error();
  // Opening it the usual way first gives every refusal of openBook.
  auto probe = openBook(other, Access::readOnly, Durability::everyAct, now, Checkup::quick,
                        migrations(), progress);
  if (!probe) return probe.error();
  probe = Error{ErrorCode::notFound, "closed"};
  return guarded([&] {
    const auto& own = newestSchema();
    const Attached attached(connection_, other);
    // From here to the end the other file is read as one state of it: what is looked at is taken.
    Transaction transaction(connection_);
    // Goes before the transaction does, so that what is rolled back is not stopped as well.
    std::optional<Watching> watching(std::in_place, connection_, progress);
    requireOwnSchema(connection_, "other", own, other); // once more: it may be another file by now
    if (bookId(connection_, "SELECT id FROM main.book") !=
        bookId(connection_, "SELECT id FROM other.book"))
      throw Trouble({ErrorCode::storeNotALogbook,
                     other.string() + " is the logbook of another program; nothing was merged"});
    requireNone(historyFaults(connection_, "other", own), other);
    const Renumbering as(connection_.hands(), handsOf(connection_, "other"));
    refuseForks(connection_, as);
    as.write(connection_);
    const auto take = [&](const std::string& sql) {
      connection_.execute(sql);
      return connection_.changes();
    };
    // Payload rows first look for entries that are new, so the list of those is kept.
    progress.at(base::Stage::merging);
    connection_.execute("CREATE TEMP TABLE fresh (id INTEGER PRIMARY KEY)");
    take("INSERT INTO temp.fresh SELECT " + as.here("o.id") +
         " FROM other.entry AS o WHERE NOT EXISTS (SELECT 1 FROM main.entry AS m WHERE m.id = " +
         as.here("o.id") + ")");
    const std::int64_t brought = take(copying(own.entry, "id", as));
    const auto tables = static_cast<std::int64_t>(own.records.size());
    std::int64_t taken = 0;
    for (const auto& table : own.records) {
      progress.at(base::Stage::merging, ++taken, tables);
      take(copying(table, "entry", as));
    }
    take(copying(own.act, "first", as, ", digest"));
    connection_.execute("DROP TABLE temp.fresh");
    watching.reset(); // from here on it is taken
    transaction.commit();
    // Rows made from now on come after all that was taken in, this laptop's own among it.
    position_ = readPosition(connection_, hand_.laptop);
    ++merges_;
    rivals_.reset();
    return Merged{brought};
  });
}

} // namespace gk::store
