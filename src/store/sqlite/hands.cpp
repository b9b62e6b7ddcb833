#include "store/sqlite/hands.h"

#include "base/text/text.h"
#include "crypto/digest.h"
#include "store/sqlite/trouble.h"

#include <algorithm>

namespace gk::store {

namespace {

using base::ErrorCode;

constexpr std::int64_t epoch = 1'577'836'800'000; // 2020-01-01T00:00Z, UTC milliseconds
constexpr int countBits = 10;
constexpr std::int64_t countMask = (1 << countBits) - 1;
constexpr std::int64_t endOfSlots = std::int64_t{1} << (42 + countBits);

/// Milliseconds and count as one number; negative, or past the end, for a moment without a key.
std::int64_t slotOf(const base::Uuid& identity) {
  const std::int64_t count = (identity.bytes[6] & 0x0F) << 8 | identity.bytes[7];
  return (base::timeOf(identity).utc.count() - epoch) * (countMask + 1) + count;
}

base::Uuid identityAt(std::int64_t slot, const HandMark& mark) {
  base::Uuid identity;
  auto millis = static_cast<std::uint64_t>(slot >> countBits) + std::uint64_t{epoch};
  for (std::size_t i = 6; i-- > 0; millis >>= 8U)
    identity.bytes[i] = static_cast<std::uint8_t>(millis & 0xFFU);
  const auto count = static_cast<unsigned>(slot & countMask);
  identity.bytes[6] = static_cast<std::uint8_t>(0x80U | count >> 8U); // version 8
  identity.bytes[7] = static_cast<std::uint8_t>(count & 0xFFU);
  std::ranges::copy(mark, identity.bytes.begin() + 8);
  return identity;
}

HandMark markIn(const base::Uuid& identity) {
  HandMark mark;
  std::copy_n(identity.bytes.begin() + 8, mark.size(), mark.begin());
  return mark;
}

[[noreturn]] void crowded(const std::string& why) {
  throw Trouble({ErrorCode::storeCrowded, why});
}

} // namespace

std::int64_t millisIn(std::int64_t key) {
  return (key >> (handBits + countBits)) + epoch;
}

HandMark markOf(base::LaptopId laptop) {
  const auto& bytes = laptop.uuid().bytes;
  crypto::Hasher hasher;
  hasher.add({reinterpret_cast<const char*>(bytes.data()), bytes.size()});
  const auto hash = hasher.finish();
  HandMark mark;
  std::copy_n(hash.begin(), mark.size(), mark.begin());
  mark[0] = static_cast<std::uint8_t>((mark[0] & 0x3FU) | 0x80U); // the variant of RFC 9562
  return mark;
}

base::Uuid nextIdentity(base::Instant now, const base::Uuid& last, const HandMark& mark) {
  const auto since = now.utc.count() - epoch;
  const bool hasKey = since >= 0 && since < endOfSlots >> countBits;
  const auto slot = std::max(hasKey ? since << countBits : 0, slotOf(last) + 1);
  if (!hasKey)
    throw Trouble({ErrorCode::storeClock, "the clock of this laptop shows a time that no entry can "
                                          "have (before 2020, or far ahead); set the clock"});
  if (slot >= endOfSlots)
    throw Trouble({ErrorCode::storeDamaged,
                   "an entry in this logbook was made under the last time that an entry can have, "
                   "so none can follow it; open the latest backup from before it"});
  return identityAt(slot, mark);
}

void Hands::add(std::int64_t number, base::LaptopId laptop) {
  const auto mark = markOf(laptop);
  if (number < 1 || number > mostHands || laptops_.contains(static_cast<int>(number)) ||
      numbers_.contains(mark))
    throw Trouble({ErrorCode::storeDamaged, "the list of laptops in the logbook cannot be so"});
  const auto short_ = static_cast<int>(number);
  laptops_.emplace(short_, laptop);
  marks_.at(static_cast<std::size_t>(short_)) = mark;
  numbers_.emplace(mark, short_);
}

int Hands::taken(base::LaptopId laptop, int wish) {
  if (const int known = numberOf(laptop); known != 0) return known;
  if (numbers_.contains(markOf(laptop)))
    crowded("two laptops cannot be told apart in this logbook; give one of them a new identity");
  int number = wish;
  if (number == 0 || laptops_.contains(number))
    for (number = 1; laptops_.contains(number);)
      ++number;
  if (number > mostHands)
    crowded("no more than " + base::counted(mostHands, "laptop", "laptops") +
            " can write in one logbook; continue with a laptop that has written in it before");
  add(number, laptop);
  return number;
}

void Hands::addLine(std::int64_t since, base::LaptopId name, int origin) {
  const int number = handIn(since);
  const auto hand = laptops_.find(number);
  const auto mark = markOf(name);
  const bool isOwnName = hand != laptops_.end() && hand->second == name;
  if (hand == laptops_.end() || !laptops_.contains(origin) ||
      (!isOwnName && !numbers_.emplace(mark, number).second))
    throw Trouble({ErrorCode::storeDamaged, "the list of copied laptops in the logbook is not "
                                            "so"});
  auto& lines = lines_[number];
  lines.push_back({since, name, mark});
  std::ranges::sort(lines, {}, &Line::since);
  if (number != origin) origins_[number] = origin;
}

const Hands::Line* Hands::lineOf(std::int64_t key) const {
  if (lines_.empty()) return nullptr;
  const auto found = lines_.find(handIn(key));
  if (found == lines_.end()) return nullptr;
  const auto next = std::ranges::upper_bound(found->second, key, {}, &Line::since);
  return next == found->second.begin() ? nullptr : &*std::prev(next);
}

int Hands::originOf(int number) const {
  const auto found = origins_.find(number);
  return found == origins_.end() ? number : found->second;
}

base::LaptopId Hands::originLaptop(int number) const {
  const auto found = laptops_.find(originOf(number));
  return found == laptops_.end() ? base::LaptopId(base::Uuid{}) : found->second;
}

HandMark Hands::nextMark(base::LaptopId laptop) const {
  const auto lines = lines_.find(numberOf(laptop));
  return lines == lines_.end() ? markOf(laptop) : lines->second.back().mark;
}

int Hands::numberOf(base::LaptopId laptop) const {
  const auto found = numbers_.find(markOf(laptop));
  return found != numbers_.end() && laptops_.at(found->second) == laptop ? found->second : 0;
}

std::optional<base::LaptopId> Hands::laptopOf(std::int64_t key) const {
  if (const auto* const line = lineOf(key)) return line->name;
  const auto found = laptops_.find(handIn(key));
  return found == laptops_.end() ? std::nullopt : std::optional(found->second);
}

std::int64_t Hands::keyOf(const base::Uuid& identity) const {
  const auto slot = std::clamp(slotOf(identity), std::int64_t{0}, endOfSlots - 1);
  const auto hand = numbers_.find(markIn(identity));
  const bool isHere = hand != numbers_.end() && identityAt(slot, hand->first) == identity;
  return slot * keyStep + (isHere ? hand->second : 0);
}

std::optional<base::Uuid> Hands::identityOf(std::int64_t key) const {
  if (key <= 0) return std::nullopt;
  const auto& mark = marks_[static_cast<std::size_t>(handIn(key))];
  if (!mark) return std::nullopt;
  const auto* const line = lineOf(key);
  return identityAt(key >> handBits, line != nullptr ? line->mark : *mark);
}

std::optional<base::Uuid> Hands::enteredAs(std::int64_t key) const {
  if (key <= 0) return std::nullopt;
  const auto& mark = marks_[static_cast<std::size_t>(originOf(handIn(key)))];
  if (!mark) return std::nullopt;
  return identityAt(key >> handBits, *mark);
}

} // namespace gk::store
