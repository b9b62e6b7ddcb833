#pragma once

#include "base/enum_names.h"
#include "reports/print/table.h"
#include "reports/publish/suppression.h"
#include "reports/records/term_view.h"

namespace gk::reports {

/// What schools' days took in a term, of those days of which someone said it.
struct Effort {
  std::string school;
  std::optional<roster::SchoolId> id{}; ///< none of the sum
  int days = 0;                         ///< held
  int daysSaid = 0; ///< of them, with time and people; all that follows is of these days
  double chairHours = 0;
  std::array<roster::minutes, base::enumCount<roster::Role>> staff{};
  int screened = 0;                  ///< children
  int teeth = 0;                     ///< sealed
  int taught = 0;                    ///< students
  std::optional<int> mealsPercent{}; ///< of the school's students, with free or reduced-price meals
  std::string mealsSource{};

  [[nodiscard]] roster::minutes staffTime() const;
};

/// One for each school, by name, and their sum at the end.
std::vector<Effort> efforts(const TermView& view);

/// Of what `efforts` gave, one school and its sum.
std::vector<Effort> effortsOf(std::vector<Effort> all, roster::SchoolId school);

// Each from what those gave.

/// Hours by role, children and teeth for each chair hour.
Table staffTable(const std::vector<Effort>& schools);

/// The hours alone, and students taught, which say nothing of a child's health; small counts of
/// them hide all the same. None where no one said any.
std::optional<Table> publishedEffort(const std::vector<Effort>& schools,
                                     const SuppressionRule& rule);

/// Schools with their share of students with free or reduced-price meals; none where no one said
/// it.
std::optional<Table> mealsTable(const std::vector<Effort>& schools);

} // namespace gk::reports
