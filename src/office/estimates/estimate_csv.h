#pragma once

#include "base/result.h"
#include "estimates/attack_rate/attack_rate.h"
#include "estimates/compare/comparison.h"
#include "estimates/compare/funnel.h"
#include "estimates/shares/retention.h"
#include "estimates/survival/survival_spell.h"

#include <string>
#include <string_view>
#include <vector>

namespace gk::office {

/// Every reader fails with `csvMalformed` for a table or a cell that cannot be read and with
/// `estimateInput` for what cannot be, each naming line and column. Further columns are passed
/// over, in any order.

struct RetentionCounts {
  std::vector<estimates::Cluster> clusters;
  std::size_t children;         ///< with at least one tooth examined
  std::size_t repeatedRows = 0; ///< of a child that an earlier line named
};

/// A table with the columns child, examined and retained, whole counts; rows of one child are
/// added up. With a column cluster (such as the school) the clusters are those, and a child is in
/// one of them.
base::Result<RetentionCounts> readRetention(std::string_view csv);

/// A table with the columns child, exposure (years, may be negative), examined and affected.
struct Exposures {
  std::vector<estimates::Exposure> rows;
  std::size_t repeatedRows = 0; ///< of a child and an exposure that an earlier line named
};
base::Result<Exposures> readExposures(std::string_view csv);

/// A table with the columns left and right, one sealant a row in any one unit of time: last seen
/// whole (0 when never), and first seen failed (empty while it has not). Equal rows come out as one
/// spell of several teeth; which child a tooth is of is not kept.
base::Result<std::vector<estimates::Spell>> readSpells(std::string_view csv);

struct NamedStrata {
  std::vector<std::string> names;
  std::vector<estimates::Stratum> strata;
  std::size_t repeatedRows = 0; ///< of a stratum that an earlier line named
};

/// A table with the columns stratum, exposed_kept, exposed_lost, other_kept and other_lost, whole
/// counts; rows of one stratum are added up.
base::Result<NamedStrata> readStrata(std::string_view csv);

struct NamedUnits {
  std::vector<std::string> names;
  std::vector<estimates::Unit> units;
  std::size_t repeatedRows = 0; ///< of a unit that an earlier line named
};

/// A table with the columns unit, examined and retained; counts may be fractional. Rows of one
/// unit are added up.
base::Result<NamedUnits> readUnits(std::string_view csv);

/// A table with the column n: numbers of teeth, above 0 and up to a million.
base::Result<std::vector<double>> readSizes(std::string_view csv);

} // namespace gk::office
