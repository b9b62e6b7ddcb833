#pragma once

#include "base/enum_names.h"
#include "reports/records/term_view.h"

#include <array>
#include <optional>

namespace gk::reports {

struct RetentionOptions {
  followup::Window window{};
  /// Repairs never enter. First placements are new ones and those that replace an interim cover, on
  /// a tooth where no sealant of ours was; a reseal has its own clock and enters only when this is
  /// false.
  bool firstPlacementsOnly = true;
  /// Operators with fewer assessable teeth are not shown (common practice, no source).
  int leastForOperator = 30;
};

/// What a sealant can be counted by, as recorded when it was placed; `grade` is the child's now.
enum class Factor {
  school,
  light,
  arch,
  tooth,
  isolation,
  delivery,
  placedBy,
  lot,
  pair,     ///< operator and assistant
  wet,      ///< whether anything wet was noted between start and check
  holding,  ///< who held cheek and tongue back
  guards,   ///< whether all four were had that keep a field dry
  eruption, ///< at the screening of the day it was placed, as `enamel`
  enamel,   ///< hypomineralized or not
  grade
};

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::Factor> = std::to_array<std::string_view>(
    {"school", "light", "arch", "tooth", "isolation", "delivery", "operator", "lot",
     "operator pair", "contamination", "cheek and tongue held by", "dry field guards",
     "eruption at placement", "hypomineralised enamel", "grade"});

namespace gk::reports {

using FactorCode = std::uint32_t;

/// Retention differs by type of tooth, so comparisons are made within types.
enum class ToothType { upperFirst, lowerFirst, upperSecond, lowerSecond, other };

/// How it is known what became of a sealant.
enum class HeldFrom : std::uint8_t {
  unknown,     ///< its child was not found in the window, or no one judged this one
  look,        ///< a look in the window
  earlierLook, ///< the child was found; an earlier look had found it lost
  reseal       ///< the child was found; the tooth had been sealed again
};

/// One sealant of the cohort with what became of it, in 64 bytes: a term is counted again on every
/// choice, and the cohort may hold a million.
struct SealantFact {
  std::uint32_t child;                ///< rows of one child stand together
  std::uint32_t placement;            ///< its place in the records
  std::optional<std::uint32_t> check; ///< likewise, of the look that says so
  bool due;                           ///< the window has opened by the date of the report
  bool wasDueBefore;                  ///< in an earlier term already, and not judged then
  bool isKnownLost;                   ///< by the end of its window, its child found or not
  bool isRepaired;                    ///< `part`, repaired since, and whole at the check
  bool isReported;                    ///< looked at, by then, because a loss was reported
  HeldFrom from;
  ToothType type;
  followup::Held held;        ///< this very sealant; `notSealed` while its child was not found
  followup::Held tooth;       ///< whatever is on the tooth now, reseals included; likewise
  followup::CannotAssess why; ///< of `check`
  followup::ToothHealth health;
  std::array<FactorCode, base::enumCount<Factor>> code;

  [[nodiscard]] FactorCode at(Factor factor) const {
    return code[static_cast<std::size_t>(factor)];
  }
  [[nodiscard]] bool isExamined() const { return from != HeldFrom::unknown; }
  [[nodiscard]] bool isToothSeen() const { return tooth != followup::Held::notSealed; }
  [[nodiscard]] bool isAssessable() const {
    return held == followup::Held::whole || held == followup::Held::part ||
           held == followup::Held::lost;
  }
};

/// Which sealants to count: those that have every code that is given.
struct Choice {
  std::array<std::optional<FactorCode>, base::enumCount<Factor>> only{};

  [[nodiscard]] std::optional<FactorCode>& of(Factor factor) {
    return only[static_cast<std::size_t>(factor)];
  }
  [[nodiscard]] bool takes(const SealantFact& fact) const {
    for (std::size_t i = 0; i < only.size(); ++i)
      if (only[i] && *only[i] != fact.code[i]) return false;
    return true;
  }
};

/// The sealants whose check window touches the term, and what became of each (see SealantFate).
/// Left out are those already judged in their window before the term began. Of several checks the
/// first that could judge the sealant counts. Keeps no pointer into the records.
class RetentionFacts {
 public:
  explicit RetentionFacts(const TermView& view, const RetentionOptions& options = {});

  [[nodiscard]] const std::vector<SealantFact>& rows() const { return rows_; }
  /// One for each code; two schools of one name have two codes and one label.
  [[nodiscard]] const std::vector<std::string>& labels(Factor factor) const {
    return labels_[static_cast<std::size_t>(factor)];
  }
  /// By code of Factor::school; also those where checks were made and nothing was placed.
  [[nodiscard]] const std::vector<roster::SchoolId>& schools() const { return schools_; }
  /// Checks made at each school this term, whoever placed the sealant; by code.
  [[nodiscard]] const std::vector<int>& checkedAt() const { return checkedAt_; }
  [[nodiscard]] std::optional<FactorCode> codeOf(roster::SchoolId school) const;

 private:
  std::vector<SealantFact> rows_;
  std::array<std::vector<std::string>, base::enumCount<Factor>> labels_;
  std::vector<roster::SchoolId> schools_;
  std::vector<int> checkedAt_;
};

} // namespace gk::reports
