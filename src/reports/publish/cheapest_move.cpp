#include "reports/publish/cheapest_move.h"

#include "base/contract.h"

#include <glpk.h>

#include <algorithm>
#include <cmath>

namespace gk::reports {

namespace {

constexpr double isWhole = 1e-6;
constexpr int mostPivots = 20'000;
constexpr int mostBranches = 300;
/// A table this much dearer than the cheapest is as good.
constexpr double nearEnough = .1;

int numberOf(std::size_t i) {
  return static_cast<int>(i) + 1; // GLPK counts from 1
}

void stopAtLast(glp_tree* tree, void* /*info*/) {
  int made = 0;
  glp_ios_tree_size(tree, nullptr, nullptr, &made);
  if (made > mostBranches) glp_ios_terminate(tree);
}

/// GLPK keeps an environment for each thread; the last problem of a thread takes it away.
class Environment {
 public:
  Environment() { ++users; }
  ~Environment() {
    if (--users == 0) glp_free_env();
  }
  Environment(const Environment&) = delete;
  Environment& operator=(const Environment&) = delete;

 private:
  static inline thread_local int users = 0;
};

} // namespace

/// Each movable is two columns: how far up, and behind those how far down.
struct Moves::Problem {
  explicit Problem(std::size_t movables) : count(movables), movable(movables) {
    glp_set_obj_dir(lp, GLP_MIN);
    if (count > 0) glp_add_cols(lp, static_cast<int>(2 * count));
    for (std::size_t j = 0; j < 2 * count; ++j) {
      glp_set_col_kind(lp, numberOf(j), GLP_IV);
      glp_set_col_bnds(lp, numberOf(j), GLP_FX, 0, 0);
    }
  }
  ~Problem() { glp_delete_prob(lp); }
  Problem(const Problem&) = delete;
  Problem& operator=(const Problem&) = delete;

  void bound(std::size_t column, double least, double most) const {
    const int kind = least == most ? GLP_FX : std::isinf(most) ? GLP_LO : GLP_DB;
    glp_set_col_bnds(lp, numberOf(column), kind, least, std::isinf(most) ? 0 : most);
  }

  [[nodiscard]] bool isSolved() const {
    glp_smcp how;
    glp_init_smcp(&how);
    how.msg_lev = GLP_MSG_OFF;
    how.it_lim = mostPivots;
    if (glp_simplex(lp, &how) != 0) { // the basis left by the last question does not do
      glp_std_basis(lp);
      if (glp_simplex(lp, &how) != 0) return false;
    }
    return glp_get_status(lp) == GLP_OPT;
  }

  [[nodiscard]] bool isBranched() const {
    glp_iocp how;
    glp_init_iocp(&how);
    how.msg_lev = GLP_MSG_OFF;
    how.mip_gap = nearEnough;
    how.cb_func = stopAtLast;
    // Gomory's cuts find at the root what branching alone has given up on after `mostBranches`.
    how.gmi_cuts = GLP_ON;
    glp_intopt(lp, &how);
    const int status = glp_mip_status(lp);
    return status == GLP_OPT || status == GLP_FEAS;
  }

  /// Up less down; none where the solution has fractions.
  template <class ValueOf>
  [[nodiscard]] std::optional<std::vector<int>> changes(ValueOf valueOf) const {
    std::vector<int> out;
    out.reserve(count);
    for (std::size_t j = 0; j < count; ++j) {
      const double by = valueOf(lp, numberOf(j)) - valueOf(lp, numberOf(count + j));
      if (std::fabs(by - std::round(by)) > isWhole) return std::nullopt;
      out.push_back(static_cast<int>(std::lround(by)));
    }
    return out;
  }

  Environment environment;
  std::size_t count;
  std::vector<Movable> movable;
  std::vector<Balance> balances;
  glp_prob* lp = glp_create_prob();
};

Moves::Moves(std::size_t movables, std::span<const Balance> balances)
    : problem_(std::make_unique<Problem>(movables)) {
  auto& problem = *problem_;
  problem.balances.assign(balances.begin(), balances.end());
  if (!balances.empty()) glp_add_rows(problem.lp, static_cast<int>(balances.size()));
  for (std::size_t i = 0; i < balances.size(); ++i) {
    glp_set_row_bnds(problem.lp, numberOf(i), GLP_FX, 0, 0);
    std::vector<int> columns{0};
    std::vector<double> weights{0};
    for (const auto& [which, weight] : balances[i])
      for (const bool isUp : {true, false}) {
        columns.push_back(numberOf(isUp ? which : problem.count + which));
        weights.push_back(isUp ? weight : -weight);
      }
    glp_set_mat_row(problem.lp, numberOf(i), static_cast<int>(columns.size()) - 1, columns.data(),
                    weights.data());
  }
}

Moves::~Moves() = default;

void Moves::allow(std::size_t which, const Movable& movable) {
  auto& problem = *problem_;
  problem.movable.at(which) = movable;
  for (const bool isUp : {true, false}) {
    const auto column = isUp ? which : problem.count + which;
    problem.bound(column, 0, std::max(0.0, isUp ? movable.up : movable.down));
    glp_set_obj_coef(problem.lp, numberOf(column), movable.cost);
  }
}

std::optional<std::vector<int>> Moves::cheapest(std::size_t which, int wanted) {
  auto& problem = *problem_;
  const auto& own = problem.movable.at(which);
  if (wanted > own.up || -wanted > own.down) return std::nullopt;
  problem.bound(which, std::max(wanted, 0), std::max(wanted, 0));
  problem.bound(problem.count + which, std::max(-wanted, 0), std::max(-wanted, 0));
  std::optional<std::vector<int>> found;
  if (problem.isSolved()) {
    found = problem.changes(glp_get_col_prim);
    if (!found && problem.isBranched()) found = problem.changes(glp_mip_col_val);
  }
  allow(which, Movable(own));
  // Not the solver's word, but the table itself says that every balance is kept.
  if (found)
    for (const auto& balance : problem.balances) {
      double left = 0;
      for (const auto& [movable, weight] : balance)
        left += weight * (*found)[movable];
      if (std::fabs(left) > isWhole) return std::nullopt;
    }
  return found;
}

} // namespace gk::reports
