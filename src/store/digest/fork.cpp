#include "store/digest/fork.h"

#include "base/text/text.h"
#include "store/digest/card_numbers.h"
#include "store/schema/owners.h"

#include <set>

namespace gk::store {

namespace {

ForkSide sideOf(Connection& book, const OwnSchema& own, const std::string& database, int hand,
                std::int64_t sequence) {
  const auto from = database + ".";
  ForkSide side{};
  std::set<std::int64_t> children;
  Owners owners(book, database, own);
  auto acts = book.prepare("SELECT first, count, at, utc_offset FROM " + from +
                           "act WHERE (first & 2047) = ?1 AND sequence >= ?2 ORDER BY sequence");
  acts.bindAll(hand, sequence);
  while (acts.step()) {
    const auto first = acts.column<std::int64_t>(0);
    if (side.acts++ == 0)
      side.since = {acts.column<base::Instant>(2), std::chrono::minutes(acts.column<int>(3))};
    auto rows = book.prepare("SELECT " + own.entry.list() + " FROM " + from +
                             "entry WHERE id BETWEEN ?1 AND ?2 AND (id & 2047) = ?3");
    rows.bindAll(first, first + (acts.column<std::int64_t>(1) - 1) * keyStep, hand);
    while (rows.step())
      if (const auto owner = owners.read(ownedEntry(own, rows))) children.insert(owner->child);
  }
  std::set<std::string> numbers;
  for (const auto& child : children)
    if (auto number = numberOnCard(book, from, child); !number.empty())
      numbers.insert(std::move(number));
  side.children.assign(numbers.begin(), numbers.end());
  return side;
}

std::string words(const ForkSide& side) {
  return base::counted(side.acts, "entry", "entries") + " since " + side.since.words() + ", " +
         (side.children.empty() ? "for no student" : studentsNumbered(side.children));
}

} // namespace

std::vector<Fork> forksOf(Connection& book, const OwnSchema& own,
                          const std::vector<ForkPoint>& points) {
  std::vector<Fork> forks;
  for (const auto& [here, there, sequence, isChanged] : points)
    if (const auto hand = book.hands().originLaptop(here); hand != base::LaptopId(base::Uuid{}))
      forks.push_back({hand, sideOf(book, own, "main", here, sequence),
                       sideOf(book, own, "other", there, sequence)});
  return forks;
}

std::string sentence(const std::vector<Fork>& forks) {
  std::string text;
  for (const auto& fork : forks) {
    const auto hand = fork.hand.text();
    text += (text.empty() ? "" : "; ") + ("laptop ..." + hand.substr(hand.size() - 4)) +
            " was used as two copies of one disk: in this logbook " + words(fork.here) +
            "; in the other one " + words(fork.there);
  }
  return text;
}

} // namespace gk::store
