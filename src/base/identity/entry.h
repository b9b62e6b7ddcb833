#pragma once

#include "base/enum_names.h"
#include "base/identity/id.h"
#include "base/time/clock.h"

#include <cstdint>
#include <optional>
#include <string>

namespace gk::base {

/// Where in the program an act is done: it bounds what undo takes back. `unsaid` leaves it to the
/// act's own usual place.
enum class Station {
  unsaid,
  board,
  chair,
  closeOut,
  totals,
  equipment,
  incident,
  program,
  schools,
  team,
  lights,
  lots,
  rosters,
  consent,
  desk
};

/// Whose act it was and who typed it: two fields on every entry, often two people.
struct By {
  std::optional<MemberId> author{};   ///< empty only while a book is being set up
  std::optional<MemberId> recorder{}; ///< empty when the author typed it
  Station station = Station::unsaid;

  auto operator<=>(const By&) const = default;
};

/// What every row carries. Rows are never changed: a correction is a new row that supersedes.
struct Stamp {
  EntryId entry;
  LaptopId laptop;
  std::int64_t sequence; ///< per laptop, from 1, without gaps
  By by;
  LocalInstant at;
  std::optional<EntryId> supersedes;
  std::string reason; ///< never empty when it supersedes

  auto operator<=>(const Stamp&) const = default;
};

/// A record as read back. `id` is the identity of the thing, which corrections keep; it is the
/// entry id of the first row.
template <class T>
struct Recorded {
  typename T::Key id;
  Stamp stamp;
  T value;
};

} // namespace gk::base

template <>
inline constexpr auto gk::base::enumNames<gk::base::Station> = std::to_array<std::string_view>(
    {"", "board", "chair", "close-out", "totals", "equipment", "incident", "program", "schools",
     "team", "lights", "lots", "rosters", "consent", "desk"});
