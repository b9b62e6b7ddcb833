#include "store/book.h"

#include "store/audit.h"
#include "store/erasing.h"
#include "store/rows/book_queries.h"
#include "store/rows/rows.h"
#include "store/sqlite/transaction.h"
#include "store/sqlite/trouble.h"

#include <algorithm>

namespace gk::store {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

template <class T>
std::vector<T> listOf(Statement& statement) {
  std::vector<T> values;
  while (statement.step())
    values.push_back(statement.column<T>(0));
  return values;
}

std::vector<HistoryLine> historyLines(Statement& statement) {
  std::vector<HistoryLine> lines;
  while (statement.step()) {
    RowReader row(statement, 0);
    auto stamp = readStamp(row);
    lines.push_back({std::move(stamp), row.take<base::EntryId>().uuid(), row.take<base::EntryId>(),
                     row.take<std::string>(), row.take<std::string>(), row.take<base::Station>(),
                     row.take<bool>()});
  }
  return lines;
}

std::vector<HistoryLine> linesInOrder(Statement& statement) {
  auto lines = historyLines(statement);
  inOrder(lines, [](const HistoryLine& line) { return line.stamp.entry; });
  return lines;
}

KeyRow readKey(Connection& connection) {
  auto statement = connection.prepare(
      "SELECT salt, kdf_passes, kdf_bytes, key_nonce, key_box, key_name FROM book WHERE only_row = "
      "1");
  if (!statement.step()) throw Trouble({ErrorCode::storeDamaged, "the book has no key"});
  using Bytes = std::vector<std::uint8_t>;
  return {statement.column<Bytes>(0),        statement.column<std::int64_t>(1),
          statement.column<std::int64_t>(2), statement.column<Bytes>(3),
          statement.column<Bytes>(4),        statement.bytes16(5)};
}

base::Uuid bookIdentity(Connection& connection) {
  auto id = connection.prepare("SELECT id FROM book");
  if (!id.step())
    throw Trouble({ErrorCode::storeDamaged, connection.path().string() +
                                                ": the key of the names is missing; keep this file "
                                                "and open the latest backup"});
  return id.bytes16(0);
}

/// Whether what ended so is in the book, in whatever line of that hand.
bool hasAct(Connection& connection, int number, const HandEnd& end) {
  if (end.sequence == 0) return true;
  const auto& hands = connection.hands();
  for (const auto& [other, laptop] : hands.all()) {
    if (number == 0 || hands.originOf(other) != hands.originOf(number)) continue;
    auto row = connection.prepare("SELECT digest FROM act WHERE (first & 2047) = ?1 AND sequence "
                                  "<= ?2 ORDER BY sequence DESC LIMIT 1");
    row.bindAll(other, end.sequence);
    if (row.step() && hashIn(row, 0) == end.digest) return true;
  }
  return false;
}

std::optional<base::LocalInstant> newestActAt(Connection& connection, base::LaptopId hand) {
  auto row = connection.prepare("SELECT at, utc_offset FROM act WHERE (first & 2047) = ?1 ORDER BY "
                                "sequence DESC LIMIT 1");
  row.bind(1, connection.hands().numberOf(hand));
  if (!row.step()) return std::nullopt;
  return base::LocalInstant{row.column<base::Instant>(0), std::chrono::minutes(row.column<int>(1))};
}

// A clinic day is some hundreds of acts; a person who opens a book does not wait for them.
constexpr int newestActs = 200;

} // namespace

void Book::takeHand(const HandMemory& laptop, base::Instant now) {
  const auto look = [&](base::LaptopId hand, const HandEnd& remembered) {
    const auto position = readPosition(connection_, hand);
    const auto number = connection_.hands().numberOf(hand);
    return HandInBook{{position.sequence, position.digest},
                      hasAct(connection_, number, remembered),
                      connection_.hands().isParted(number)};
  };
  auto taken = laptop.take(hand_.book, look, now);
  hand_.laptop = taken.hand;
  held_ = std::move(taken.held);
  notice_ = {taken.news, taken.lost ? newestActAt(connection_, *taken.lost) : std::nullopt};
}

Result<Book> Book::create(const base::Path& path, const HandMemory& laptop, Durability durability,
                          base::Instant now, const KeyRow& key, base::Random& random,
                          const FirstAct& first) {
  Position position;
  const auto id = base::makeUuid7(now, random);
  auto taken = laptop.take(
      id, [](base::LaptopId, const HandEnd&) { return HandInBook{}; }, now);
  const Hand hand{id, taken.hand};
  const auto fill = [&](Connection& fresh) {
    Transaction transaction(fresh);
    fresh
        .prepare("INSERT INTO book (only_row, id, salt, kdf_passes, kdf_bytes, key_nonce, "
                 "key_box) VALUES (1, ?, ?, ?, ?, ?, ?)")
        .bindAll(std::span<const std::uint8_t>(hand.book.bytes),
                 std::span<const std::uint8_t>(key.salt), key.passes, key.memoryBytes,
                 std::span<const std::uint8_t>(key.nonce), std::span<const std::uint8_t>(key.box))
        .run();
    sealKey(fresh);
    if (first.work) {
      Act act(fresh, hand, {first.by, first.at, first.verb}, position);
      first.work(act);
      position = act.sealed();
    }
    transaction.commit();
  };
  auto opened = createBook(path, durability, now, migrations(), fill);
  if (!opened) return opened.error();
  Book book(std::move(*opened), hand, position);
  book.held_ = std::move(taken.held);
  if (book.held_) book.held_->wrote({position.sequence, position.digest});
  return book;
}

