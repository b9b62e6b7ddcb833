#include "base/text/text.h"
#include "followup/copies/merge_note.h"
#include "store/book.h"
#include "store/digest/fork.h"
#include "store/digest/lines.h"
#include "store/digest/sweep.h"
#include "store/erasing.h"
#include "store/keys/key_wraps.h"
#include "store/part.h"
#include "store/schema/migration.h"
#include "store/schema/own_schema.h"
#include "store/sqlite/transaction.h"
#include "store/sqlite/trouble.h"

#include <algorithm>
#include <chrono>
#include <map>

namespace gk::store {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

/// How a merge says in this file's numbers what the other file says in its own.
class Renumbering {
 public:
  explicit Renumbering(const Lines& lines) : lines_(lines) {
    std::map<int, std::string> shifts; // of each hand there, its later pieces looked at first
    bool isPlain = true;
    for (const auto& [theirs, since, number] : lines.pieces) {
      isPlain = isPlain && number == theirs;
      const auto shift = std::to_string(number - theirs);
      auto& text = shifts[theirs];
      text = since == 0 ? shift
                        : "iif(# >= " + std::to_string(since) + ", " + shift + ", " + text + ")";
    }
    if (isPlain) return;
    text_ = "(# + CASE # & 2047";
    for (const auto& [theirs, shift] : shifts)
      text_ += " WHEN " + std::to_string(theirs) + " THEN " + shift;
    text_ += " ELSE 0 END)";
  }
  /// The hands that the merge brings.
  void writeHands(Connection& book) const {
    for (const int number : lines_.fresh)
      book.prepare("INSERT INTO main.hand (number, laptop) VALUES (?, ?)")
          .bindAll(number, *lines_.hands.laptopOf(number))
          .run();
    book.forgetHands();
  }
  /// Once the acts are here that they name.
  void writeLines(Connection& book) const {
    const auto isNew = [&](int number) {
      return std::ranges::find(lines_.fresh, number) != lines_.fresh.end();
    };
    for (const auto& branch : lines_.branches) {
      writeBranch(book, branch);
      if (!isNew(handIn(branch.first))) book.keepName(branch.first);
    }
    book.forgetHands();
  }
  /// The identity in `column` of the other file; as it stands there where all numbers agree.
  [[nodiscard]] std::string here(const std::string& column) const {
    if (text_.empty()) return column;
    std::string text;
    for (const char c : text_)
      c == '#' ? text += column : text += c;
    return text;
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
  const Lines& lines_;
  std::string text_; // with # for the column; empty where all numbers agree
};

/// Whose rows are copied.
struct Those {
  const char* key;           ///< the column that names the entry
  const char* ids = "fresh"; ///< the list in temp of those that are not here yet
  bool isEach = false;       ///< all the other file has are on that list, so none is looked up
};

/// Copies what is not here yet, by the names of the program's own columns.
std::string copying(const OwnTable& table, const Those& those, const Renumbering& as,
                    const std::string& also = {}) {
  return "INSERT INTO main.\"" + table.name + "\" (" + table.list() + also + ") SELECT " +
         as.here(table) + also + " FROM other.\"" + table.name + "\" " +
         (those.isEach
              ? std::string()
              : "WHERE " + as.here(those.key) + " IN (SELECT id FROM temp." + those.ids + ") ") +
         "ORDER BY " + table.inOrder;
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

/// Two histories of one laptop are joined only where a person says that its disk was copied.
void askOfForks(Connection& connection, const OwnSchema& own, const Lines& lines) {
  if (lines.forks.empty()) return;
  if (std::ranges::any_of(lines.forks, &ForkPoint::isChanged))
    throw Trouble({ErrorCode::storeDamaged,
                   "an entry that both logbooks have differs between them, so one of them was "
                   "changed by another program; nothing was merged; keep both, and compare them "
                   "with the paper forms"});
  throw Trouble({ErrorCode::storeForked,
                 sentence(forksOf(connection, own, lines.forks)) +
                     ". Nothing is lost: both logbooks are whole and neither was changed. If that "
                     "disk or logbook was copied, merge again and say so: both are joined, and the "
                     "entries of each stay, under their own name"});
}

/// Entries of days to come would stand before all that is entered until then, as the later word.
void askOfDaysToCome(Connection& connection, base::Instant now) {
  constexpr auto grace = std::chrono::hours(24); // two clocks that differ, in two time zones
  auto rows = connection.prepare("SELECT o.at, o.utc_offset, (SELECT coalesce(max(m.at), 1) FROM "
                                 "main.act AS m) FROM other.act AS o ORDER BY o.at DESC LIMIT 1");
  if (!rows.step()) return;
  const auto [at, offset, here] = rows.columns<base::Instant, int, base::Instant>();
  if (at.utc <= std::max(now.utc + grace, here.utc)) return;
  throw Trouble({ErrorCode::storeAhead,
                 "the other logbook has entries of " +
                     base::LocalInstant{at, std::chrono::minutes(offset)}.date().words() +
                     ", a day that has not come. Nothing is lost and neither logbook was changed. "
                     "If the clock of a laptop was wrong, merge again and say so: the entries are "
                     "taken, and stay under that date"});
}

/// Each restored copy writes as a laptop of its own, so half the numbers stay free for this
/// logbook.
void refuseCrowd(Connection& connection) {
  constexpr int most = mostHands / 2;
  auto hands = connection.prepare("SELECT count(*) FROM main.hand");
  hands.step();
  if (const auto count = hands.column<int>(0); count > most)
    throw Trouble({ErrorCode::storeCrowded,
                   "with the other logbook's there would be " +
                       base::counted(count, "laptop", "laptops") + " in this one, and more than " +
                       std::to_string(most) +
                       " are refused; nothing was merged. Check where that logbook is from"});
}

bool isAny(Connection& connection, const std::string& sql) {
  auto row = connection.prepare("SELECT EXISTS (" + sql + ")");
  return row.step() && row.column<bool>(0);
}

/// Students whom the other logbook lists as erased and this one does not.
std::vector<std::int64_t> listedThere(Connection& connection, const Renumbering& as) {
  const auto whom = as.here("o.whom");
  auto rows = connection.prepare("SELECT DISTINCT " + whom + " FROM other.erasure AS o WHERE " +
                                 whom + " NOT IN (SELECT whom FROM main.erasure) ORDER BY 1");
  std::vector<std::int64_t> children;
  while (rows.step())
    children.push_back(rows.column<std::int64_t>(0));
  return children;
}

/// Entries that are new here come with their content, or not at all.
void refuseHollow(Connection& connection, const Renumbering& as) {
  if (isAny(connection,
            "SELECT 1 FROM other.erased_entry AS x JOIN other.child_elsewhere AS c ON c.child = "
            "x.child WHERE " +
                as.here("x.id") + " IN (SELECT id FROM temp.fresh)"))
    throw Trouble({ErrorCode::storePart,
                   "that logbook has only one school's students, and this one lacks entries about "
                   "others that were left out of it; nothing was merged. Merge both into the whole "
                   "logbook"});
}

/// Whose acts are new here, apart from those that only say that there was a merge.
std::vector<followup::BroughtOf> broughtOf(Connection& connection) {
  auto rows = connection.prepare(
      "SELECT a.first & 2047, sum(a.count), max(a.sequence + a.count - 1) FROM main.act AS a CROSS "
      "JOIN temp.fresh AS f ON f.id = a.first CROSS JOIN main.entry AS e ON e.id = a.first WHERE "
      "e.kind <> (SELECT number FROM main.entry_kind WHERE name = 'merge_note') GROUP BY 1 ORDER "
      "BY 1");
  std::vector<followup::BroughtOf> brought;
  while (rows.step()) {
    const auto [hand, entries, last] = rows.columns<int, std::int64_t, std::int64_t>();
    brought.push_back({*connection.hands().laptopOf(hand), entries, last});
  }
  return brought;
}

/// What was left out of this logbook and the other one has; whether there was any. A student comes
/// back whole: where the other lacks some of the entries, their content would be torn.
bool fillIn(Connection& connection, const OwnSchema& own, const Renumbering& as) {
  if (!isAny(connection, "SELECT 1 FROM main.child_elsewhere")) return false;
  // A student has a salt where the content is.
  connection.execute("CREATE TEMP TABLE back (id INTEGER PRIMARY KEY)");
  connection.execute("INSERT INTO temp.back SELECT " + as.here("s.child") +
                     " FROM other.child_salt AS s WHERE " + as.here("s.child") +
                     " IN (SELECT child FROM main.child_elsewhere)");
  connection.execute("CREATE TEMP TABLE filled (id INTEGER PRIMARY KEY, reason TEXT)");
  connection.execute(
      "INSERT INTO temp.filled SELECT " + as.here("o.id") +
      ", o.reason FROM other.entry AS o WHERE " + as.here("o.id") +
      " IN (SELECT id FROM main.erased_entry WHERE child IN (SELECT id FROM temp.back))");
  if (isAny(connection, "SELECT 1 FROM main.erased_entry WHERE child IN (SELECT id FROM temp.back) "
                        "AND id NOT IN (SELECT id FROM temp.filled)"))
    throw Trouble({ErrorCode::storePart,
                   "this logbook has only one school's students, and the other lacks entries about "
                   "students that were left out of this one; nothing was merged. Merge both into "
                   "the whole logbook"});
  connection.execute("UPDATE main.entry SET reason = (SELECT f.reason FROM temp.filled AS f WHERE "
                     "f.id = entry.id) WHERE id IN (SELECT id FROM temp.filled WHERE reason IS NOT "
                     "NULL)");
  connection.execute("DELETE FROM main.erased_entry WHERE id IN (SELECT id FROM temp.filled)");
  for (const auto& table : own.records)
    connection.execute(copying(table, {"entry", "filled"}, as));
  connection.execute("DELETE FROM main.child_elsewhere WHERE child IN (SELECT id FROM temp.back)");
  sealPart(connection);
  const bool isFilled = isAny(connection, "SELECT 1 FROM temp.filled");
  connection.execute("DROP TABLE temp.back");
  connection.execute("DROP TABLE temp.filled");
  return isFilled;
}

} // namespace

Result<Merged> Book::absorb(const base::Path& other, base::Instant now,
                            const base::Progress& progress, Agreed agreed) {
  if (const auto may = mayWrite(); !may) return may.error();
  // Opening it the usual way first gives every refusal of openBook.
  auto probe = openBook(other, Access::readOnly, Durability::everyAct, now, Checkup::skip,
                        migrations(), progress);
  if (!probe) return probe.error();
  probe = Error{ErrorCode::notFound, "closed"};
  auto merged = guarded([&] {
    const auto& own = newestSchema();
    const Attached attached(connection_, other);
    // From here to the end the other file is read as one state of it: what is looked at is taken.
    // It is only read, so nothing is written beside it.
    Transaction transaction(connection_, Locks::whatIsWritten);
    // Goes before the transaction does, so that what is rolled back is not stopped as well.
    std::optional<Watching> watching(std::in_place, connection_, progress);
    requireOwnSchema(connection_, "other", own, other); // once more: it may be another file by now
    if (bookId(connection_, "SELECT id FROM main.book") !=
        bookId(connection_, "SELECT id FROM other.book"))
      throw Trouble({ErrorCode::storeNotALogbook,
                     other.string() + " is the logbook of another program; nothing was merged"});
    checkPages(connection_, "other", other);
    requireNone(historyFaults(connection_, "other", own), other);
    const auto lines = linesOf(connection_);
    if (!agreed.copies) askOfForks(connection_, own, lines);
    if (!agreed.ahead) askOfDaysToCome(connection_, now);
    const Renumbering as(lines);
    // Before anything of the other is here: it may call its students and team what it likes.
    const auto listed = wouldTakeOut(connection_, own, listedThere(connection_, as));
    as.writeHands(connection_);
    refuseCrowd(connection_);
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
    refuseHollow(connection_, as);
    // A logbook that has nothing yet takes all there is; the sweep found no row without its entry.
    const bool isFirst = !isAny(connection_, "SELECT 1 FROM main.entry");
    const std::int64_t brought = take(copying(own.entry, {"id", "fresh", isFirst}, as));
    const auto tables = static_cast<std::int64_t>(own.records.size());
    std::int64_t taken = 0;
    for (const auto& table : own.records) {
      progress.at(base::Stage::merging, ++taken, tables);
      take(copying(table, {"entry", "fresh", isFirst}, as));
    }
    take(copying(own.act, {"first", "fresh", isFirst}, as, ", digest"));
    as.writeLines(connection_);
    take("INSERT INTO main.child_salt (child, salt) SELECT " + as.here("o.child") +
         ", o.salt FROM other.child_salt AS o WHERE NOT EXISTS (SELECT 1 FROM main.child_salt AS m "
         "WHERE m.child = " +
         as.here("o.child") + ")");
    const bool isFilled = fillIn(connection_, own, as);
    take(copying(own.erased, {"id", "fresh", isFirst}, as));
    requireNone(signatureFaults(connection_), other);
    askOfErasures(connection_, listed, agreed.erasures);
    // What one of the two has erased comes back in neither.
    const auto erased = applyErasures(connection_, own);
    auto from = agreed.noted ? broughtOf(connection_) : std::vector<followup::BroughtOf>();
    connection_.execute("DROP TABLE temp.fresh");
    // What was withdrawn or revoked there opens this file no more either.
    takeWraps(connection_, as.here("personal_key"), other);
    // Rows made from now on come after all that was taken in, this laptop's own among it.
    auto position = readPosition(connection_, hand_.laptop);
    if (agreed.noted && (!from.empty() || isFilled || erased > 0)) {
      Act act(connection_, hand_, *agreed.noted, position);
      act.add(followup::MergeNote{brought, erased, std::move(from)});
      position = act.sealed();
    }
    if (erased > 0) noteTraces(connection_);
    watching.reset(); // from here on it is taken
    transaction.commit();
    position_ = position;
    ++merges_;
    rivals_.reset();
    if (held_) held_->wrote({position_.sequence, position_.digest});
    return Merged{brought, erased, true, std::ssize(lines.branches)};
  });
  if (const auto there = inPlace(base::Done{}); merged && !there) return there.error();
  if (merged && merged->erased > 0) merged->isForgotten = forgetBytes(connection_);
  return merged;
}

} // namespace gk::store
