#include "store/digest/lines.h"

#include "store/sqlite/trouble.h"

#include <algorithm>
#include <limits>
#include <map>

namespace gk::store {

namespace {

constexpr std::string_view lineTag = "groovekeeper line 1";
constexpr crypto::Hash root{}; // before the first act of a hand

struct LineAct {
  std::int64_t first;
  std::int64_t sequence;
  crypto::Hash digest;
};

/// The acts of one hand, oldest first.
std::vector<LineAct> actsOf(Connection& book, std::string_view database, int number) {
  std::vector<LineAct> acts;
  auto rows = book.prepare("SELECT first, sequence, digest FROM " + std::string(database) +
                           ".act WHERE (first & 2047) = ?1 ORDER BY sequence");
  rows.bind(1, number);
  while (rows.step())
    acts.push_back({rows.column<std::int64_t>(0), rows.column<std::int64_t>(1),
                    hashIn(rows, 2).value_or(crypto::Hash{})});
  return acts;
}

/// Whether neither file has an act of the hand where the other has a different one. Since each act
/// covers the one before, it is enough that the last which both could have is the same.
bool isOneLine(Connection& book, int ours, int theirs) {
  const auto last = [&](std::string_view database, int number, std::int64_t most) {
    auto row = book.prepare("SELECT first, sequence, digest FROM " + std::string(database) +
                            ".act WHERE (first & 2047) = ?1 AND sequence <= ?2 ORDER BY sequence "
                            "DESC LIMIT 1");
    row.bind(1, number).bind(2, most);
    std::optional<LineAct> act;
    if (row.step())
      act = LineAct{row.column<std::int64_t>(0), row.column<std::int64_t>(1),
                    hashIn(row, 2).value_or(crypto::Hash{})};
    return act;
  };
  constexpr auto end = std::numeric_limits<std::int64_t>::max();
  const auto here = last("main", ours, end);
  const auto there = last("other", theirs, end);
  if (!here || !there) return true;
  const auto most = std::min(here->sequence, there->sequence);
  return last("main", ours, most)->digest == last("other", theirs, most)->digest;
}

/// The acts of one hand and of all its copies, as they hang together.
class Tree {
 public:
  Tree(Connection& book, Lines& lines, int origin, base::LaptopId laptop)
      : book_(book), lines_(lines), origin_(origin), laptop_(laptop) {}

  void addOurs(int number, const std::vector<Branch>& listed) {
    crypto::Hash before = root;
    bool isFirst = true;
    for (const auto& act : actsOf(book_, "main", number)) {
      const auto branch = std::ranges::find(listed, act.first, &Branch::first);
      const bool isListed = branch != listed.end();
      if (isFirst && isListed && branch->after) before = digestAt(*branch->after);
      isFirst = false;
      place(act, number, before, number, isListed);
      before = act.digest;
    }
    if (!isFirst) tips_[before] = number;
  }

  void addTheirs(int theirs, const std::vector<Branch>& listed) {
    crypto::Hash before = root;
    std::optional<int> number;
    bool isFirst = true;
    for (const auto& act : actsOf(book_, "other", theirs)) {
      const auto branch = std::ranges::find(listed, act.first, &Branch::first);
      const bool isListed = branch != listed.end();
      if (isFirst && isListed && branch->after) before = theirs_[*branch->after];
      theirs_[act.first] = act.digest;
      const auto known = acts_.find(act.digest);
      int here = 0;
      if (known != acts_.end()) {
        here = known->second.number;
        known->second.isListed = known->second.isListed || isListed;
      } else {
        here = numberAfter(before, act, theirs);
        auto moved = act;
        moved.first = act.first - theirs + here;
        place(moved, here, before, theirs, isListed);
        acts_.at(act.digest).isTheirs = true;
        tips_.erase(before);
        tips_[act.digest] = here;
      }
      if (number != here) lines_.pieces.push_back({theirs, isFirst ? 0 : act.first, here});
      number = here;
      isFirst = false;
      before = act.digest;
    }
  }

