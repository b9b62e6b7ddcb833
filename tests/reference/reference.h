#pragma once

#include "base/text/csv.h"

#include <map>
#include <string>
#include <vector>

namespace gk::reference {

/// Named numbers, such as "interval.low".
using Values = std::map<std::string, double>;

/// One comparison with R. `script` (in tests/reference/scripts) is run as `Rscript script data` and
/// prints lines "name value"; `ours` computes the same names from the same table (in
/// tests/reference/data). tests/reference/expected/NAME.txt, NAME being the data's without .csv, is
/// R's recorded answer.
struct Script {
  std::string script;
  std::string data;
  Values (*ours)(const base::CsvTable& table);
  double tolerance = 1e-6; ///< absolute below 1, relative above
};

/// The numbers of one column. A bad cell fails the test.
std::vector<double> numbers(const base::CsvTable& table, const std::string& column);
/// The same for labels and counts.
std::vector<std::size_t> labels(const base::CsvTable& table, const std::string& column);

Values retentionByChild(const base::CsvTable& table);
Values fewSchools(const base::CsvTable& table);
Values compareRabbits(const base::CsvTable& table);
Values compareIsolation(const base::CsvTable& table);
Values compareHolm(const base::CsvTable& table);
Values shrinkageSchools(const base::CsvTable& table);
Values screeningSchools(const base::CsvTable& table);
Values survivalMasses(const base::CsvTable& table);
Values attackRates(const base::CsvTable& table);
Values avertedBounds(const base::CsvTable& table);

} // namespace gk::reference
