#include "store/act_digest.h"

#include "store/trouble.h"

#include <algorithm>

namespace gk::store {

namespace {

constexpr std::string_view actTag = "groovekeeper act 1";
constexpr std::string_view keyTag = "groovekeeper key 1";

constexpr char rowMark = 'r';
constexpr char endMark = 'e';
constexpr char endOfRow = 0;

std::string_view viewOf(std::span<const std::uint8_t> bytes) {
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

template <class T>
void putNumber(std::string& bytes, T value) {
  for (std::size_t i = 0; i < sizeof value; ++i)
    bytes += static_cast<char>(static_cast<std::uint64_t>(value) >> (8 * i) & 0xFFU);
}

/// Type, length and value, so that no two rows share their bytes.
void putCell(std::string& bytes, const CellView& cell) {
  bytes += static_cast<char>(cell.type);
  if (cell.type == CellType::integer || cell.type == CellType::real) {
    putNumber(bytes, cell.number);
  } else if (cell.type != CellType::null) {
    putNumber(bytes, static_cast<std::uint32_t>(cell.bytes.size()));
    bytes += cell.bytes;
  }
}

/// The rows of an entry in the tables of its kind, after its own.
void addRecords(Connection& book, const OwnSchema& own, const std::string& kind,
                const base::Uuid& entry, ActDigest& digest) {
  for (const auto& table : std::ranges::equal_range(own.records, kind, {}, &OwnTable::kind)) {
    auto rows = book.prepare(table.ofEntry);
    rows.bind(1, entry);
    while (rows.step())
      digest.add(table, rows);
  }
}

/// `entries` stands on the first of them.
crypto::Hash digestOfRows(Connection& book, const OwnSchema& own, Statement& entries,
                          const ActHead& head) {
  ActDigest digest(head);
  do {
    digest.addEntry(own.entry, entries);
    addRecords(book, own, entries.column<std::string>(own.kindColumn),
               entries.column<base::Uuid>(own.idColumn), digest);
  } while (entries.step());
  return digest.finish();
}

} // namespace

ActDigest::ActDigest(const ActHead& head) {
  putNumber(bytes_, static_cast<std::uint32_t>(actTag.size()));
  bytes_ += actTag;
  bytes_ += viewOf(head.book.bytes);
  bytes_ += viewOf(head.laptop.uuid().bytes);
  bytes_ += viewOf(head.previous);
  bytes_ += viewOf(head.act.bytes);
  putNumber(bytes_, head.first);
}

void ActDigest::flush() {
  hasher_.add(bytes_);
  bytes_.clear();
}

void ActDigest::add(const OwnTable& table, const Statement& row) {
  bytes_ += rowMark;
  bytes_ += static_cast<char>(table.name.size());
  bytes_ += table.name;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    const auto cell = row.cell(static_cast<int>(i));
    const auto& silent = table.columns[i].silent;
    // So that a column that comes later, silent in old rows, changes none of their digests.
    if (silent && silent->view() == cell) continue;
    bytes_ += static_cast<char>(i + 1);
    putCell(bytes_, cell);
  }
  bytes_ += endOfRow;
  constexpr std::size_t piece = 4096;
  if (bytes_.size() >= piece) flush();
}

void ActDigest::addEntry(const OwnTable& entry, const Statement& row) {
  add(entry, row);
  ++entries_;
}

crypto::Hash ActDigest::finish() {
  bytes_ += endMark;
  putNumber(bytes_, entries_);
  flush();
  return hasher_.finish();
}

crypto::Hash sealAct(Connection& book, const OwnSchema& own, const Hand& hand, std::int64_t after,
                     const crypto::Hash& previous) {
  auto entries = book.prepare(own.entriesAfter);
  entries.bindAll(hand.laptop, after);
  base::require(entries.step(), "an act that wrote a row");
  const auto act = entries.column<base::Uuid>(own.idColumn);
  const auto digest =
      digestOfRows(book, own, entries, {hand.book, hand.laptop, previous, act, after + 1});
  book.prepare("INSERT INTO act_digest (act, digest) VALUES (?, ?)")
      .bindAll(act, std::span<const std::uint8_t>(digest))
      .run();
  return digest;
}

crypto::Hash digestOf(Connection& book, const OwnSchema& own, const ActHead& head) {
  auto entries = book.prepare(own.entriesOfAct);
  entries.bind(1, head.act);
  base::require(entries.step(), "an act that is there");
  return digestOfRows(book, own, entries, head);
}

crypto::Hash keyDigest(Connection& book) {
  auto key = book.prepare("SELECT id, salt, kdf_passes, kdf_bytes, key_nonce, key_box FROM book "
                          "WHERE only_row = 1");
  std::string bytes(keyTag);
  if (key.step())
    for (int i = 0; i < 6; ++i)
      putCell(bytes, key.cell(i));
  crypto::Hasher hasher;
  hasher.add(bytes);
  return hasher.finish();
}

void sealKey(Connection& book) {
  book.prepare("UPDATE book SET key_digest = ? WHERE only_row = 1")
      .bindAll(std::span<const std::uint8_t>(keyDigest(book)))
      .run();
}

crypto::Hash keptDigest(Connection& book, const base::Uuid& act) {
  auto kept = book.prepare("SELECT digest FROM act_digest WHERE act = ?1");
  kept.bind(1, act);
  crypto::Hash digest{};
  if (!kept.step()) return digest;
  const auto bytes = kept.column<std::vector<std::uint8_t>>(0);
  if (bytes.size() == digest.size()) std::ranges::copy(bytes, digest.begin());
  return digest;
}

} // namespace gk::store