Result<Book> Book::open(const base::Path& path, const HandMemory& laptop, Access access,
                        Durability durability, base::Instant now, Checkup checkup,
                        const base::Progress& progress) {
  auto opened = openBook(path, access, durability, now, checkup, migrations(), progress);
  if (!opened) return opened.error();
  return guarded([&] {
    const base::LaptopId nobody(base::Uuid{});
    const Hand hand{bookIdentity(*opened), nobody}; // asked first: arguments have no order
    Book book(std::move(*opened), hand, {});
    auto& connection = book.connection_;
    if (checkup == Checkup::whole) {
      const Watching watching(connection, progress);
      requireNone(historyFaults(connection, "main", newestSchema()), connection.path());
    }
    if (checkup == Checkup::meanwhile)
      requireNone(newestFaults(connection, newestSchema(), newestActs), connection.path());
    if (access == Access::readWrite) book.takeHand(laptop, now);
    book.position_ = readPosition(connection, book.hand_.laptop);
    // An erasure was the last that was done, and its rewriting did not come to an end.
    if (access == Access::readWrite && hasTraces(connection)) forgetBytes(connection);
    if (checkup == Checkup::meanwhile)
      book.check_ = std::make_unique<BackgroundCheck>(connection.path(), newestSchema());
    return book;
  });
}

Result<bool> Book::keepsTraces() {
  return guarded([&] { return hasTraces(connection_); });
}

Result<Book> Book::over(Connection connection, base::LaptopId laptop) {
  return guarded([&] {
    connection.goNameless();
    const Hand hand{bookIdentity(connection), laptop};
    const auto position = readPosition(connection, laptop);
    Book book(std::move(connection), hand, position);
    return book;
  });
}

Result<KeyRow> Book::key() {
  return guarded([&] { return readKey(connection_); });
}

Result<std::optional<KeyRow>> Book::recovery() {
  return guarded([&] { return recoveryKey(connection_); });
}

Result<ChainState> Book::chains() {
  return guarded([&] { return chainState(connection_); });
}

Result<std::vector<JudgedSignature>> Book::signatures(base::DayId day) {
  return guarded([&] { return judgeSignatures(connection_, day); });
}

Result<std::vector<KeyWrap>> Book::wraps() {
  return guarded([&] { return keyWraps(connection_); });
}

Result<base::Done> Book::keepOpeners(const std::function<void(Openers)>& work) {
  if (auto may = mayWrite(); !may) return may;
  return inPlace(guarded([&] {
    Transaction transaction(connection_);
    work(Openers(connection_));
    transaction.commit();
  }));
}

Result<base::Done> Book::act(base::By by, base::LocalInstant at,
                             const std::function<void(Act&)>& work, std::string_view verb) {
  // A disk that was full may have ended their transaction: what came after would be kept alone.
  if (together_ && together_->failed) return *together_->failed;
  const auto write = [&] {
    std::optional<Transaction> own;
    if (!together_) own.emplace(connection_);
    Act act(connection_, hand_, {by, at, verb}, position_);
    work(act);
    const auto position = act.sealed();
    if (own) own->commit();
    position_ = position;
    if (own && held_) held_->wrote({position_.sequence, position_.digest});
    if (rivals_ && !rivals_->empty()) rivals_.reset();
  };
  auto done = mayWrite();
  if (done) done = together_ ? guarded(write) : inPlace(guarded(write));
  if (!done && together_) together_->failed = done.error();
  return done;
}

Result<base::Done> Book::together(const std::function<Result<base::Done>()>& work) {
  base::require(!together_, "acts together within acts together");
  if (auto may = mayWrite(); !may) return may;
  const auto before = position_;
  auto done = guarded([&] {
    Transaction transaction(connection_);
    together_ = Together{};
    if (const auto worked = work(); !worked) throw Trouble(worked.error());
    if (together_->failed) throw Trouble(*together_->failed);
    transaction.commit();
  });
  together_.reset();
  if (!done) position_ = before;
  rivals_.reset();
  if (done && held_) held_->wrote({position_.sequence, position_.digest});
  return inPlace(std::move(done));
}

