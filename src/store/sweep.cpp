#include "store/sweep.h"

#include "store/trouble.h"

#include <deque>
#include <map>

namespace gk::store {

namespace {

std::string scanOf(std::string_view database, const OwnTable& table, const char* also = "") {
  return "SELECT " + table.list() + also + " FROM " + std::string(database) + ".\"" + table.name +
         "\" ORDER BY " + table.inOrder;
}

/// Walks through one table by its key.
class Cursor {
 public:
  Cursor(Connection& book, std::string_view database, const OwnTable& table)
      : table_(table), rows_(book.prepare(scanOf(database, table))), column_(table.at("entry")) {
    next();
  }
  [[nodiscard]] bool isAt(std::int64_t entry) const { return isThere_ && entry_ == entry; }
  [[nodiscard]] bool isBefore(std::int64_t entry) const { return isThere_ && entry_ < entry; }
  [[nodiscard]] bool isThere() const { return isThere_; }
  [[nodiscard]] std::int64_t entry() const { return entry_; }
  [[nodiscard]] const OwnTable& table() const { return table_; }
  [[nodiscard]] const Statement& row() const { return rows_; }
  void next() {
    isThere_ = rows_.step();
    if (isThere_) entry_ = rows_.column<std::int64_t>(column_);
  }

 private:
  const OwnTable& table_;
  Statement rows_;
  int column_;
  bool isThere_ = false;
  std::int64_t entry_ = 0;
};

struct OpenAct {
  std::int64_t first;
  ActDigest digest;
  std::optional<crypto::Hash> kept{};
  std::int64_t count = 0; ///< of its rows, as `act` says
  std::int64_t seen = 0;
  bool isFlawed = false;
};

/// Where the sweep stands with one hand.
struct HandState {
  std::int64_t sequence = 0;
  crypto::Hash previous{};
  std::optional<OpenAct> act;
};

class Sweep {
 public:
  Sweep(Connection& book, std::string_view database, const OwnSchema& own, const SweepEars& ears)
      : own_(own), ears_(ears), progress_(book.progress()), hands_(handsOf(book, database)),
        entries_(book.prepare(scanOf(database, own.entry))),
        acts_(book.prepare(scanOf(database, own.act, ", digest"))),
        firstColumn_(own.act.at("first")), sequenceColumn_(own.act.at("sequence")),
        countColumn_(own.act.at("count")), digestColumn_(static_cast<int>(own.act.columns.size())) {
    auto id = book.prepare("SELECT id FROM " + std::string(database) + ".book");
    if (id.step()) book_ = id.bytes16(0);
    if (progress_.isHeard()) {
      auto entries =
          book.prepare("SELECT count(*) FROM " + std::string(database) + "." + own.entry.name);
      if (entries.step()) whole_ = entries.column<std::int64_t>(0);
    }
    for (const auto& table : own.records)
      byKind_[table.kind].push_back(&cursors_.emplace_back(book, database, table));
    nextAct();
  }

  void run() {
    constexpr std::int64_t betweenTelling = 512; // entries
    for (std::int64_t done = 0; entries_.step(); ++done) {
      if (done % betweenTelling == 0) progress_.at(base::Stage::checking, done, whole_);
      takeEntry();
    }
    for (auto& [number, state] : states_)
      close(state);
    for (auto& cursor : cursors_)
      for (; cursor.isThere(); cursor.next())
        ears_.flaw({FlawKind::rowLoose, cursor.entry(), cursor.table().name});
    for (; isAct_; nextAct())
      ears_.flaw({FlawKind::actLoose, first_});
    for (const auto& [number, laptop] : hands_.all())
      if (!states_.contains(number)) ears_.flaw({FlawKind::handLoose, number});
  }

