#pragma once

#include "base/enum_names.h"
#include "base/identity/id.h"
#include "base/time/date.h"
#include "dentition/eruption.h"
#include "roster/program/program.h"

#include <optional>
#include <string>
#include <vector>

namespace gk::roster {

using ChildId = base::Id<struct ChildTag>;

struct BirthMonth {
  int year;
  unsigned month; ///< 1-12
  auto operator<=>(const BirthMonth&) const = default;
};

/// Age in years from the middle of the birth month: all that estimates may know.
double approximateAge(BirthMonth birth, base::Date on);

/// Why a student is expected no more.
enum class LeftBecause { movedAway, graduated, withdrawn, other };

/// From that day on the student is on no day's list and no form of theirs is chased. All that was
/// recorded stays, and counts wherever it did.
struct Leaving {
  base::Date from;
  LeftBecause why;
  bool operator==(const Leaving&) const = default;
};

/// The clinical side of a child: no name, no birth day. Those live sealed in the vault.
struct Child {
  using Key = ChildId;
  std::string number; ///< "1043-0": digits and a check digit, as on the slip
  BirthMonth birth;
  dentition::Sex sex = dentition::Sex::notStated;
  SchoolId school;
  std::string grade; ///< as parseGrade gives it
  std::string room;
  bool provisional = false; ///< on a form but not on the roster yet
  std::string note;         ///< clinical only; never a name
  std::optional<Leaving> left{};
  bool operator==(const Child&) const = default;
};

inline bool hasLeft(const Child& child, base::Date on) {
  return child.left && on >= child.left->from;
}

/// "1043" -> "1043-0". ISO/IEC 7064 MOD 11,10, which catches every single wrong digit.
std::string withCheckDigit(std::string_view digits);
/// Digits, a dash if any, and the right check digit; else `textMalformed`, which does not repeat
/// what was typed. Gives the usual shape.
base::Result<std::string> parseChildNumber(std::string_view text);

/// What a birth date says against the school grade on a day.
enum class BirthVerdict { fine, askUnusualForGrade, impossible };
/// Impossible outside 3-19 years. Asks when the age is more than two years off the grade's usual
/// age (grade + 5 to grade + 6 years; common practice, no source).
BirthVerdict judgeBirthDate(base::Date birth, std::string_view grade, base::Date on);

/// When a numeric date can be read two ways, the readings that the grade allows, most usual first.
std::vector<base::Date> plausibleReadings(const base::DateReadings& readings,
                                          std::string_view grade, base::Date on);

/// Same folded name: an alert on both, never a match. No name is like no other.
bool sameName(std::string_view one, std::string_view other);

} // namespace gk::roster

template <>
inline constexpr auto gk::base::enumNames<gk::roster::LeftBecause> =
    std::to_array<std::string_view>({"moved away", "graduated", "withdrawn", "other"});
template <>
inline constexpr auto gk::base::enumNames<gk::dentition::Sex> =
    std::to_array<std::string_view>({"female", "male", "other", "not stated"});