  /// What is to be listed of where it parts, and where no one has said so yet.
  void finish(const std::vector<Branch>& ours) {
    for (const auto& [before, children] : next_) {
      if (children.size() < 2) continue;
      const auto isKnown = std::ranges::all_of(
          children, [&](const auto& child) { return acts_.at(child).isListed; });
      for (const auto& child : children) {
        const auto& act = acts_.at(child);
        if (std::ranges::find(ours, act.act.first, &Branch::first) != ours.end()) continue;
        using MaybeKey = std::optional<std::int64_t>;
        const auto after = before == root ? MaybeKey() : acts_.at(before).act.first;
        lines_.branches.push_back({act.act.first, after, origin_, lineName(laptop_, child)});
      }
      if (!isKnown) addFork(children);
    }
  }

 private:
  struct Placed {
    LineAct act; ///< with its key here
    int number;
    int inFile; ///< its number where it was read
    bool isListed;
    bool isTheirs = false;
  };

  crypto::Hash digestAt(std::int64_t first) {
    auto row = book_.prepare("SELECT digest FROM main.act WHERE first = ?1");
    row.bind(1, first);
    return row.step() ? hashIn(row, 0).value_or(root) : root;
  }
  void place(const LineAct& act, int number, const crypto::Hash& before, int inFile,
             bool isListed) {
    acts_.emplace(act.digest, Placed{act, number, inFile, isListed});
    next_[before].push_back(act.digest);
  }
  /// Goes on with the hand that ends there, else it is a line of its own.
  int numberAfter(const crypto::Hash& before, const LineAct& act, int wish) {
    if (const auto tip = tips_.find(before); tip != tips_.end()) return tip->second;
    const bool isOrigin = before == root && !next_.contains(root);
    const auto name = isOrigin ? laptop_ : lineName(laptop_, act.digest);
    const bool isNew = lines_.hands.numberOf(name) == 0;
    const int number = lines_.hands.taken(name, wish);
    if (isNew) lines_.fresh.push_back(number);
    return number;
  }
  void addFork(const std::vector<crypto::Hash>& children) {
    const auto here = std::ranges::find_if(
        children, [&](const auto& child) { return !acts_.at(child).isTheirs; });
    for (const auto& child : children) {
      const auto& there = acts_.at(child);
      if (!there.isTheirs || there.isListed) continue;
      const auto& ours = here == children.end() ? there : acts_.at(*here);
      const bool isChanged = &ours != &there &&
                             handless(ours.act.first) == handless(there.act.first) &&
                             isOneAct(ours, there);
      lines_.forks.push_back({ours.inFile, there.inFile, there.act.sequence, isChanged});
    }
  }
  /// Whether both say that they are the same act: two of one millisecond, on two copies, do not.
  bool isOneAct(const Placed& ours, const Placed& theirs) {
    auto row = book_.prepare(
        "SELECT EXISTS (SELECT 1 FROM main.act AS m CROSS JOIN other.act AS o ON o.first = ?2 "
        "WHERE m.first = ?1 AND m.sequence = o.sequence AND m.count = o.count AND m.at = o.at AND "
        "m.utc_offset = o.utc_offset AND m.verb = o.verb AND m.station = o.station) AND NOT EXISTS "
        "(SELECT 1 FROM main.act AS a CROSS JOIN main.entry AS m ON m.id BETWEEN a.first AND "
        "a.first + (a.count - 1) * 2048 AND (m.id & 2047) = (a.first & 2047) CROSS JOIN "
        "other.entry AS o ON o.id = m.id - ?1 + ?2 WHERE a.first = ?1 AND m.kind <> o.kind)");
    const auto inTheirFile = theirs.act.first - theirs.number + theirs.inFile;
    row.bindAll(ours.act.first, inTheirFile);
    return row.step() && row.column<bool>(0);
  }
  static std::int64_t handless(std::int64_t key) { return key >> handBits; }

