#include "store/book.h"

#include "store/transaction.h"
#include "store/trouble.h"

namespace gk::store {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

Position readPosition(Connection& connection, base::LaptopId laptop) {
  auto statement = connection.prepare(
      "SELECT (SELECT coalesce(max(sequence), 0) FROM entry WHERE laptop = ?), max(id) FROM entry");
  statement.bind(1, laptop);
  statement.step();
  const auto [sequence, last] = statement.columns<std::int64_t, std::optional<base::Uuid>>();
  return {sequence, last.value_or(base::Uuid{})};
}

KeyRow readKey(Connection& connection) {
  auto statement = connection.prepare(
      "SELECT salt, kdf_passes, kdf_bytes, key_nonce, key_box FROM book WHERE only_row = 1");
  if (!statement.step()) throw Trouble({ErrorCode::storeDamaged, "the book has no key"});
  using Bytes = std::vector<std::uint8_t>;
  auto [salt, passes, memory, nonce, box] =
      statement.columns<Bytes, std::int64_t, std::int64_t, Bytes, Bytes>();
  return {std::move(salt), passes, memory, std::move(nonce), std::move(box)};
}

} // namespace

Result<Book> Book::create(const base::Path& path, base::LaptopId laptop, Durability durability,
                          base::Instant now, const KeyRow& key, base::Random& random) {
  auto opened = createBook(path, durability, now);
  if (!opened) return opened.error();
  auto written = guarded([&] {
    Transaction transaction(*opened);
    opened
        ->prepare("INSERT INTO book (only_row, id, salt, kdf_passes, kdf_bytes, key_nonce, "
                  "key_box) VALUES (1, ?, ?, ?, ?, ?, ?)")
        .bindAll(base::makeUuid7(now, random), std::span<const std::uint8_t>(key.salt), key.passes,
                 key.memoryBytes, std::span<const std::uint8_t>(key.nonce),
                 std::span<const std::uint8_t>(key.box))
        .run();
    transaction.commit();
  });
  if (!written) return written.error();
  return Book(std::move(*opened), laptop, {});
}

Result<Book> Book::open(const base::Path& path, base::LaptopId laptop, Access access,
                        Durability durability, base::Instant now) {
  auto opened = openBook(path, access, durability, now);
  if (!opened) return opened.error();
  auto position = guarded([&] { return readPosition(*opened, laptop); });
  if (!position) return position.error();
  return Book(std::move(*opened), laptop, *position);
}

Result<KeyRow> Book::key() {
  return guarded([&] { return readKey(connection_); });
}

Result<base::Done> Book::replaceKey(const KeyRow& key) {
  return guarded([&] {
    Transaction transaction(connection_);
    connection_
        .prepare("UPDATE book SET salt = ?, kdf_passes = ?, kdf_bytes = ?, key_nonce = ?, "
                 "key_box = ? WHERE only_row = 1")
        .bindAll(std::span<const std::uint8_t>(key.salt), key.passes, key.memoryBytes,
                 std::span<const std::uint8_t>(key.nonce), std::span<const std::uint8_t>(key.box))
        .run();
    transaction.commit();
  });
}

Result<base::Done> Book::act(base::By by, base::LocalInstant at, base::Random& random,
                             const std::function<void(Act&)>& work) {
  return guarded([&] {
    Transaction transaction(connection_);
    Act act(connection_, {laptop_, by, at}, position_, random);
    work(act);
    transaction.commit();
    position_ = act.position();
  });
}

Result<std::vector<HistoryLine>> Book::lastAct() {
  constexpr std::string_view sql =
      "SELECT e.id, e.laptop, e.sequence, e.author, e.recorder, e.at, e.utc_offset, e.supersedes, "
      "e.reason, e.kind, EXISTS (SELECT 1 FROM current_entry AS c WHERE c.id = e.id) "
      "FROM entry AS e WHERE e.act = (SELECT act FROM entry AS last WHERE last.laptop = ?1 AND "
      "last.kind <> 'retraction' AND NOT EXISTS (SELECT 1 FROM entry AS s WHERE s.supersedes = "
      "last.id) ORDER BY last.sequence DESC LIMIT 1) ORDER BY e.sequence";
  return guarded([&]() -> Result<std::vector<HistoryLine>> {
    std::vector<HistoryLine> lines;
    auto statement = connection_.prepare(sql);
    statement.bind(1, laptop_);
    while (statement.step()) {
      using Member = std::optional<base::MemberId>;
      auto [id, laptop, sequence, author, recorder, at, offset, supersedes, reason, kind, current] =
          statement
              .columns<base::EntryId, base::LaptopId, std::int64_t, Member, Member, base::Instant,
                       int, std::optional<base::EntryId>, std::string, std::string, bool>();
      lines.push_back({{id,
                        laptop,
                        sequence,
                        {author, recorder},
                        {at, std::chrono::minutes(offset)},
                        supersedes,
                        reason},
                       kind,
                       current});
    }
    if (lines.empty()) return Error{ErrorCode::notFound, "nothing to take back"};
    for (const auto& line : lines)
      if (line.stamp.supersedes || !line.current)
        return Error{ErrorCode::notFound,
                     "the last act was a correction; correct it again instead"};
    return lines;
  });
}

Result<base::Done> Book::backUp(const base::Path& target) {
  return backupTo(connection_, target);
}

Result<std::vector<std::string>> Book::findings() {
  return integrity(connection_);
}

Result<base::Done> Book::finish() {
  return guarded([&] { connection_.finish(); });
}

Result<base::Instant> Book::newestMoment() {
  return guarded([&] {
    auto statement = connection_.prepare("SELECT coalesce(max(at), 0) FROM entry");
    statement.step();
    return statement.column<base::Instant>(0);
  });
}

} // namespace gk::store
