#pragma once

#include "base/random.h"
#include "reports/decay/finding_measures.h"
#include "reports/term/term_totals.h"

#include <array>
#include <optional>
#include <vector>

namespace gk::test {

/// What became of one child of one school in one term.
struct Drawn {
  std::size_t school = 0;
  int grade = 0;
  bool early = false; ///< seen before the first issue of the term
  bool form = false;
  bool yes = false;
  bool seen = false;
  bool needs = false;
  bool sealed = false;
  bool varnish = false;
  bool resealed = false; ///< at a recheck, not being screened this term
  int first = 0;
  int second = 0;
  int other = 0;
  int urgency = 0;    ///< 1 early care, 2 urgent
  bool toldOf = true; ///< whether there is untreated decay could be told
  std::optional<bool> treated = false;
  std::optional<bool> hadSealants = false;
  std::array<std::size_t, 3> answers{}; ///< to each question of who the children are
  bool referred = false;
  bool reached = false;     ///< a guardian
  bool closedEarly = false; ///< before the first issue
  std::size_t outcome = 0;  ///< of the referral: open, then as followup::ReferralState has them
  /// Looks at the sealed teeth within two months: 1 whole, 2 partial, 3 missing, 4 not assessable.
  std::vector<int> looks{};
};

/// A program drawn child by child: its schools, grades and habits stay, its children change with
/// each term.
class DrawnProgram {
 public:
  explicit DrawnProgram(base::Random& random);

  std::vector<Drawn> drawTerm(const std::vector<Drawn>& before);

  /// Those of a school or grade, or all; at the term's first issue, those seen until then.
  [[nodiscard]] reports::Participation count(const std::vector<Drawn>& children, bool firstIssue,
                                             std::optional<std::size_t> school,
                                             std::optional<int> grade) const;
  [[nodiscard]] static reports::StudentCounts students(const std::vector<Drawn>& children,
                                                       bool firstIssue);
  [[nodiscard]] static reports::EarlyChecks shortTerm(const std::vector<Drawn>& children,
                                                      bool firstIssue);
  [[nodiscard]] static std::vector<reports::SeenChild> seen(const std::vector<Drawn>& children,
                                                            bool firstIssue);
  /// The checks of those sealed in `before`.
  reports::RetentionLine check(const std::vector<Drawn>& before, std::size_t school);

  [[nodiscard]] std::size_t schools() const { return schools_; }
  [[nodiscard]] int lowestGrade() const { return lowestGrade_; }
  [[nodiscard]] int highestGrade() const { return lowestGrade_ + grades_ - 1; }
  std::size_t below(std::size_t bound) { return static_cast<std::size_t>(random_.below(bound)); }

 private:
  Drawn drawChild(std::size_t school, double forms, double decay, double missed, double unsealed);
  void drawCare(Drawn& one);
  void drawReseals(std::vector<Drawn>& children, const std::vector<Drawn>& before);
  void look(reports::RetentionLine& at);

  base::Random& random_;
  std::size_t schools_;
  int lowestGrade_;
  int grades_;
  bool hasSeconds_;
  bool eachHasFirst_;
  bool cohortIsWhole_;
  bool isSure_; ///< decay can be told of every child
  bool refersAll_;
  bool looksSoon_; ///< at some of the sealants within two months
  bool reseals_;   ///< some sealed last term without a screening this term
  std::vector<int> sizes_;
};

} // namespace gk::test
