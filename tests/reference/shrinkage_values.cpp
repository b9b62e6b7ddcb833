#include "estimates/compare/shrinkage.h"
#include "reference/reference.h"

using namespace gk::estimates;

namespace gk::reference {

Values shrinkageSchools(const base::CsvTable& table) {
  const auto examined = numbers(table, "examined");
  const auto kept = numbers(table, "kept");
  std::vector<Unit> units;
  for (std::size_t i = 0; i < examined.size(); ++i)
    units.push_back({examined[i], kept[i]});
  const auto found = shrunken(units).value();
  Values out{{"alpha", found.alpha.value()},
             {"beta", found.beta.value()},
             {"loglik", found.logLikelihood}};
  for (std::size_t i = 0; i < found.units.size(); ++i)
    out["unit" + std::to_string(i + 1)] = found.units[i].shrunken;
  return out;
}

} // namespace gk::reference
