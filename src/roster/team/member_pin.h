#pragma once

#include "roster/team/team.h"

#include <cstdint>
#include <vector>

namespace gk::roster {

using PinId = base::Id<struct PinTag>;

/// A member's PIN, as vault::SealedPin, or that it was reset and she must choose a new one: then
/// the bytes are empty. Never changed: the newest one counts.
struct MemberPin {
  using Key = PinId;
  MemberId member;
  std::vector<std::uint8_t> salt;
  std::int64_t opsLimit;
  std::int64_t memoryBytes;
  std::vector<std::uint8_t> nonce;
  std::vector<std::uint8_t> box;
  std::string reason{}; ///< of a reset

  [[nodiscard]] bool isReset() const { return box.empty(); }
  bool operator==(const MemberPin&) const = default;
};

/// How a member stands: `toChoose` after a reset.
enum class PinState { none, set, toChoose };

} // namespace gk::roster

template <>
inline constexpr auto gk::base::enumNames<gk::roster::PinState> =
    std::to_array<std::string_view>({"none", "set", "to be chosen"});
