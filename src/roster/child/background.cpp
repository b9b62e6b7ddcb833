#include "roster/child/background.h"

namespace gk::roster {

std::string_view shown(Ethnicity group) {
  constexpr auto words = std::to_array<std::string_view>(
      {"American Indian or Alaska Native", "Asian", "Black or African American",
       "Hispanic or Latino", "Middle Eastern or North African",
       "Native Hawaiian or Pacific Islander", "White"});
  static_assert(words.size() == base::enumCount<Ethnicity>);
  return words.at(static_cast<std::size_t>(group));
}

std::string_view shown(Payer payer) {
  constexpr auto words = std::to_array<std::string_view>(
      {"Medicaid", "CHIP", "private insurance", "no insurance", "not known"});
  static_assert(words.size() == base::enumCount<Payer>);
  return words.at(static_cast<std::size_t>(payer));
}

} // namespace gk::roster