const std::vector<Rivals>& Book::knownRivals() {
  if (rivals_) return *rivals_;
  std::vector<Rivals> found;
  auto statement = connection_.prepare(rivalsSql);
  while (statement.step()) {
    const auto [kind, thing, word] = statement.columns<std::string, base::EntryId, base::EntryId>();
    const auto subject = thing.uuid();
    if (found.empty() || found.back().subject != subject) found.push_back({kind, subject, {}});
    found.back().words.push_back(word);
  }
  for (auto& thing : found)
    inOrder(thing.words, std::identity{});
  inOrder(found, [](const Rivals& thing) { return base::EntryId(thing.subject); });
  // What took one back stands after the words, and only where any stands.
  auto taken = connection_.prepare(takenBackSql);
  while (taken.step()) {
    const auto [kind, thing, back] = taken.columns<std::string, base::EntryId, base::EntryId>();
    const auto at = std::ranges::find(found, thing.uuid(), &Rivals::subject);
    if (at != found.end()) at->words.push_back(back);
  }
  std::erase_if(found, [](const auto& thing) { return thing.words.size() < 2; });
  rivals_ = std::move(found);
  return *rivals_;
}

Result<std::vector<Rivals>> Book::rivals() {
  return guarded([&] { return knownRivals(); });
}

Result<std::vector<HistoryLine>> Book::newestBefore(std::int64_t sequence, int limit) {
  return guarded([&] {
    auto statement = connection_.prepare(newestBeforeSql());
    statement.bind(1, connection_.hands().numberOf(hand_.laptop)).bind(2, sequence).bind(3, limit);
    return historyLines(statement);
  });
}

Result<std::vector<HistoryLine>> Book::othersSince(base::EntryId entry) {
  return guarded([&] {
    auto statement = connection_.prepare(othersSinceSql());
    statement.bind(1, connection_.hands().numberOf(hand_.laptop)).bind(2, entry);
    return linesInOrder(statement);
  });
}

Result<std::vector<HistoryLine>> Book::rowsOfSubject(const base::Uuid& subject) {
  return guarded([&] {
    auto statement = connection_.prepare(rowsOfSubjectSql());
    statement.bind(1, base::EntryId(subject));
    return linesInOrder(statement);
  });
}

Result<std::vector<HistoryLine>> Book::rowsOfEntry(base::EntryId entry) {
  auto act = actOf(entry);
  if (!act) return act;
  for (const auto& row : *act)
    if (row.stamp.entry == entry) return rowsOfSubject(row.subject);
  return std::vector<HistoryLine>{};
}

Result<std::vector<HistoryLine>> Book::actOf(base::EntryId entry) {
  return guarded([&] {
    auto statement = connection_.prepare(actOfSql());
    statement.bind(1, entry);
    return historyLines(statement);
  });
}

Result<base::Done> Book::backUp(const base::Path& target, const base::Progress& progress) {
  const Watching watching(connection_, progress);
  return backupTo(connection_, target, newestSchema());
}

Result<std::vector<Fault>> Book::faults(const base::Progress& progress) {
  const Watching watching(connection_, progress);
  progress.at(base::Stage::checking);
  return guarded([&] {
    auto faults = pageFaults(connection_);
    for (auto& fault : historyFaults(connection_, "main", newestSchema()))
      faults.push_back(std::move(fault));
    // No reason to refuse a book that was made before each had its program: it is asked for then.
    // One that was taken away is a fault of the history as well.
    auto program = connection_.prepare(
        "SELECT EXISTS (SELECT 1 FROM clinic_day) AND NOT EXISTS (SELECT 1 FROM program)");
    program.step();
    if (program.column<bool>(0))
      faults.push_back({"the program is missing", {}, {}, "open the logbook and enter it"});
    return faults;
  });
}

Result<base::Done> Book::finish() {
  return guarded([&] { connection_.finish(); });
}

base::Instant Book::newestMoment() const {
  // Identities begin with the time, and never run behind their rows.
  return base::timeOf(position_.last);
}

Result<ChildList> Book::childrenOf(const ChildrenOfTerm& term) {
  return guarded([&] {
    auto statement = connection_.prepare(childrenOfTermSql);
    statement.bind(1, term.term).bind(2, term.from).bind(3, term.until);
    statement.step();
    return ChildList{statement.column<std::string>(0)};
  });
}

Result<ChildPast> Book::childPast(roster::ChildId child, base::DayId today, roster::TermId term) {
  return guarded([&] {
    auto statement = connection_.prepare(childPastSql());
    statement.bind(1, child).bind(2, today).bind(3, term);
    statement.step();
    return ChildPast{statement.column<std::int64_t>(0) != 0,
                     statement.column<std::int64_t>(1) != 0};
  });
}

Result<std::vector<roster::ChildId>> Book::childrenTouched(base::EntryId after) {
  return guarded([&] {
    auto statement = connection_.prepare(childrenTouchedSql);
    statement.bind(1, after);
    return listOf<roster::ChildId>(statement);
  });
}

} // namespace gk::store
