#pragma once

#include "base/identity/id.h"

#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <vector>

namespace gk::store {

// How an identity of 16 bytes is one whole number in the file, 63 bits:
//
//   milliseconds since 2020-01-01 UTC   42 bits   until 2159
//   count within the millisecond        10 bits
//   number of the hand                  11 bits
//
// The 16 bytes are a UUID of version 8 (RFC 9562, section 5.8): 48 bits of UTC milliseconds, 12 of
// the count, and the 62 bits of the hand's mark, the same in every file. The short number is this
// file's own (table `hand`).

inline constexpr int handBits = 11;
inline constexpr std::int64_t keyStep = 1 << handBits; ///< between the rows of one act
inline constexpr int mostHands = keyStep - 1;

/// The number of the hand in a key of this file.
inline constexpr int handIn(std::int64_t key) {
  return static_cast<int>(key & mostHands);
}

/// UTC milliseconds in a key.
std::int64_t millisIn(std::int64_t key);

/// What every identity of one laptop ends with.
using HandMark = std::array<std::uint8_t, 8>;
HandMark markOf(base::LaptopId laptop);

/// Greater than `last` even within a millisecond or when the clock went back, so that identities
/// keep the order in which they were made; those of one act follow each other without a gap.
/// Throws `storeClock` for a moment that has no key, and `storeDamaged` where `last` is the end of
/// them all.
base::Uuid nextIdentity(base::Instant now, const base::Uuid& last, const HandMark& mark);

/// The laptops that wrote in one file, each with its number there. Where copies of one laptop's
/// disk were both written on, its rows have other names from there on (store/digest/lines.h).
class Hands {
 public:
  /// Throws `storeDamaged` for a number that cannot be, or a mark that another laptop has.
  void add(std::int64_t number, base::LaptopId laptop);
  /// Gives a laptop that is not there the number `wish` if it is free, else the next free one;
  /// `storeCrowded` when there is none.
  int taken(base::LaptopId laptop, int wish = 0);

  /// The rows from `since` on, of whatever hand that is of, are called `name`, and were written as
  /// rows of the hand `origin`. Throws `storeDamaged` for what cannot be.
  void addLine(std::int64_t since, base::LaptopId name, int origin);

  /// 0, which no row has, for a laptop that is not there.
  [[nodiscard]] int numberOf(base::LaptopId laptop) const;
  /// Of a number, or of the row with that key.
  [[nodiscard]] std::optional<base::LaptopId> laptopOf(std::int64_t key) const;
  /// The number of the hand that this one is copied from, which may be itself.
  [[nodiscard]] int originOf(int number) const;
  [[nodiscard]] base::LaptopId originLaptop(int number) const;
  /// Whether copies of its disk were both written on.
  [[nodiscard]] bool isParted(int number) const { return lines_.contains(number); }
  /// What the next row of the hand is called.
  [[nodiscard]] HandMark nextMark(base::LaptopId laptop) const;
  [[nodiscard]] const std::map<int, base::LaptopId>& all() const { return laptops_; }

  /// Of an identity that cannot be in this file: the number of no row, in its place by time.
  [[nodiscard]] std::int64_t keyOf(const base::Uuid& identity) const;
  /// Nothing for a number that is no identity here.
  [[nodiscard]] std::optional<base::Uuid> identityOf(std::int64_t key) const;
  /// As it was when it was written: so it stands in digests, and in what seals a name.
  [[nodiscard]] std::optional<base::Uuid> enteredAs(std::int64_t key) const;

 private:
  struct Line {
    std::int64_t since;
    base::LaptopId name;
    HandMark mark;
  };
  [[nodiscard]] const Line* lineOf(std::int64_t key) const;

  std::map<int, std::vector<Line>> lines_; // by number, each in the order of its key
  std::map<int, int> origins_;             // of hands that are copies
  std::map<int, base::LaptopId> laptops_;
  std::array<std::optional<HandMark>, keyStep> marks_{};
  std::map<HandMark, int> numbers_;
};

} // namespace gk::store
