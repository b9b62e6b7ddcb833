#pragma once

#include "base/enum_names.h"
#include "base/text/csv.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gk::roster {

/// What a column of a school's list can be.
enum class RosterColumn {
  leftOut, ///< nothing of it is kept
  number,  ///< the program's own, on the slip
  studentId,
  wholeName, ///< "Last, First Middle" or "First Middle Last"
  first,
  middle,
  last,
  suffix,
  nameUsed,
  birthDate,
  grade,
  room,
  teacher,
  sex,
  guardian,
  relation,
  phone,
  secondGuardian,
  secondRelation,
  secondPhone,
  language,
  allergies, ///< an alert for each child that has one
  health,    ///< the same
  consent,
  signedOn,
  receivedOn,
  validUntil,
  services,
  history,
  ethnicity,
  payer,
  status,        ///< whether the school has the student enrolled
  guardianFirst, ///< where the guardian's name stands in two columns
  guardianLast,
  secondGuardianFirst,
  secondGuardianLast,
  school ///< of a list of several, such as a district's: whose row it is
};

/// How dates such as 03/04/2019 are meant in the whole file.
enum class DateOrder { unsaid, monthFirst, dayFirst };
/// What becomes of pre-kindergarten and transitional kindergarten, which the logbook's grades K to
/// 12 do not have.
enum class EarlyGrades { hold, kindergarten, leaveOut };

/// Which column is what, and how its cells are meant. A column that is not among them is left out.
struct RosterLayout {
  std::optional<std::size_t> heading{}; ///< the row with the headings; none: every row is a child
  std::vector<RosterColumn> columns{};
  DateOrder dates = DateOrder::unsaid;
  EarlyGrades early = EarlyGrades::hold;
  /// Of every row, where no column says it, as on one class's list; the grade as parseGrade gives
  /// it. Not remembered: the next list is another class's.
  std::string gradeOfAll{};
  std::string roomOfAll{};
  /// Of a list of several schools: the one whose rows are meant, as a cell says it; empty: all of
  /// them; none: not said yet. Not remembered either.
  std::optional<std::string> rowsOf{};

  [[nodiscard]] bool has(RosterColumn column) const;
  bool operator==(const RosterLayout&) const = default;
};

/// What a heading means, in any of many spellings: "DOB", "Birth Date", "date_of_birth" and "Fecha
/// de nacimiento" are one, and so are "Phone" and "Phone 3". A heading that holds "allerg",
/// "medical" or "health" is of health, but for insurance, doctors and forms. "Parent 1 First Name"
/// is a part of the guardian's name. None for one that is not known. A heading of no use is
/// `leftOut`, and so is a bare "#", which counts the rows.
std::optional<RosterColumn> columnCalled(std::string_view heading);

/// As "birth date" is kept of a heading: folded, marks read as blanks.
std::string headingKey(std::string_view heading);

/// What the rows say of themselves: the first row of the first forty in which most headings are
/// known (a name, birth date or grade among them) has the headings, or else the first that is all
/// words above rows with digits. Of two columns of one meaning the
/// first counts, but for names of guardians and phones, where the next is the second guardian's,
/// and for health, of which all count. A column of numbers that only counts 1, 2, 3 is left out.
RosterLayout suggestLayout(std::span<const base::CsvRow> rows);

/// A column that is left out, and in how many of its cells there is a word that stops a material.
struct LeftOutColumn {
  std::size_t column;
  std::size_t stops;
};
/// Those that have a heading or a cell below it.
std::vector<LeftOutColumn> leftOutColumns(std::span<const base::CsvRow> rows,
                                          const RosterLayout& layout);
/// "Left out: Bus, Lunch.", and of each with a stop word that it has to be looked at. `names` are
/// those of all columns: the headings on a screen; elsewhere their places, as a heading may be
/// anything.
std::vector<std::string> leftOutNotes(const std::vector<LeftOutColumn>& columns,
                                      const std::vector<std::string>& names);

/// The schools that the list says its rows are of, each once, as first written; rows with a birth
/// date alone.
std::vector<std::string> schoolsIn(std::span<const base::CsvRow> rows, const RosterLayout& layout);

/// What is missing before children can be read, and what is there twice; empty when nothing is.
std::vector<std::string> layoutProblems(const RosterLayout& layout);

/// What a person said of the columns of one school's lists, by their headings, so that next year's
/// is read alike: "dob=birth date;..." of headings alone, never of a cell.
std::string rememberedLayout(std::span<const base::CsvRow> rows, const RosterLayout& layout);
/// The suggestion, with what is remembered in the place of what was guessed.
RosterLayout suggestLayout(std::span<const base::CsvRow> rows, std::string_view remembered);
/// The same with the headings in the row that a person chose; none: every row is a child.
RosterLayout layoutUnder(std::span<const base::CsvRow> rows, std::optional<std::size_t> heading,
                         std::string_view remembered);

} // namespace gk::roster

template <>
inline constexpr auto gk::base::enumNames<gk::roster::RosterColumn> =
    std::to_array<std::string_view>({"left out",
                                     "number",
                                     "student id",
                                     "whole name",
                                     "first",
                                     "middle",
                                     "last",
                                     "suffix",
                                     "name used",
                                     "birth date",
                                     "grade",
                                     "room",
                                     "teacher",
                                     "sex",
                                     "guardian",
                                     "relation",
                                     "phone",
                                     "second guardian",
                                     "second relation",
                                     "second phone",
                                     "language",
                                     "allergies",
                                     "health",
                                     "consent",
                                     "signed on",
                                     "received on",
                                     "valid until",
                                     "services",
                                     "history",
                                     "ethnicity",
                                     "payer",
                                     "status",
                                     "guardian first",
                                     "guardian last",
                                     "second guardian first",
                                     "second guardian last",
                                     "school"});
template <>
inline constexpr auto gk::base::enumNames<gk::roster::DateOrder> =
    std::to_array<std::string_view>({"not said", "month first", "day first"});
template <>
inline constexpr auto gk::base::enumNames<gk::roster::EarlyGrades> =
    std::to_array<std::string_view>({"hold", "kindergarten", "leave out"});