  Connection& book_;
  Lines& lines_;
  int origin_; // its number here
  base::LaptopId laptop_;
  std::map<crypto::Hash, Placed> acts_;
  std::map<crypto::Hash, std::vector<crypto::Hash>> next_;
  std::map<crypto::Hash, int> tips_;            // the hand that ends with the act
  std::map<std::int64_t, crypto::Hash> theirs_; // by key there
};

/// The numbers of one laptop and of its lines, in the order in which they begin.
std::map<base::LaptopId, std::vector<int>> byOrigin(const Hands& hands,
                                                    const std::vector<Branch>& branches) {
  const auto begins = [&](int number) {
    if (hands.originOf(number) == number) return std::int64_t{0};
    std::int64_t first = std::numeric_limits<std::int64_t>::max();
    for (const auto& branch : branches)
      if (handIn(branch.first) == number) first = std::min(first, branch.first);
    return first;
  };
  std::map<base::LaptopId, std::vector<int>> numbers;
  for (const auto& [number, laptop] : hands.all())
    numbers[hands.originLaptop(number)].push_back(number);
  for (auto& [laptop, list] : numbers)
    std::ranges::sort(list, {}, begins);
  return numbers;
}

} // namespace

base::LaptopId lineName(base::LaptopId origin, const crypto::Hash& firstAct) {
  const auto view = [](std::span<const std::uint8_t> bytes) {
    return std::string_view(reinterpret_cast<const char*>(bytes.data()), bytes.size());
  };
  crypto::Hasher hasher;
  hasher.add(lineTag);
  hasher.add(view(origin.uuid().bytes));
  hasher.add(view(firstAct));
  const auto hash = hasher.finish();
  base::Uuid name;
  std::copy_n(hash.begin(), name.bytes.size(), name.bytes.begin());
  name.bytes[6] = static_cast<std::uint8_t>((name.bytes[6] & 0x0FU) | 0x80U); // RFC 9562, version 8
  name.bytes[8] = static_cast<std::uint8_t>((name.bytes[8] & 0x3FU) | 0x80U);
  return base::LaptopId(name);
}

Hands handsOf(Connection& book, std::string_view database) {
  Hands hands;
  auto rows = book.prepare("SELECT number, laptop FROM " + std::string(database) + ".hand");
  while (rows.step())
    hands.add(rows.column<std::int64_t>(0), base::LaptopId(rows.bytes16(1)));
  for (const auto& branch : branchesOf(book, database))
    hands.addLine(branch.first, branch.name, branch.origin);
  return hands;
}

std::vector<Branch> branchesOf(Connection& book, std::string_view database) {
  std::vector<Branch> branches;
  auto rows = book.prepare("SELECT first, after, origin, laptop FROM " + std::string(database) +
                           ".hand_branch ORDER BY first");
  while (rows.step())
    branches.push_back({rows.column<std::int64_t>(0), rows.column<std::optional<std::int64_t>>(1),
                        rows.column<int>(2), base::LaptopId(rows.bytes16(3))});
  return branches;
}

void writeBranch(Connection& book, const Branch& branch) {
  book.prepare("INSERT INTO main.hand_branch (first, after, origin, laptop) VALUES (?, ?, ?, ?)")
      .bindAll(branch.first, branch.after, branch.origin, branch.name)
      .run();
}

Lines linesOf(Connection& book) {
  Lines lines{handsOf(book, "main"), {}, {}, {}, {}};
  const auto theirHands = handsOf(book, "other");
  const auto ours = branchesOf(book, "main");
  const auto theirs = branchesOf(book, "other");
  const auto here = byOrigin(lines.hands, ours);
  for (const auto& [laptop, there] : byOrigin(theirHands, theirs)) {
    const auto found = here.find(laptop);
    const auto known = found == here.end() ? std::vector<int>() : found->second;
    const int origin = lines.hands.taken(laptop, there.front());
    if (known.empty()) lines.fresh.push_back(origin);
    if (there.size() == 1 && known.size() <= 1 && isOneLine(book, origin, there.front())) {
      lines.pieces.push_back({there.front(), 0, origin});
      continue;
    }
    Tree tree(book, lines, origin, laptop);
    for (const int number : known)
      tree.addOurs(number, ours);
    for (const int number : there)
      tree.addTheirs(number, theirs);
    tree.finish(ours);
  }
  return lines;
}

} // namespace gk::store
