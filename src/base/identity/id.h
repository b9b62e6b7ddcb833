#pragma once

#include "base/random.h"
#include "base/result.h"
#include "base/time/clock.h"

#include <array>
#include <compare>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>

namespace gk::base {

/// 128 bits as RFC 9562 lays them out. Ordered by bytes, so version 7 values sort by time.
struct Uuid {
  std::array<std::uint8_t, 16> bytes{};

  auto operator<=>(const Uuid&) const = default;

  /// Lower-case text, 8-4-4-4-12.
  [[nodiscard]] std::string text() const;
  static Result<Uuid> parse(std::string_view text);
};

/// Version 7: 48 bits of `now` in UTC milliseconds, the rest random.
Uuid makeUuid7(Instant now, Random& random);

/// The moment that an identity of version 7, or one of a row, begins with.
Instant timeOf(const Uuid& uuid);

/// An identity that cannot be mixed with another kind's.
template <class Tag>
class Id {
 public:
  Id() = delete;
  explicit Id(Uuid value) : value_(value) {}

  [[nodiscard]] const Uuid& uuid() const { return value_; }
  [[nodiscard]] std::string text() const { return value_.text(); }
  auto operator<=>(const Id&) const = default;

 private:
  Uuid value_;
};

/// One row of the book.
using EntryId = Id<struct EntryTag>;
/// One computer that writes; every entry names the laptop that wrote it.
using LaptopId = Id<struct LaptopTag>;
/// A member of the team. Here because every entry is stamped with its author.
using MemberId = Id<struct MemberTag>;
/// A clinic day. Here because the kit is looked at on it and knows nothing else of rosters.
using DayId = Id<struct DayTag>;

} // namespace gk::base

template <>
struct std::hash<gk::base::Uuid> {
  std::size_t operator()(const gk::base::Uuid& uuid) const noexcept {
    std::size_t mixed = 1469598103934665603ULL; // FNV-1a, 64 bits
    for (auto byte : uuid.bytes)
      mixed = (mixed ^ byte) * 1099511628211ULL;
    return mixed;
  }
};

template <class Tag>
struct std::hash<gk::base::Id<Tag>> {
  std::size_t operator()(const gk::base::Id<Tag>& id) const noexcept {
    return std::hash<gk::base::Uuid>{}(id.uuid());
  }
};
