#include "reports/attack_by_school.h"

#include "reports/exposures.h"
#include "reports/term_view.h"

#include <algorithm>

namespace gk::reports {

AttackBySchool attackBySchool(const TermRecords& records) {
  const TermView view(records);
  auto exposures = exposuresOf(records);
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
  out.all = attackRateOf(records);
  // Each of the three is refused only where no molar had enough exposure.
  if (auto rates = estimates::schoolRates(rows)) out.rates = *std::move(rates);
  if (auto age = estimates::riskByAge(all)) out.age = *std::move(age);
  if (auto profile = estimates::attackRateProfile(all)) out.profile = *std::move(profile);
  return out;
}

std::string ageWords(estimates::RiskWithAge verdict) {
  switch (verdict) {
  case estimates::RiskWithAge::cannotTell:
    return "Too few molars or children to tell whether the risk is the same at every age.";
  case estimates::RiskWithAge::looksConstant:
    return "The risk looks the same whether a molar has been up a short or a long time, as the "
           "model of one yearly rate takes it to be.";
  case estimates::RiskWithAge::differs:
    return "The risk differs with time in the mouth, up and down: one yearly rate is an average "
           "that fits no age well.";
  case estimates::RiskWithAge::falls:
    return "The risk is highest soon after a molar comes up and falls later: one yearly rate "
           "overstates later years, and with them what sealants spare in the long run.";
  case estimates::RiskWithAge::rises:
    return "The risk is lower soon after a molar comes up and rises later: one yearly rate "
           "understates later years.";
  }
  base::fail("no such verdict");
}

} // namespace gk::reports
