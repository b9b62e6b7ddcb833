#include "store/sweep.h"

#include "store/trouble.h"

#include <deque>
#include <unordered_map>

namespace gk::store {

namespace {

std::string scanOf(std::string_view database, const OwnTable& table) {
  return "SELECT " + table.list() + " FROM " + std::string(database) + ".\"" + table.name +
         "\" ORDER BY " + table.inOrder;
}

/// Walks through one table by its key.
class Cursor {
 public:
  Cursor(Connection& book, std::string_view database, const OwnTable& table)
      : table_(table), rows_(book.prepare(scanOf(database, table))), column_(table.at("entry")) {
    next();
  }
  [[nodiscard]] bool isAt(const base::Uuid& entry) const { return isThere_ && entry_ == entry; }
  [[nodiscard]] bool isBefore(const base::Uuid& entry) const { return isThere_ && entry_ < entry; }
  [[nodiscard]] bool isThere() const { return isThere_; }
  [[nodiscard]] const base::Uuid& entry() const { return entry_; }
  [[nodiscard]] const OwnTable& table() const { return table_; }
  [[nodiscard]] const Statement& row() const { return rows_; }
  void next() {
    isThere_ = rows_.step();
    if (isThere_) entry_ = rows_.column<base::Uuid>(column_);
  }

 private:
  const OwnTable& table_;
  Statement rows_;
  int column_;
  bool isThere_ = false;
  base::Uuid entry_;
};

struct OpenAct {
  base::Uuid act;
  ActDigest digest;
  std::optional<crypto::Hash> kept;
  bool isFlawed = false;
};

/// Where the sweep stands with one laptop.
struct LaptopState {
  std::int64_t sequence = 0;
  crypto::Hash previous{};
  std::optional<OpenAct> act;
};

class Sweep {
 public:
  Sweep(Connection& book, std::string_view database, const OwnSchema& own, const SweepEars& ears)
      : own_(own), ears_(ears), progress_(book.progress()),
        entries_(book.prepare(scanOf(database, own.entry))),
        digests_(book.prepare("SELECT act, digest FROM " + std::string(database) +
                              ".act_digest ORDER BY act")),
        actColumn_(own.entry.at("act")), laptopColumn_(own.entry.at("laptop")),
        sequenceColumn_(own.entry.at("sequence")) {
    auto id = book.prepare("SELECT id FROM " + std::string(database) + ".book");
    if (id.step()) book_ = id.column<base::Uuid>(0);
    if (progress_.isHeard()) {
      auto entries =
          book.prepare("SELECT count(*) FROM " + std::string(database) + "." + own.entry.name);
      if (entries.step()) whole_ = entries.column<std::int64_t>(0);
    }
    for (const auto& table : own.records)
      byKind_[table.kind].push_back(&cursors_.emplace_back(book, database, table));
    nextDigest();
  }

  void run() {
    constexpr std::int64_t betweenTelling = 512; // entries
    for (std::int64_t done = 0; entries_.step(); ++done) {
      if (done % betweenTelling == 0) progress_.at(base::Stage::checking, done, whole_);
      takeEntry();
    }
    for (auto& [laptop, state] : laptops_)
      close(state);
    for (auto& cursor : cursors_)
      for (; cursor.isThere(); cursor.next())
        ears_.flaw({FlawKind::rowLoose, cursor.entry(), cursor.table().name});
    for (; digest_; nextDigest())
      ears_.flaw({FlawKind::digestLoose, digest_->act});
  }

 private:
  struct Kept {
    base::Uuid act;
    std::optional<crypto::Hash> digest;
  };

  void takeEntry() {
    const auto id = entries_.column<base::Uuid>(own_.idColumn);
    const auto act = entries_.column<base::Uuid>(actColumn_);
    const base::LaptopId laptop(entries_.column<base::Uuid>(laptopColumn_));
    const auto sequence = entries_.column<std::int64_t>(sequenceColumn_);
    auto& state = laptops_[laptop];
    if (act == id || !state.act || state.act->act != act) {
      close(state);
      state.act.emplace(
          OpenAct{act, ActDigest({book_, laptop, state.previous, act, sequence}), {}, false});
      if (act == id)
        state.act->kept = keptOf(act);
      else
        hear(state, {FlawKind::actBroken, id});
    }
    if (sequence != state.sequence + 1) hear(state, {FlawKind::sequenceGap, id});
    state.sequence = sequence;
    state.act->digest.addEntry(own_.entry, entries_);
    takeRecords(state, id, entries_.column<std::string>(own_.kindColumn));
  }

  void takeRecords(LaptopState& state, const base::Uuid& id, const std::string& kind) {
    const auto tables = byKind_.find(kind);
    if (tables == byKind_.end()) {
      if (kind != "retraction") hear(state, {FlawKind::rowMissing, id, kind});
      return;
    }
    for (auto* cursor : tables->second) {
      for (; cursor->isBefore(id); cursor->next())
        ears_.flaw({FlawKind::rowLoose, cursor->entry(), cursor->table().name});
      if (!cursor->isAt(id) && cursor->table().name == kind)
        hear(state, {FlawKind::rowMissing, id, kind});
      for (; cursor->isAt(id); cursor->next())
        state.act->digest.add(cursor->table(), cursor->row());
    }
  }

  std::optional<crypto::Hash> keptOf(const base::Uuid& act) {
    for (; digest_ && digest_->act < act; nextDigest())
      ears_.flaw({FlawKind::digestLoose, digest_->act});
    if (!digest_ || digest_->act != act) return std::nullopt;
    const auto kept = digest_->digest;
    nextDigest();
    return kept;
  }

  void close(LaptopState& state) {
    if (!state.act) return;
    auto& open = *state.act;
    state.previous = ears_.act({open.act, open.digest.finish(), open.kept, open.isFlawed});
    state.act.reset();
  }

  void hear(LaptopState& state, const Flaw& flaw) {
    state.act->isFlawed = true;
    ears_.flaw(flaw);
  }

  void nextDigest() {
    if (!digests_.step()) {
      digest_.reset();
      return;
    }
    Kept kept{digests_.column<base::Uuid>(0), {}};
    const auto cell = digests_.cell(1);
    if (crypto::Hash hash{}; cell.type == CellType::blob && cell.bytes.size() == hash.size()) {
      std::ranges::copy(cell.bytes, hash.begin());
      kept.digest = hash;
    }
    digest_ = kept;
  }

  const OwnSchema& own_;
  const SweepEars& ears_;
  const base::Progress& progress_;
  std::int64_t whole_ = 0;
  Statement entries_;
  Statement digests_;
  int actColumn_;
  int laptopColumn_;
  int sequenceColumn_;
  base::Uuid book_;
  std::deque<Cursor> cursors_; // a place for each that stays
  std::unordered_map<std::string, std::vector<Cursor*>> byKind_;
  std::unordered_map<base::LaptopId, LaptopState> laptops_;
  std::optional<Kept> digest_;
};

} // namespace

void sweep(Connection& book, std::string_view database, const OwnSchema& own,
           const SweepEars& ears) {
  Sweep(book, database, own, ears).run();
}

void digestAll(Connection& book) {
  const auto own = ownTables(book);
  const auto write = [&](const SweptAct& act) {
    book.prepare("INSERT INTO act_digest (act, digest) VALUES (?, ?)")
        .bindAll(act.act, std::span<const std::uint8_t>(act.digest))
        .run();
    return act.digest;
  };
  sweep(book, "main", own, {write, [](const Flaw&) {}});
}

} // namespace gk::store
