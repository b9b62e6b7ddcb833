#include "store/digest/act_digest.h"

#include "base/text/text.h"
#include "store/sqlite/trouble.h"

#include <algorithm>

namespace gk::store {

namespace {

constexpr std::string_view actTag = "groovekeeper act 2";
constexpr std::string_view contentTag = "groovekeeper content 1";
constexpr std::string_view keyTag = "groovekeeper key 2";

constexpr char rowMark = 'r';
constexpr char contentMark = 'c';
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

/// Nearly all are ASCII, and most of them a word.
bool isSoundCell(const CellView& cell) {
  constexpr char blank = ' ';
  constexpr char last = '~';
  return cell.type != CellType::text ||
         std::ranges::all_of(cell.bytes, [](char c) { return c >= blank && c <= last; }) ||
         base::soundText(cell.bytes).has_value();
}

constexpr std::string_view headColumns =
    R"("first", "sequence", "count", "at", "utc_offset", "author", "recorder", "verb", "station")";

void bindHead(Statement& statement, const ActHead& head) {
  statement.bind(1, head.first)
      .bind(2, head.sequence)
      .bind(3, head.count)
      .bind(4, head.at.at)
      .bind(5, head.at.offset.count())
      .bind(6, head.by.author)
      .bind(7, head.by.recorder)
      .bind(8, head.verb)
      .bind(9, base::nameOf(head.by.station));
}

/// Each row of `entry` from ?1 to ?2 of one hand, with its rows in the tables of its kind.
void addEntries(Connection& book, const OwnSchema& own, std::int64_t first, std::int64_t last,
                ActDigest& digest) {
  auto entries = book.prepare(own.entriesBetween);
  entries.bind(1, first).bind(2, last);
  Owners owners(book, "main", own);
  while (entries.step()) {
    const auto entry = ownedEntry(own, entries);
    digest.addEntry(own, entries, recordsOf(book, own, entry), owners.read(entry));
  }
}

} // namespace

ActDigest::ActDigest(const Hand& hand, const crypto::Hash& previous, const Hands& hands)
    : hands_(hands), rows_(hands) {
  auto& bytes = rows_.bytes();
  putNumber(bytes, static_cast<std::uint32_t>(actTag.size()));
  bytes += actTag;
  bytes += viewOf(hand.book.bytes);
  bytes += viewOf(hand.laptop.uuid().bytes);
  bytes += viewOf(previous);
}

void ActDigest::flush() {
  hasher_.add(rows_.bytes());
  rows_.bytes().clear();
}

void RowBytes::add(const OwnTable& table, const Statement& row, int left) {
  bytes_ += rowMark;
  bytes_ += static_cast<char>(table.name.size());
  bytes_ += table.name;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    if (static_cast<int>(i) == left) continue;
    const auto cell = row.cell(static_cast<int>(i));
    const auto& silent = table.columns[i].silent;
    // So that a column that comes later, silent in old rows, changes none of their digests.
    if (silent && silent->view() == cell) continue;
    bytes_ += static_cast<char>(i + 1);
    // The file's own number of a hand is not of the act: a merge may number it otherwise.
    const bool isEntry = table.columns[i].isEntry && cell.type == CellType::integer;
    if (const auto identity = isEntry ? hands_.enteredAs(cell.number) : std::nullopt)
      putCell(bytes_, {CellType::blob, 0, viewOf(identity->bytes)});
    else
      putCell(bytes_, cell);
    isSound_ = isSound_ && isSoundCell(cell);
  }
  bytes_ += endOfRow;
}

crypto::Hash contentHash(const OwnSchema& own, const Statement& row, const RowBytes& records,
                         const Salt& salt) {
  std::string head(contentTag);
  putNumber(head, static_cast<std::uint32_t>(salt.size()));
  head += viewOf(salt);
  putCell(head, row.cell(own.reasonColumn));
  crypto::Hasher hasher;
  hasher.add(head);
  hasher.add(records.bytes());
  return hasher.finish();
}

