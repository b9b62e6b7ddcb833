#pragma once

#include "roster/child/child.h"
#include "roster/days/clinic_day.h"

namespace gk::roster {

using AddendumId = base::Id<struct AddendumTag>;
using ReopeningId = base::Id<struct ReopeningTag>;

/// A late entry: words added to a signed day. It changes no figure; the close-out prints it with
/// its own date and author.
struct Addendum {
  using Key = AddendumId;
  DayId day;
  std::optional<ChildId> child{}; ///< none when it is about the whole day
  std::string text;               ///< no names
  bool operator==(const Addendum&) const = default;
};

/// A signed day was opened again. The act that writes it takes the signatures back; they stay in
/// the history.
struct Reopening {
  using Key = ReopeningId;
  DayId day;
  std::string reason; ///< what has to change
  bool operator==(const Reopening&) const = default;
};

} // namespace gk::roster
