#pragma once

#include "base/time/date.h"
#include "dentition/eruption.h"
#include "roster/consent/consent.h"
#include "roster/list/roster_columns.h"

namespace gk::roster {

// What the cells of a school's list mean, in the ways that offices write them. Nothing here repeats
// a cell.

struct NameParts {
  std::string first{};
  std::string middle{};
  std::string last{};
  bool operator==(const NameParts&) const = default;
};

/// "Last, First Middle", "Last Jr., First", "Last, First, Jr." and, without a comma, "First Middle
/// Last", where de, van, Mac and the like belong to the last name. An only name is a first name.
NameParts splitName(std::string_view text);

/// "Jr", "III": what stands behind a name and tells a child from a parent.
bool isSuffix(std::string_view word);

/// What a cell says of the grade; `early` is pre-kindergarten or transitional kindergarten.
struct GradeRead {
  std::string grade{}; ///< as parseGrade gives it; empty where it is early
  bool isEarly = false;
};
/// "K", "KG", "Kdgn", "0", "K-AM", "K (Full Day)", "1st", "01", "Grade: 1", "First", "2.0", "2A",
/// and of the early ones "TK", "PK", "Pre-K", "PK4".
std::optional<GradeRead> readGrade(std::string_view text);

/// "F", "Girl", "female", "F - Female", "M", "niño", "X"; blank, "U" and "unknown" are not stated.
std::optional<dentition::Sex> readSex(std::string_view text);

/// "English" of "en", "eng" and "English (US)", "Spanish" of "es", "spa", "español", "castellano"
/// and "Spanish; Castilian"; another language as it is written.
std::string readLanguage(std::string_view text);

/// Whether a school's word of an enrollment says that the student is no longer there: "Withdrawn
/// 10/2", "inactive", "Exited", "Transferred out".
bool isGone(std::string_view status);

/// Every day that a cell may mean. What is written with the year first, with the month's name or as
/// a spreadsheet's day number can be read one way.
struct CellDates {
  std::optional<base::Date> plain{};
  std::optional<base::Date> monthFirst{};
  std::optional<base::Date> dayFirst{};

  [[nodiscard]] bool isNone() const { return !plain && !monthFirst && !dayFirst; }
  /// Whether the order matters and the cell does not say it.
  [[nodiscard]] bool areTwo() const;
  /// None where the order leaves no day, or is not said and matters.
  [[nodiscard]] std::optional<base::Date> as(DateOrder order) const;
};

/// 2019-03-04, 20190304, 2019/3/4, 3/4/2019, 3-4-19, 03.04.2019, 03042019, 4 March 2019, Mar 4
/// 2019, 04-MAR-19, 04MAR2019, 4 de marzo de 2019, 43528 (days since 1899-12-30); a weekday in
/// front and a time behind are passed over. Two digits of a year are the last such year that is not
/// after `today`.
CellDates readDates(std::string_view text, base::Date today);

/// What a health or allergy cell says, one for each kind; none for blank, "none", "N/A", "NKA", "No
/// latex allergy" and the like. Where no word is known, and it is no plain no, it is another matter
/// to ask about.
struct HealthRead {
  FlagKind kind;
  FlagAction action; ///< what must stop a material until someone asked, else a question
  bool operator==(const HealthRead&) const = default;
};
std::vector<HealthRead> readHealth(std::string_view text);
/// Adds it, or makes the one of its kind as strict.
void addStrictest(std::vector<HealthRead>& all, HealthRead one);

/// A row of a report's own below or between the children: "Total: 24", "Room 4 Total", "Page 2 of
/// 3", "* = new student".
bool isFooterWord(std::string_view cell);
/// A row that names who follows: "Teacher: Hill", "Room 4".
bool isGroupWord(std::string_view cell);

} // namespace gk::roster
