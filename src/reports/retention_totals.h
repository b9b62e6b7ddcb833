#pragma once

#include "estimates/retention.h"
#include "reports/inputs.h"

#include <map>
#include <optional>

namespace gk::reports {

struct RetentionOptions {
  followup::Window window{};
  /// Repairs never enter. First placements are new ones and those that replace an interim cover;
  /// a reseal has its own clock and enters only when this is false.
  bool firstPlacementsOnly = true;
  /// Operators with fewer assessable teeth are not shown (common practice, no source).
  int leastForOperator = 30;
};

enum class Factor { school, light, arch, tooth, isolation, delivery, placedBy, lot };
enum class ClusterUnit { children, schools };

/// Sealants whose check window touches the term, and what the checks in that window found. The
/// cohort leaves out those already checked in their window before the term began. Counts are teeth
/// unless they say children. Of several checks the first that could judge the sealant counts.
struct RetentionLine {
  std::string label;
  int childrenPlaced = 0;
  int placed = 0;
  int childrenDue = 0;
  int due = 0; ///< of placed: the window has opened by the date of the report
  int childrenFound = 0;
  int examined = 0; ///< looked at, whether or not they could be judged
  int assessable = 0;
  int whole = 0;
  int part = 0;
  int lost = 0;
  int cannotAssess = 0;
  std::map<followup::CannotAssess, int> why;
  /// Tooth health at the check, never hidden in "cannot assess" and never called a lost sealant.
  int decayedSince = 0;
  int filledSince = 0;
  int checkedHere = 0; ///< by school alone: checks made at this school this term, whoever placed
  bool hidden = false; ///< too few teeth to show; the counts are blank

  ClusterUnit unit = ClusterUnit::children;                  ///< of both estimates
  std::optional<estimates::RetentionEstimate> whole95;       ///< whole / assessable
  std::optional<estimates::RetentionEstimate> wholeOrPart95; ///< (whole + part) / assessable
};

struct RetentionTotals {
  std::vector<RetentionLine> schools; ///< by placing school
  RetentionLine total; ///< schools are its clusters from `estimates::fewestClusters` on
};

RetentionTotals retentionTotals(const TermRecords& records, const RetentionOptions& options = {});

/// One line for each value of the factor as recorded at placement, by label and never by rate;
/// of one placing school, or of all.
std::vector<RetentionLine> retentionBy(const TermRecords& records, Factor factor,
                                       std::optional<roster::SchoolId> school = std::nullopt,
                                       const RetentionOptions& options = {});

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::Factor> = std::to_array<std::string_view>(
    {"school", "light", "arch", "tooth", "isolation", "delivery", "placed by", "lot"});
template <>
inline constexpr auto gk::base::enumNames<gk::reports::ClusterUnit> =
    std::to_array<std::string_view>({"children", "schools"});
