#include "store/digest/sweep.h"

#include "store/digest/hand_memory.h"
#include "store/digest/lines.h"
#include "store/sqlite/trouble.h"

#include <deque>
#include <map>
#include <set>

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
      : table_(table), rows_(book.prepare(scanOf(database, table))), column_(table.at("entry")),
        child_(table.has("child") ? table.at("child") : -1),
        field_(table.has("field") ? table.at("field") : -1),
        tooth_(table.has("tooth") ? table.at("tooth") : -1) {
    next();
  }
  [[nodiscard]] bool isAt(std::int64_t entry) const { return isThere_ && entry_ == entry; }
  [[nodiscard]] bool isBefore(std::int64_t entry) const { return isThere_ && entry_ < entry; }
  [[nodiscard]] bool isThere() const { return isThere_; }
  [[nodiscard]] std::int64_t entry() const { return entry_; }
  [[nodiscard]] const OwnTable& table() const { return table_; }
  [[nodiscard]] const Statement& row() const { return rows_; }
  [[nodiscard]] OwnedEntry::MaybeKey child() const { return keyAt(child_); }
  [[nodiscard]] OwnedEntry::MaybeKey field() const { return keyAt(field_); }
  [[nodiscard]] OwnedEntry::MaybeKey tooth() const { return keyAt(tooth_); }
  void next() {
    isThere_ = rows_.step();
    if (isThere_) entry_ = rows_.column<std::int64_t>(column_);
  }

 private:
  [[nodiscard]] OwnedEntry::MaybeKey keyAt(int column) const {
    if (column < 0) return std::nullopt;
    return rows_.column<OwnedEntry::MaybeKey>(column);
  }

  const OwnTable& table_;
  Statement rows_;
  int column_;
  int child_; // where the row names one, else below 0
  int field_;
  int tooth_;
  bool isThere_ = false;
  std::int64_t entry_ = 0;
};

struct OpenAct {
  std::int64_t first;
  ActDigest digest;
  std::optional<crypto::Hash> kept{};
  std::int64_t sequence = 0; ///< of its first row, as `act` says
  std::int64_t count = 0;    ///< of its rows, as `act` says
  std::int64_t seen = 0;
  bool isFlawed = false;
};

/// Where the sweep stands with one hand.
struct HandState {
  std::int64_t sequence = 0;
  std::int64_t first = 0; ///< of the newest act that is closed
  crypto::Hash previous{};
  std::optional<OpenAct> act;
};

class Sweep {
 public:
  Sweep(Connection& book, std::string_view database, const OwnSchema& own, const SweepEars& ears)
      : own_(own), ears_(ears), progress_(book.progress()), hands_(handsOf(book, database)),
        owners_(book, database, own), entries_(book.prepare(scanOf(database, own.entry))),
        acts_(book.prepare(scanOf(database, own.act, ", digest"))),
        firstColumn_(own.act.at("first")), atColumn_(own.act.at("at")),
        sequenceColumn_(own.act.at("sequence")), countColumn_(own.act.at("count")),
        digestColumn_(static_cast<int>(own.act.columns.size())) {
    auto id = book.prepare("SELECT id FROM " + std::string(database) + ".book");
    if (id.step()) book_ = id.bytes16(0);
    if (progress_.isHeard()) {
      auto entries =
          book.prepare("SELECT count(*) FROM " + std::string(database) + "." + own.entry.name);
      if (entries.step()) whole_ = entries.column<std::int64_t>(0);
    }
    for (const auto& table : own.records)
      byKind_[table.kind].push_back(&cursors_.emplace_back(book, database, table));
    for (const auto& branch : branchesOf(book, database)) {
      branches_.emplace(branch.first, branch);
      if (branch.after)
        parting_.emplace(*branch.after, std::nullopt);
      else
        partedAtRoot_.insert(branch.origin);
    }
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
    auto entry = ownedEntry(own_, entries_);
    RowBytes records(hands_);
    const bool isThere = takeRecords(entry, records);
    const auto owner = owners_.of(entry);
    if (owner && owner->erased) {
      // Nothing covers the reason any more, so it says one thing.
      using MaybeText = std::optional<std::string>;
      const auto reason = entry.supersedes ? MaybeText(erasedReason) : MaybeText();
      if (!records.bytes().empty() || entries_.column<MaybeText>(own_.reasonColumn) != reason)
        hear(state, {FlawKind::erasedKept, id, nameOfKind(entry.kind)});
    } else if (!isThere && entry.kind != own_.retractionKind) {
      hear(state, {FlawKind::rowMissing, id, nameOfKind(entry.kind)});
    }
    state.act->digest.addEntry(own_, entries_, records, owner);
  }

  [[nodiscard]] std::string nameOfKind(std::int64_t kind) const {
    const auto name = own_.kinds.find(kind);
    return name == own_.kinds.end() ? std::string("unknown") : name->second;
  }

