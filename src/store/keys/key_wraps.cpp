#include "store/keys/key_wraps.h"

#include "crypto/digest.h"
#include "store/digest/act_digest.h"
#include "store/digest/lines.h"
#include "store/keys/recovery_key.h"
#include "store/sqlite/trouble.h"

#include <algorithm>
#include <array>
#include <string>

namespace gk::store {

namespace {

using base::ErrorCode;
using Bytes = std::vector<std::uint8_t>;

constexpr auto openerWords =
    std::to_array<std::string_view>({"passphrase", "recovery code", "own passphrase"});

std::string_view wordOf(Opener opener) {
  return openerWords.at(static_cast<std::size_t>(opener));
}

base::Uuid bookOf(Connection& connection, const std::string& database) {
  auto id = connection.prepare("SELECT id FROM " + database + ".book WHERE only_row = 1");
  if (!id.step()) throw Trouble({ErrorCode::storeDamaged, "the book has no key"});
  return id.bytes16(0);
}

/// As docs/formats.md has it: a tag, the book, then each value of each row in the order of the key,
/// blobs after their length. None for an empty table.
std::optional<crypto::Hash> wrapsDigest(Connection& connection, const std::string& database) {
  std::string bytes = "groovekeeper key wraps 1";
  const auto number = [&](std::int64_t value) {
    for (unsigned i = 0; i < 8; ++i)
      bytes += static_cast<char>(static_cast<std::uint64_t>(value) >> (8 * i) & 0xFFU);
  };
  const auto blob = [&](const auto& value) {
    number(static_cast<std::int64_t>(value.size()));
    bytes.append(value.begin(), value.end());
  };
  blob(bookOf(connection, database).bytes);
  const auto hands = handsOf(connection, database);
  struct Row {
    std::string opener;
    Bytes name;
    base::Uuid person;
    std::string rest;
  };
  std::vector<Row> kept;
  auto rows = connection.prepare("SELECT opener, key_name, personal_key, salt, kdf_passes, "
                                 "kdf_bytes, nonce, box FROM " +
                                 database + ".key_wrap");
  while (rows.step()) {
    // The number in the file is the file's own; the person's word is called the same everywhere.
    const auto person = hands.enteredAs(rows.column<std::int64_t>(2)).value_or(base::Uuid{});
    std::string before;
    before.swap(bytes);
    blob(rows.column<Bytes>(3));
    number(rows.column<std::int64_t>(4));
    number(rows.column<std::int64_t>(5));
    blob(rows.column<Bytes>(6));
    blob(rows.column<Bytes>(7));
    before.swap(bytes);
    kept.push_back({rows.column<std::string>(0), rows.column<Bytes>(1), person, before});
  }
  if (kept.empty()) return std::nullopt;
  std::ranges::sort(kept, {}, [](const Row& row) {
    return std::tie(row.opener, row.name, row.person, row.rest);
  });
  for (const auto& row : kept) {
    blob(row.opener);
    blob(row.name);
    blob(row.person.bytes);
    bytes += row.rest;
  }
  crypto::Hasher hasher;
  hasher.add(bytes);
  return hasher.finish();
}

bool isWhole(Connection& connection, const std::string& database) {
  auto row = connection.prepare("SELECT wraps_digest FROM " + database + ".book");
  if (!row.step()) return true; // that the row is missing is found elsewhere
  const auto digest = wrapsDigest(connection, database);
  if (row.isNull(0) || !digest) return row.isNull(0) && !digest;
  return hashIn(row, 0) == digest;
}

void sealWraps(Connection& book) {
  const auto digest = wrapsDigest(book, "main");
  auto row = book.prepare("UPDATE main.book SET wraps_digest = ?1 WHERE only_row = 1");
  if (digest)
    row.bind(1, std::span<const std::uint8_t>(*digest));
  else
    row.bind(1, std::nullopt);
  row.run();
}

bool answersYes(Connection& book, const std::string& sql) {
  auto row = book.prepare(sql);
  return row.step() && row.column<bool>(0);
}

bool isKnown(Connection& book, const std::string& database) {
  const auto known =
      " IN (SELECT zeroblob(16) UNION ALL SELECT name FROM " + database + ".book_key)";
  return answersYes(book, "SELECT (SELECT key_name FROM " + database + ".book)" + known +
                              " AND NOT EXISTS (SELECT 1 FROM " + database +
                              ".key_wrap WHERE NOT key_name" + known +
                              ") AND NOT EXISTS (SELECT 1 FROM " + database + ".ended_wrap)");
}

bool isPutBack(Connection& book, const std::string& database) {
  const auto later = "FROM " + database + ".book AS b CROSS JOIN " + database +
                     ".book_key_earlier AS p ON p.name = b.key_name CROSS JOIN " + database +
                     ".book_key AS k ON k.entry = p.entry";
  return answersYes(book, "SELECT EXISTS (SELECT 1 " + later + ") AND NOT EXISTS (SELECT 1 " +
                              later + " CROSS JOIN " + database +
                              ".key_wrap AS w ON w.key_name = k.name AND w.opener = 'passphrase')");
}

} // namespace

std::vector<KeyWrap> keyWraps(Connection& book) {
  auto rows = book.prepare("SELECT w.opener, w.key_name, nullif(w.personal_key, 0), w.salt, "
                           "w.kdf_passes, w.kdf_bytes, w.nonce, w.box FROM key_wrap AS w LEFT JOIN "
                           "book_key AS k ON k.name = w.key_name ORDER BY coalesce(k.entry, 0), "
                           "w.opener, w.personal_key");
  std::vector<KeyWrap> wraps;
  while (rows.step()) {
    const auto word = std::ranges::find(openerWords, rows.column<std::string>(0));
    if (word == openerWords.end())
      throw Trouble({ErrorCode::storeDamaged, "the book holds what it cannot: a wrapped key"});
    wraps.push_back(
        {static_cast<Opener>(word - openerWords.begin()),
         {rows.column<Bytes>(3), rows.column<std::int64_t>(4), rows.column<std::int64_t>(5),
          rows.column<Bytes>(6), rows.column<Bytes>(7), rows.bytes16(1)},
         rows.column<std::optional<base::EntryId>>(2)});
  }
  return wraps;
}

void Openers::add(const KeyWrap& wrap) const {
  const std::span<const std::uint8_t> name(wrap.key.name.bytes);
  const auto person =
      wrap.personalKey ? book_.hands().keyOf(wrap.personalKey->uuid()) : std::int64_t{0};
  auto row = book_.prepare(
      "INSERT INTO key_wrap (opener, key_name, personal_key, salt, kdf_passes, kdf_bytes, nonce, "
      "box) SELECT ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8 WHERE NOT EXISTS (SELECT 1 FROM key_wrap WHERE "
      "opener = ?1 AND key_name = ?2 AND personal_key = ?3)");
  row.bindAll(wordOf(wrap.opener), name, person, std::span<const std::uint8_t>(wrap.key.salt),
              wrap.key.passes, wrap.key.memoryBytes, std::span<const std::uint8_t>(wrap.key.nonce),
              std::span<const std::uint8_t>(wrap.key.box));
  row.run();
  sealWraps(book_);
}

void Openers::prune() const {
  book_.cutJournal(); // what has ended is not to be found beside the file either
  if (!isRecoveryKnown(book_)) keepRecoveryKey(book_, {});
  book_.execute("DELETE FROM key_wrap WHERE EXISTS (SELECT 1 FROM ended_wrap AS w WHERE w.opener = "
                "key_wrap.opener AND w.key_name = key_wrap.key_name AND w.personal_key = "
                "key_wrap.personal_key)");
  sealWraps(book_);
}

void Openers::present(const KeyRow& key, const std::optional<KeyRow>& recovery) const {
  book_
      .prepare("UPDATE book SET salt = ?, kdf_passes = ?, kdf_bytes = ?, key_nonce = ?, key_box = "
               "?, key_name = ? WHERE only_row = 1")
      .bindAll(std::span<const std::uint8_t>(key.salt), key.passes, key.memoryBytes,
               std::span<const std::uint8_t>(key.nonce), std::span<const std::uint8_t>(key.box),
               std::span<const std::uint8_t>(key.name.bytes))
      .run();
  keepRecoveryKey(book_, recovery);
  prune();
  sealKey(book_);
}

void takeWraps(Connection& book, const std::string& personalKey, const base::Path& other) {
  const auto refuse = [&] {
    throw Trouble({ErrorCode::storeDamaged,
                   other.string() + ": what opens the names in it was changed by another program; "
                                    "nothing was merged; keep both logbooks"});
  };
  if (!isWhole(book, "other") || !isKnown(book, "other") || isPutBack(book, "other")) refuse();
  book.execute("INSERT INTO main.key_wrap (opener, key_name, personal_key, salt, kdf_passes, "
               "kdf_bytes, nonce, box) SELECT o.opener, o.key_name, o.here, o.salt, o.kdf_passes, "
               "o.kdf_bytes, o.nonce, o.box FROM (SELECT *, iif(personal_key = 0, 0, " +
               personalKey +
               ") AS here FROM other.key_wrap) AS o WHERE NOT EXISTS (SELECT 1 FROM main.key_wrap "
               "AS m WHERE m.opener = o.opener AND m.key_name = o.key_name AND m.personal_key = "
               "o.here) ORDER BY o.opener, o.key_name, o.here");
  auto row = book.prepare("SELECT salt, kdf_passes, kdf_bytes, key_nonce, key_box, key_name, "
                          "recovery_salt, recovery_passes, recovery_bytes, recovery_nonce, "
                          "recovery_box FROM other.book WHERE only_row = 1");
  if (!row.step()) refuse();
  const auto keyAt = [&](int at) {
    return KeyRow{row.column<Bytes>(at),
                  row.column<std::int64_t>(at + 1),
                  row.column<std::int64_t>(at + 2),
                  row.column<Bytes>(at + 3),
                  row.column<Bytes>(at + 4),
                  row.bytes16(5)};
  };
  constexpr int recoveryAt = 6;
  std::vector<KeyWrap> wraps;
  // What opens the key that is here too stays each laptop's own.
  if (!answersYes(book,
                  "SELECT (SELECT key_name FROM main.book) = (SELECT key_name FROM other.book)")) {
    wraps.push_back({Opener::passphrase, keyAt(0)});
    if (!row.isNull(recoveryAt)) wraps.push_back({Opener::recoveryCode, keyAt(recoveryAt)});
  }
  row.reset();
  const Openers openers(book);
  for (const auto& wrap : wraps)
    openers.add(wrap);
  openers.prune();
  if (!areWrapsKnown(book)) refuse();
}

bool areWrapsWhole(Connection& book) {
  return isWhole(book, "main");
}

bool areWrapsKnown(Connection& book) {
  return isKnown(book, "main");
}

bool isKeyPutBack(Connection& book) {
  return isPutBack(book, "main");
}

} // namespace gk::store
