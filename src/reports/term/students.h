#pragma once

#include "base/enum_names.h"
#include "reports/records/term_view.h"

#include <array>

namespace gk::reports {

/// What a funder asks of the students screened, each of them in one figure of each of three: sex,
/// who pays, and race and ethnicity, where those of more than one group are a figure of their own
/// (OMB Statistical Policy Directive No. 15, 2024).
enum class StudentFigure {
  screened,
  female,
  male,
  otherSex,
  sexNotStated,
  medicaid,
  chip,
  privateInsurance,
  noInsurance,
  payerUnknown,
  americanIndian,
  asian,
  black,
  hispanic,
  middleEastern,
  pacificIslander,
  white,
  severalGroups,
  groupsNotStated
};

/// Children, by figure.
using StudentCounts = std::array<int, 19>;

/// Of the children screened in the term, by what their forms said last.
StudentCounts studentCounts(const TermView& view);

/// The figures of one question, the answer "not stated" last.
struct StudentQuestion {
  const char* by;      ///< "screened children by ..."
  const char* heading; ///< of its answers
  std::vector<StudentFigure> figures;
};
const std::array<StudentQuestion, 3>& studentQuestions();

std::string wordsOf(StudentFigure figure);

} // namespace gk::reports

template <>
inline constexpr auto
    gk::base::enumNames<gk::reports::StudentFigure> = std::to_array<std::string_view>(
        {"screened", "female", "male", "other sex", "sex not stated", "medicaid", "chip",
         "private insurance", "no insurance", "payer unknown", "american indian or alaska native",
         "asian", "black or african american", "hispanic or latino",
         "middle eastern or north african", "native hawaiian or pacific islander", "white",
         "several groups", "groups not stated"});
static_assert(std::tuple_size_v<gk::reports::StudentCounts> ==
              gk::base::enumCount<gk::reports::StudentFigure>);
