#pragma once

#include "base/time/date.h"
#include "reports/print/table.h"
#include "roster/child/child.h"

#include <optional>
#include <string>
#include <vector>

namespace gk::session {

/// What one of two cards says of the child.
struct CardSide {
  roster::ChildId child;
  std::string number{};
  std::string name{}; ///< empty for a card that is joined already
  std::string birth{};
  std::string place{}; ///< school, grade, room
  std::string entered{};
  std::size_t visits = 0; ///< school days on which the child was seen
  std::size_t forms = 0;
  std::size_t letters = 0;
};

/// Two cards that may be one child's. The one that was entered first is kept, so that two laptops
/// that join them apart keep the same.
struct CardPair {
  CardSide kept;
  CardSide other;
  bool isJoined = false;              ///< and another laptop went on with the other since
  std::optional<base::Date> onBoth{}; ///< a day on which both were seen: never one child
  std::vector<std::string> changes{}; ///< what joining them does, a sentence each
};

/// The two side by side, what differs first.
reports::Table cardTable(const CardPair& pair);

} // namespace gk::session
