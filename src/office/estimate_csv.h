#pragma once

#include "base/result.h"
#include "estimates/attack_rate.h"
#include "estimates/retention.h"

#include <string_view>
#include <vector>

namespace gk::office {

struct RetentionCounts {
  std::vector<estimates::Cluster> clusters;
  std::size_t children; ///< with at least one tooth examined
};

/// A table with the columns child, examined and retained, whole counts; rows of one child are
/// added up. With a column cluster (such as the school) the clusters are those, and a child is in
/// one of them. Fails with `csvMalformed` for a table or a cell that cannot be read and with
/// `estimateInput` for counts that cannot be, each naming line and column.
base::Result<RetentionCounts> readRetention(std::string_view csv);

/// A table with the columns child, exposure (years, may be negative), examined and affected. Fails
/// as readRetention.
base::Result<std::vector<estimates::Exposure>> readExposures(std::string_view csv);

} // namespace gk::office
