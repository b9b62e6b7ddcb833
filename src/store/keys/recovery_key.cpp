#include "store/keys/recovery_key.h"

#include "crypto/digest.h"
#include "store/sqlite/trouble.h"

#include <algorithm>
#include <array>

namespace gk::store {

namespace {

using MaybeBytes = std::optional<std::vector<std::uint8_t>>;
using MaybeNumber = std::optional<std::int64_t>;

constexpr std::string_view recoverySql =
    "SELECT recovery_salt, recovery_passes, recovery_bytes, recovery_nonce, recovery_box, "
    "recovery_digest, id, key_name FROM book WHERE only_row = 1";

void putLength(std::string& bytes, std::int64_t value) {
  for (unsigned i = 0; i < 8; ++i)
    bytes += static_cast<char>(static_cast<std::uint64_t>(value) >> (8 * i) & 0xFFU);
}

/// As docs/formats.md has it: a tag, the logbook's id, then each value, blobs after their length.
crypto::Hash recoveryDigest(const base::Uuid& book, const KeyRow& key) {
  std::string bytes = "groovekeeper recovery 1";
  bytes.append(book.bytes.begin(), book.bytes.end());
  const auto blob = [&](const std::vector<std::uint8_t>& value) {
    putLength(bytes, static_cast<std::int64_t>(value.size()));
    bytes.append(value.begin(), value.end());
  };
  blob(key.salt);
  putLength(bytes, key.passes);
  putLength(bytes, key.memoryBytes);
  blob(key.nonce);
  blob(key.box);
  crypto::Hasher hasher;
  hasher.add(bytes);
  return hasher.finish();
}

} // namespace

std::optional<KeyRow> recoveryKey(Connection& book) {
  auto row = book.prepare(recoverySql);
  if (!row.step()) throw Trouble({base::ErrorCode::storeDamaged, "the book has no key"});
  auto salt = row.column<MaybeBytes>(0);
  if (!salt) return std::nullopt;
  return KeyRow{std::move(*salt),
                row.column<std::int64_t>(1),
                row.column<std::int64_t>(2),
                row.column<std::vector<std::uint8_t>>(3),
                row.column<std::vector<std::uint8_t>>(4),
                row.bytes16(7)};
}

void keepRecoveryKey(Connection& book, const std::optional<KeyRow>& key) {
  book.cutJournal();
  auto id = book.prepare("SELECT id FROM book WHERE only_row = 1");
  id.step();
  MaybeBytes digest;
  if (key) {
    const auto hash = recoveryDigest(id.bytes16(0), *key);
    digest.emplace(hash.begin(), hash.end());
  }
  auto update = book.prepare("UPDATE book SET recovery_salt = ?1, recovery_passes = ?2, "
                             "recovery_bytes = ?3, recovery_nonce = ?4, recovery_box = ?5, "
                             "recovery_digest = ?6 WHERE only_row = 1");
  const auto blob = [&](int at, const std::vector<std::uint8_t>* value) {
    if (value)
      update.bind(at, std::span<const std::uint8_t>(*value));
    else
      update.bind(at, std::nullopt);
  };
  blob(1, key ? &key->salt : nullptr);
  update.bind(2, key ? MaybeNumber(key->passes) : MaybeNumber());
  update.bind(3, key ? MaybeNumber(key->memoryBytes) : MaybeNumber());
  blob(4, key ? &key->nonce : nullptr);
  blob(5, key ? &key->box : nullptr);
  blob(6, digest ? &*digest : nullptr);
  update.run();
}

bool isRecoveryKnown(Connection& book) {
  if (!recoveryKey(book)) return true;
  // Of two laptops' words the more careful one counts, as in store/values/rival_rule.h.
  const std::string newest = "NOT EXISTS (SELECT 1 FROM entry AS later WHERE later.supersedes = ";
  auto made = book.prepare(
      "SELECT EXISTS (SELECT 1 FROM recovery_code AS t CROSS JOIN entry AS e ON e.id = t.entry "
      "WHERE t.withdrawn = 0 AND " +
      newest +
      "e.id) AND NOT EXISTS (SELECT 1 FROM recovery_code AS w CROSS JOIN entry AS we ON we.id = "
      "w.entry WHERE w.withdrawn = 1 AND coalesce(we.subject, we.id) = coalesce(e.subject, e.id) "
      "AND " +
      newest + "we.id)))");
  return made.step() && made.column<bool>(0);
}

bool isRecoveryWhole(Connection& book) {
  auto row = book.prepare(recoverySql);
  if (!row.step()) return true; // that the row is missing is found elsewhere
  const auto isThere = [&](int at) { return !row.isNull(at); };
  const std::array<int, 6> all{0, 1, 2, 3, 4, 5};
  if (std::ranges::none_of(all, isThere)) return true;
  if (!std::ranges::all_of(all, isThere)) return false;
  const KeyRow key{row.column<std::vector<std::uint8_t>>(0), row.column<std::int64_t>(1),
                   row.column<std::int64_t>(2), row.column<std::vector<std::uint8_t>>(3),
                   row.column<std::vector<std::uint8_t>>(4)};
  return std::ranges::equal(row.column<std::vector<std::uint8_t>>(5),
                            recoveryDigest(row.bytes16(6), key));
}

} // namespace gk::store
