#pragma once

#include "base/enum_names.h"
#include "base/identity/entry.h"
#include "base/time/date.h"
#include "dentition/surfaces.h"

#include <chrono>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace gk::roster {

using ProgramId = base::Id<struct ProgramTag>;
using TermId = base::Id<struct TermTag>;
using SchoolId = base::Id<struct SchoolTag>;
using EnrollmentId = base::Id<struct EnrollmentTag>;

enum class Supervision {
  direct,
  indirect,
  general,
  publicHealth,
  collaborative,
  independent,
  dentistExamRequired,
  other
};

/// What the program publishes of each school, beside the totals.
enum class BySchool {
  all,     ///< every table, as strict as the rule for small counts
  services ///< who took part and what was done; what was found in total alone
};

/// Least times of the program; the maker's instructions win where they ask for more.
/// Defaults and their sources: docs/methods.md, "Numbers of the procedure".
struct StepTimes {
  base::Seconds etch{20};
  base::Seconds etchAgainWet{20};    ///< etched enamel that saliva touched
  base::Seconds etchAgainAdding{10}; ///< when adding to a sealant already placed
  base::Seconds rinse{10};
  bool operator==(const StepTimes&) const = default;
};

/// What the program asks of itself, in percent; each is none until the program sets it.
struct Benchmarks {
  std::optional<int> consented{}; ///< of enrolled
  std::optional<int> screened{};  ///< of consented
  std::optional<int> sealed{};    ///< of those in need
  std::optional<int> retained{};  ///< fully, of assessable, at one year
  bool operator==(const Benchmarks&) const = default;
};

struct Program {
  using Key = ProgramId;
  std::string name;
  std::string county;
  std::string phone;
  dentition::Notation notation = dentition::Notation::universal;
  Supervision supervision = Supervision::general;
  std::string authorizingDentist;
  std::optional<base::Date> agreementUntil; ///< after it no new placements without an override
  std::string privacyFooting;               ///< which law, who decided, when
  int suppressBelow = 10;                   ///< published counts under this are hidden; at least 5
  BySchool bySchool = BySchool::all;
  int varnishIntervalDays = 90;
  bool primaryTeethOffered = false;
  StepTimes times;
  int authorizationDays = 365; ///< that a dentist's word on a tooth holds at most
  Benchmarks benchmarks{};
  bool operator==(const Program&) const = default;
};

/// As it is entered, names without blanks around them. Fails with `textMalformed` without name,
/// county or phone, and with `numberMalformed` when counts under 5 would be published.
base::Result<Program> soundProgram(Program program);

struct Term {
  using Key = TermId;
  std::string name;
  base::Date start;
  base::Date end; ///< after start
  std::vector<base::Date> holidays;
  bool operator==(const Term&) const = default;
};

struct School {
  using Key = SchoolId;
  std::string name;
  std::string code;                       ///< unique and never used again
  std::optional<base::Date> closedFrom{}; ///< the program works there no more from then on
  bool operator==(const School&) const = default;
};

inline bool isClosed(const School& school, base::Date on) {
  return school.closedFrom && on >= *school.closedFrom;
}

/// The name, with the code where another school of `all` has that name too.
std::string shownAmong(const School& school, std::span<const base::Recorded<School>> all);

/// A dated count of the students of one grade, the denominator of the consent rate.
struct Enrollment {
  using Key = EnrollmentId;
  TermId term;
  SchoolId school;
  std::string grade; ///< as parseGrade gives it
  int students;
  bool operator==(const Enrollment&) const = default;
};

/// "K" is 0; fails with `textMalformed` for anything but K and 1-12.
base::Result<int> gradeNumber(std::string_view grade);
/// The one way each grade is kept: " k" is "K", "01" is "1". Fails as `gradeNumber`.
base::Result<std::string> parseGrade(std::string_view text);

} // namespace gk::roster

template <>
inline constexpr auto gk::base::enumNames<gk::roster::BySchool> =
    std::to_array<std::string_view>({"all", "services"});
template <>
inline constexpr auto gk::base::enumNames<gk::roster::Supervision> =
    std::to_array<std::string_view>({"direct", "indirect", "general", "public health",
                                     "collaborative", "independent", "dentist exam required",
                                     "other"});