void ActDigest::add(const OwnTable& act, const Statement& row) {
  rows_.add(act, row);
}

void ActDigest::addEntry(const OwnSchema& own, const Statement& row, const RowBytes& records,
                         const std::optional<Owner>& owner) {
  ++entries_;
  isSound_ = isSound_ && records.isSound();
  auto& bytes = rows_.bytes();
  if (owner) {
    rows_.add(own.entry, row, own.reasonColumn);
    isSound_ = isSound_ && isSoundCell(row.cell(own.reasonColumn));
    bytes += contentMark;
    bytes += viewOf(hands_.enteredAs(owner->child).value_or(base::Uuid{}).bytes);
    bytes += viewOf(owner->erased ? *owner->erased : contentHash(own, row, records, owner->salt));
  } else {
    rows_.add(own.entry, row);
    bytes += records.bytes();
  }
  constexpr std::size_t piece = 4096;
  if (bytes.size() >= piece) flush();
}

crypto::Hash ActDigest::finish() {
  rows_.bytes() += endMark;
  putNumber(rows_.bytes(), entries_);
  flush();
  return hasher_.finish();
}

crypto::Hash sealAct(Connection& book, const OwnSchema& own, const Hand& hand, const ActHead& head,
                     base::EntryId last, const crypto::Hash& previous) {
  base::require(own.act.list() == headColumns, "an act is written with every column it has");
  const auto& hands = book.hands();
  ActDigest digest(hand, previous, hands);
  {
    auto row = book.prepare("SELECT ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9");
    bindHead(row, head);
    row.step();
    digest.add(own.act, row);
  }
  addEntries(book, own, hands.keyOf(head.first.uuid()), hands.keyOf(last.uuid()), digest);
  const auto hash = digest.finish();
  auto act = book.prepare("INSERT INTO act (first, sequence, count, at, utc_offset, author, "
                          "recorder, verb, station, digest) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  bindHead(act, head);
  act.bind(10, std::span<const std::uint8_t>(hash));
  act.run();
  return hash;
}

std::optional<crypto::Hash> digestOf(Connection& book, const OwnSchema& own, const Hand& hand,
                                     std::int64_t first, const crypto::Hash& previous) {
  auto act = book.prepare("SELECT " + own.act.list() + " FROM act WHERE first = ?1");
  act.bind(1, first);
  if (!act.step()) return std::nullopt;
  ActDigest digest(hand, previous, book.hands());
  digest.add(own.act, act);
  const auto count = act.column<std::int64_t>(own.act.at("count"));
  addEntries(book, own, first, first + (count - 1) * keyStep, digest);
  return digest.finish();
}

RowBytes recordsOf(Connection& book, const OwnSchema& own, const OwnedEntry& entry) {
  RowBytes records(book.hands());
  for (const auto& table : std::ranges::equal_range(own.records, entry.kind, {}, &OwnTable::kind)) {
    auto rows = book.prepare(table.ofEntry);
    rows.bind(1, entry.id);
    while (rows.step())
      records.add(table, rows);
  }
  return records;
}

std::optional<crypto::Hash> hashIn(const Statement& row, int column) {
  const auto cell = row.cell(column);
  crypto::Hash hash;
  if (cell.type != CellType::blob || cell.bytes.size() != hash.size()) return std::nullopt;
  std::ranges::copy(cell.bytes, hash.begin());
  return hash;
}

crypto::Hash keyDigest(Connection& book) {
  constexpr int columns = 8;
  auto key = book.prepare("SELECT id, salt, kdf_passes, kdf_bytes, key_nonce, key_box, key_name, "
                          "to_rewrite FROM book WHERE only_row = 1");
  std::string bytes(keyTag);
  if (key.step())
    for (int i = 0; i < columns; ++i)
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

} // namespace gk::store