  /// The act whose first row is `first`, with what `act` says of it.
  void begin(HandState& state, int hand, std::int64_t first) {
    const bool isPlaced = goOnFrom(state, hand, first);
    state.act.emplace(
        OpenAct{first, ActDigest({book_, hands_.originLaptop(hand)}, state.previous, hands_)});
    if (!hands_.all().contains(hand)) hear(state, {FlawKind::actBroken, first});
    if (!isPlaced) hear(state, {FlawKind::lineWrong, first});
    for (; isAct_ && first_ < first; nextAct())
      ears_.flaw({FlawKind::actLoose, first_});
    if (!isAct_ || first_ != first) return hear(state, {FlawKind::actMissing, first});
    state.act->digest.add(own_.act, acts_);
    // An identity has the time of its act, or follows one that has: none runs ahead of them all,
    // and so uses up what is left to those that come after.
    constexpr std::int64_t oneDay = 86'400'000; // what the rows of a large logbook may add to it
    latest_ = std::max(latest_, acts_.column<base::Instant>(atColumn_).utc.count());
    if (millisIn(first) > latest_ + oneDay) hear(state, {FlawKind::timeWrong, first});
    state.act->kept = hashIn(acts_, digestColumn_);
    const auto branch = branches_.find(first);
    if (branch != branches_.end() &&
        branch->second.name !=
            lineName(hands_.originLaptop(hand), state.act->kept.value_or(crypto::Hash{})))
      ears_.flaw({FlawKind::lineWrong, first});
    state.act->count = acts_.column<std::int64_t>(countColumn_);
    const auto sequence = acts_.column<std::int64_t>(sequenceColumn_);
    if (sequence != state.sequence + 1) hear(state, {FlawKind::sequenceGap, first});
    state.sequence = sequence - 1;
    state.act->sequence = sequence;
    nextAct();
  }

  /// A line goes on from where it parts, which is an act of another hand where it is a copy.
  bool goOnFrom(HandState& state, int hand, std::int64_t first) {
    if (branches_.empty()) return true;
    const auto found = branches_.find(first);
    if (found == branches_.end())
      return state.first == 0 ? !partedAtRoot_.contains(hand) : !parting_.contains(state.first);
    const auto& [at, after, origin, name] = found->second;
    if (origin != hands_.originOf(hand)) return false;
    if (state.first == 0 && origin != hand && hands_.all().at(hand) != name) return false;
    if (!after) return state.first == 0;
    if (state.first == *after) return true;
    if (state.first != 0) return false;
    auto& parent = states_[handIn(*after)]; // a place that stays
    if (parent.act && parent.act->first == *after) close(parent);
    const auto& end = parting_.at(*after);
    if (!end || hands_.originOf(handIn(*after)) != origin) return false;
    state.sequence = end->sequence;
    state.previous = end->digest;
    return true;
  }

  /// Whether the row of its kind is there; it says whose the entry is.
  bool takeRecords(OwnedEntry& entry, RowBytes& records) {
    bool isThere = false;
    const auto tables = byKind_.find(entry.kind);
    if (tables == byKind_.end()) return isThere;
    const auto name = nameOfKind(entry.kind);
    const bool isField = name == "field";
    std::set<std::int64_t> teeth;
    bool isOnce = true;
    for (auto* cursor : tables->second) {
      for (; cursor->isBefore(entry.id); cursor->next())
        ears_.flaw({FlawKind::rowLoose, cursor->entry(), cursor->table().name});
      if (cursor->isAt(entry.id) && cursor->table().name == name) {
        isThere = true;
        entry.child = cursor->child();
        entry.field = cursor->field();
      }
      for (; cursor->isAt(entry.id); cursor->next()) {
        records.add(cursor->table(), cursor->row());
        if (isField && cursor->tooth()) isOnce = teeth.insert(*cursor->tooth()).second && isOnce;
      }
    }
    if (isField && isThere && (teeth.empty() || !isOnce))
      ears_.flaw({FlawKind::teethWrong, entry.id});
    return isThere;
  }

  void close(HandState& state) {
    if (!state.act) return;
    auto& open = *state.act;
    if (!open.isFlawed && open.seen != open.count) hear(state, {FlawKind::actBroken, open.first});
    // With a right digest too: whoever wrote it knows how digests are made.
    if (!open.isFlawed && !open.digest.isSound()) hear(state, {FlawKind::textUnsound, open.first});
    state.previous = ears_.act({open.first, open.digest.finish(), open.kept, open.isFlawed});
    state.first = open.first;
    if (const auto end = parting_.find(open.first); end != parting_.end())
      end->second = HandEnd{open.sequence + open.count - 1, state.previous};
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
  Owners owners_;
  Statement entries_;
  Statement acts_;
  int firstColumn_;
  int atColumn_;
  int sequenceColumn_;
  int countColumn_;
  int digestColumn_;
  bool isAct_ = false;
  std::int64_t first_ = 0;  // of the act that acts_ stands on
  std::int64_t latest_ = 0; // moment of an act so far, UTC milliseconds
  base::Uuid book_;
  std::deque<Cursor> cursors_; // a place for each that stays
  std::map<std::int64_t, std::vector<Cursor*>> byKind_;
  std::map<int, HandState> states_; // by the number of the hand
  std::map<std::int64_t, Branch> branches_;
  std::map<std::int64_t, std::optional<HandEnd>> parting_; // the acts after which lines part
  std::set<int> partedAtRoot_;                             // hands whose first act is not shared
};

} // namespace

void sweep(Connection& book, std::string_view database, const OwnSchema& own,
           const SweepEars& ears) {
  Sweep(book, database, own, ears).run();
}

} // namespace gk::store
