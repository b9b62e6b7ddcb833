#pragma once

#include "base/time/date.h"

#include <optional>
#include <string>
#include <string_view>

namespace gk::roster {

/// Why two children may be one. Twins and namesakes are alike too: a person is asked, and nothing
/// is ever matched by it.
enum class Likeness {
  number,       ///< one number is the other without its check digit, or with a wrong one
  nameAndBirth, ///< the same name and birth date
  nearName,     ///< the same birth date, and names a slip of the pen apart
  nearBirth     ///< the same name, and birth dates a slip of the pen apart
};

/// Names as base::folded gives them; `called` is the one that is used.
struct Person {
  std::string legal;
  std::string called;
  base::Date birth;
};

std::optional<Likeness> likeness(const Person& one, const Person& other);

/// One letter too many, too few or another, or two that changed places.
bool areOneSlipApart(std::string_view one, std::string_view other);
/// Two of day, month and year are the same, or day and month changed places.
bool areNearDates(base::Date one, base::Date other);

/// Whether "1043" or "1043-9" was meant for "1043-0", or "104-3" is "1043" that passes for a whole
/// number.
bool areLikeNumbers(std::string_view one, std::string_view other);

/// Too alike to be entered unasked: all but birth dates apart, which namesakes have as well.
bool isTooAlike(Likeness likeness);

/// "the same name and birth date".
std::string_view words(Likeness likeness);

} // namespace gk::roster
