#include "estimates/shares/retention_levels.h"

#include "estimates/numbers/checks.h"
#include "estimates/shares/program_share.h"

#include <algorithm>
#include <map>
#include <string>

namespace gk::estimates {
namespace {

base::Result<base::Done> checkRow(const ChildTeeth& row, std::size_t place) {
  const std::string where = "Row " + std::to_string(place);
  if (auto checked = checkWhole(where + ": the count examined", row.examined); !checked)
    return checked;
  if (auto checked = checkWhole(where + ": the count retained", row.retained); !checked)
    return checked;
  return checkPart(where, row.retained, row.examined);
}

std::vector<Cluster> summed(std::span<const ChildTeeth> rows, std::size_t ChildTeeth::*label) {
  std::map<std::size_t, Cluster> sums;
  for (const auto& row : rows) {
    auto& sum = sums.try_emplace(row.*label, Cluster{0, 0}).first->second;
    sum.examined += row.examined;
    sum.retained += row.retained;
  }
  std::vector<Cluster> clusters;
  for (const auto& [name, sum] : sums)
    clusters.push_back(sum);
  return clusters;
}

ClusterLevel chosen(LevelChoice choice, std::size_t schools) {
  switch (choice) {
  case LevelChoice::child:
    return ClusterLevel::child;
  case LevelChoice::school:
    return ClusterLevel::school;
  case LevelChoice::automatic:
    break;
  }
  return programUnits(schools) == ProgramUnits::schools ? ClusterLevel::school
                                                        : ClusterLevel::child;
}

} // namespace

bool LevelledRetention::has(LevelNote note) const {
  return std::find(notes.begin(), notes.end(), note) != notes.end();
}

base::Result<LevelledRetention> retentionByLevel(std::span<const ChildTeeth> rows,
                                                 LevelChoice choice, double level) {
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (auto checked = checkRow(rows[i], i + 1); !checked) return checked.error();
  const auto inChildren = summed(rows, &ChildTeeth::child);
  const auto inSchools = summed(rows, &ChildTeeth::school);
  auto byChild = retention(inChildren, level);
  if (!byChild) return byChild.error();
  auto bySchool = retention(inSchools, level);
  if (!bySchool) return bySchool.error();

  const ClusterLevel used = chosen(choice, bySchool->clusters);
  const bool children = used == ClusterLevel::child;
  LevelledRetention out{used, children ? *byChild : *bySchool, *byChild, *bySchool, {}};
  if (choice == LevelChoice::automatic)
    out.used = *programShare(inChildren, inSchools, programUnits(bySchool->clusters), level);
  else if (children && bySchool->clusters > 1)
    out.notes.push_back(LevelNote::schoolLikenessMissed);
  if (!children && bySchool->effectiveN > byChild->effectiveN)
    out.notes.push_back(LevelNote::schoolsMoreEven);
  return out;
}

} // namespace gk::estimates