 private:
  void takeEntry() {
    const auto id = entries_.column<std::int64_t>(own_.idColumn);
    const auto nth = entries_.column<std::int64_t>(own_.nthColumn);
    const auto hand = handIn(id);
    auto& state = states_[hand];
    if (nth == 0) {
      close(state);
      begin(state, hand, id);
    } else if (!state.act || nth != state.act->seen || id != state.act->first + nth * keyStep) {
      if (!state.act) begin(state, hand, id - nth * keyStep);
      hear(state, {FlawKind::actBroken, id});
    }
    ++state.act->seen;
    ++state.sequence;
    state.act->digest.addEntry(own_.entry, entries_);
    takeRecords(state, id, entries_.column<std::int64_t>(own_.kindColumn));
  }

  /// The act whose first row is `first`, with what `act` says of it.
  void begin(HandState& state, int hand, std::int64_t first) {
    const auto laptop = hands_.laptopOf(hand);
    const auto nobody = base::LaptopId(base::Uuid{});
    state.act.emplace(
        OpenAct{first, ActDigest({book_, laptop.value_or(nobody)}, state.previous, hands_)});
    if (!laptop) hear(state, {FlawKind::actBroken, first});
    for (; isAct_ && first_ < first; nextAct())
      ears_.flaw({FlawKind::actLoose, first_});
    if (!isAct_ || first_ != first) return hear(state, {FlawKind::actMissing, first});
    state.act->digest.add(own_.act, acts_);
    state.act->kept = hashIn(acts_, digestColumn_);
    state.act->count = acts_.column<std::int64_t>(countColumn_);
    const auto sequence = acts_.column<std::int64_t>(sequenceColumn_);
    if (sequence != state.sequence + 1) hear(state, {FlawKind::sequenceGap, first});
    state.sequence = sequence - 1;
    nextAct();
  }

  void takeRecords(HandState& state, std::int64_t id, std::int64_t kind) {
    const auto tables = byKind_.find(kind);
    const auto name = own_.kinds.find(kind);
    if (tables == byKind_.end()) {
      if (name == own_.kinds.end() || name->second != "retraction")
        hear(state, {FlawKind::rowMissing, id, "unknown"});
      return;
    }
    for (auto* cursor : tables->second) {
      for (; cursor->isBefore(id); cursor->next())
        ears_.flaw({FlawKind::rowLoose, cursor->entry(), cursor->table().name});
      if (!cursor->isAt(id) && cursor->table().name == name->second)
        hear(state, {FlawKind::rowMissing, id, name->second});
      for (; cursor->isAt(id); cursor->next())
        state.act->digest.add(cursor->table(), cursor->row());
    }
  }

  void close(HandState& state) {
    if (!state.act) return;
    auto& open = *state.act;
    if (!open.isFlawed && open.seen != open.count) hear(state, {FlawKind::actBroken, open.first});
    state.previous = ears_.act({open.first, open.digest.finish(), open.kept, open.isFlawed});
    state.act.reset();
  }

  void hear(HandState& state, const Flaw& flaw) {
    state.act->isFlawed = true;
    ears_.flaw(flaw);
  }

  void nextAct() {
    isAct_ = acts_.step();
    if (isAct_) first_ = acts_.column<std::int64_t>(firstColumn_);
  }

  const OwnSchema& own_;
  const SweepEars& ears_;
  const base::Progress& progress_;
  std::int64_t whole_ = 0;
  Hands hands_;
  Statement entries_;
  Statement acts_;
  int firstColumn_;
  int sequenceColumn_;
  int countColumn_;
  int digestColumn_;
  bool isAct_ = false;
  std::int64_t first_ = 0; // of the act that acts_ stands on
  base::Uuid book_;
  std::deque<Cursor> cursors_; // a place for each that stays
  std::map<std::int64_t, std::vector<Cursor*>> byKind_;
  std::map<int, HandState> states_; // by the number of the hand
};

} // namespace

Hands handsOf(Connection& book, std::string_view database) {
  Hands hands;
  auto rows = book.prepare("SELECT number, laptop FROM " + std::string(database) + ".hand");
  while (rows.step())
    hands.add(rows.column<std::int64_t>(0), rows.column<base::LaptopId>(1));
  return hands;
}

void sweep(Connection& book, std::string_view database, const OwnSchema& own,
           const SweepEars& ears) {
  Sweep(book, database, own, ears).run();
}

} // namespace gk::store
