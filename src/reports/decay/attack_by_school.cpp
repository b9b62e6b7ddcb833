#include "reports/decay/attack_by_school.h"

#include "reports/decay/exposures.h"
#include "reports/records/term_view.h"

#include <algorithm>

namespace gk::reports {

AttackBySchool attackBySchool(const TermView& view) {
  auto exposures = exposuresOf(view);
  const auto all = exposures.all();
  std::vector<std::pair<std::string, std::vector<estimates::Exposure>>> named;
  for (auto& [school, rows] : exposures.schools)
    named.emplace_back(view.schoolName(school), std::move(rows));
  std::ranges::stable_sort(named, {}, [](const auto& one) { return one.first; });

  AttackBySchool out;
  std::vector<std::vector<estimates::Exposure>> rows;
  for (auto& [name, own] : named) {
    out.schools.push_back(name);
    rows.push_back(std::move(own));
  }
  out.all = attackRateOf(view);
  // Each of the three is refused only where no molar had enough exposure.
  if (auto rates = estimates::schoolRates(rows)) out.rates = *std::move(rates);
  if (auto age = estimates::riskByAge(all)) out.age = *std::move(age);
  if (auto profile = estimates::attackRateProfile(all)) out.profile = *std::move(profile);
  return out;
}

} // namespace gk::reports
