#include "reports/retention_facts.h"

#include "reports/factor_words.h"
#include "reports/term_view.h"

#include <algorithm>
#include <unordered_map>

namespace gk::reports {

namespace {

using chairside::PlacementType;
using followup::Held;

/// Which check of which placement, by date: the first that could judge it leads.
struct DatedCheck {
  chairside::PlacementId placement;
  base::Date on;
  std::uint32_t row;
};

std::vector<DatedCheck> datedChecks(const TermView& view) {
  std::vector<DatedCheck> out;
  const auto& rows = view.records.checks;
  for (std::uint32_t i = 0; i < rows.size(); ++i) {
    if (rows[i].value.kind != followup::CheckKind::longTerm) continue;
    const auto on = view.dateOf(rows[i].value.day);
    if (on && *on <= view.records.asOf) out.push_back({rows[i].value.placement, *on, i});
  }
  std::ranges::stable_sort(out, {},
                           [](const DatedCheck& one) { return std::pair(one.placement, one.on); });
  return out;
}

ToothType typeOf(const dentition::Tooth& tooth) {
  if (tooth.isFirstPermanentMolar())
    return tooth.isUpper() ? ToothType::upperFirst : ToothType::lowerFirst;
  if (tooth.isSecondPermanentMolar())
    return tooth.isUpper() ? ToothType::upperSecond : ToothType::lowerSecond;
  return ToothType::other;
}

/// People and lights are told apart by who and which they are; two of one label by a number.
bool isByIdentity(Factor factor) {
  return factor == Factor::placedBy || factor == Factor::pair || factor == Factor::light;
}

/// Gives each value a code, in order of first sight. Values of one label share one where the label
/// is all that they are: a lot entered on two laptops is one lot to a report.
class Codes {
 public:
  template <class Label>
  FactorCode of(const FactorKey& key, std::vector<std::string>& labels, bool byIdentity,
                Label label) {
    const auto known = byKey_.find(key);
    if (known != byKey_.end()) return known->second;
    const std::string called = label();
    auto words = called;
    for (int more = 2; byIdentity && std::ranges::find(labels, words) != labels.end(); ++more)
      words = called + " (" + std::to_string(more) + ")";
    const auto at = std::ranges::find(labels, words);
    const auto code = static_cast<FactorCode>(at - labels.begin());
    if (at == labels.end()) {
      base::require(labels.size() < 65'535, "more values of a factor than a code can tell apart");
      labels.push_back(words);
    }
    byKey_.emplace(key, code);
    return code;
  }

 private:
  std::unordered_map<FactorKey, FactorCode> byKey_;
};

/// The records once through; what the rows need only while they are made goes with it.
class FactReader {
 public:
  FactReader(const TermRecords& records, const RetentionOptions& options)
      : view_(records), options_(options), words_(view_), checks_(datedChecks(view_)) {
    readPlacements();
    countChecks();
  }

  std::vector<SealantFact> rows;
  std::array<std::vector<std::string>, base::enumCount<Factor>> labels;
  std::vector<roster::SchoolId> schools;
  std::vector<int> checkedAt;

 private:
  struct Counted {
    std::optional<std::uint32_t> row;
    bool isOld = false; ///< an earlier term has counted it
  };

  void readPlacements() {
    const auto& term = view_.records.term;
    const auto& placements = view_.records.placements;
    for (std::uint32_t i = 0; i < placements.size(); ++i) {
      const auto& placement = placements[i].value;
      const auto* day = view_.days.find(placement.day);
      if (!day || !isInCohort(placement)) continue;
      const auto opens = day->date.plusMonths(options_.window.fromMonths);
      const auto shuts = day->date.plusMonths(options_.window.untilMonths);
      if (opens > term.end || shuts < term.start) continue;
      const auto check = checkOf(placements[i].id, day->date);
      if (check.isOld) continue;
      add(placement, i, check.row, day->school);
      rows.back().due = opens <= view_.records.asOf;
    }
    std::ranges::stable_sort(rows, {}, &SealantFact::child);
  }

  void countChecks() {
    for (const auto& row : view_.records.checks) {
      if (!view_.isOfTerm(row.value.day)) continue;
      const auto code = schoolCode(view_.days.find(row.value.day)->school);
      checkedAt.resize(schools.size());
      ++checkedAt[code];
    }
    checkedAt.resize(schools.size());
  }

  [[nodiscard]] bool isInCohort(const chairside::Placement& placement) const {
    return chairside::countsAsSealant(placement) &&
           (!options_.firstPlacementsOnly || placement.type != PlacementType::reseal);
  }

  [[nodiscard]] Counted checkOf(const chairside::PlacementId& placement,
                                base::Date placedOn) const {
    const auto cannotJudge = [&](std::uint32_t row) {
      return view_.records.checks[row].value.tooth() == Held::cannotAssess;
    };
    Counted counted;
    for (const auto& one :
         std::ranges::equal_range(checks_, placement, {}, &DatedCheck::placement)) {
      if (!followup::isWithin(options_.window, placedOn, one.on)) continue;
      if (one.on < view_.records.term.start) return {std::nullopt, true};
      if (!counted.row || (cannotJudge(*counted.row) && !cannotJudge(one.row)))
        counted.row = one.row;
    }
    return counted;
  }

  void add(const chairside::Placement& placement, std::uint32_t row,
           std::optional<std::uint32_t> check, const roster::SchoolId& school) {
    const auto child = children_.try_emplace(placement.child, children_.size()).first->second;
    SealantFact fact{static_cast<std::uint32_t>(child),
                     row,
                     check,
                     false,
                     typeOf(placement.tooth),
                     Held::notSealed,
                     followup::CannotAssess::none,
                     followup::ToothHealth::sound,
                     {}};
    if (check) {
      const auto& found = view_.records.checks[*check].value;
      fact.held = found.tooth();
      fact.why = found.why;
      fact.health = found.health;
    }
    for (std::size_t i = 0; i < fact.code.size(); ++i) {
      const auto factor = static_cast<Factor>(i);
      fact.code[i] =
          factor == Factor::school
              ? schoolCode(school)
              : codes_[i].of(words_.key(placement, factor), labels[i], isByIdentity(factor),
                             [&] { return words_.label(placement, factor); });
    }
    rows.push_back(fact);
  }

  FactorCode schoolCode(const roster::SchoolId& school) {
    const auto at = std::ranges::find(schools, school);
    const auto code = static_cast<FactorCode>(at - schools.begin());
    if (at == schools.end()) {
      schools.push_back(school);
      labels[static_cast<std::size_t>(Factor::school)].push_back(view_.schoolName(school));
    }
    return code;
  }

  TermView view_;
  const RetentionOptions& options_;
  FactorWords words_;
  std::vector<DatedCheck> checks_;
  std::unordered_map<roster::ChildId, std::size_t> children_;
  std::array<Codes, base::enumCount<Factor>> codes_;
};

} // namespace

RetentionFacts::RetentionFacts(const TermRecords& records, const RetentionOptions& options) {
  FactReader reader(records, options);
  rows_ = std::move(reader.rows);
  labels_ = std::move(reader.labels);
  schools_ = std::move(reader.schools);
  checkedAt_ = std::move(reader.checkedAt);
}

std::optional<FactorCode> RetentionFacts::codeOf(roster::SchoolId school) const {
  const auto at = std::ranges::find(schools_, school);
  if (at == schools_.end()) return std::nullopt;
  return static_cast<FactorCode>(at - schools_.begin());
}

} // namespace gk::reports
