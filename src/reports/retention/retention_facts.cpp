#include "reports/retention/retention_facts.h"

#include "reports/records/term_view.h"
#include "reports/retention/factor_words.h"
#include "reports/retention/sealant_fate.h"

#include <algorithm>
#include <unordered_map>

namespace gk::reports {

namespace {

using chairside::PlacementType;

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
    for (auto& nth = timesCalled_[called]; byIdentity && byLabel_.contains(words);)
      words = called + " (" + std::to_string(++nth + 1) + ")";
    const auto [at, isNew] = byLabel_.try_emplace(words, static_cast<FactorCode>(labels.size()));
    if (isNew) labels.push_back(words);
    byKey_.emplace(key, at->second);
    return at->second;
  }

 private:
  std::unordered_map<FactorKey, FactorCode> byKey_;
  std::unordered_map<std::string, FactorCode> byLabel_;
  std::unordered_map<std::string, int> timesCalled_;
};

/// The records once through; what the rows need only while they are made goes with it.
class FactReader {
 public:
  FactReader(const TermView& view, const RetentionOptions& options)
      : view_(view), options_(options), words_(view_), fates_(view_, options.window) {
    readEarlierTerms();
    readPlacements();
    countChecks();
  }

  std::vector<SealantFact> rows;
  std::array<std::vector<std::string>, base::enumCount<Factor>> labels;
  std::vector<roster::SchoolId> schools;
  std::vector<int> checkedAt;

 private:
  void readPlacements() {
    const auto& term = view_.records.term;
    const auto& placements = view_.records.placements;
    for (std::uint32_t i = 0; i < placements.size(); ++i) {
      const auto& placement = placements[i].value;
      const auto* day = view_.days.find(placement.day);
      if (!day || !isInCohort(i, day->date)) continue;
      const auto opens = day->date.plusMonths(options_.window.fromMonths);
      const auto shuts = day->date.plusMonths(options_.window.untilMonths);
      if (opens > term.end || shuts < term.start) continue;
      const auto fate = fates_.of(i, day->date);
      if (fate.isOld) continue;
      add(placement, i, fate, day->school);
      rows.back().due = opens <= view_.records.asOf;
      rows.back().wasDueBefore = rows.back().due && countedBefore_ && opens <= *countedBefore_;
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

  [[nodiscard]] bool isInCohort(std::uint32_t row, base::Date placedOn) const {
    const auto& placement = view_.records.placements[row].value;
    if (!chairside::countsAsSealant(placement)) return false;
    return !options_.firstPlacementsOnly ||
           (placement.type != PlacementType::reseal && fates_.isFirst(row, placedOn));
  }

  void add(const chairside::Placement& placement, std::uint32_t row, const SealantFate& fate,
           const roster::SchoolId& school) {
    const auto child = children_.try_emplace(placement.child, children_.size()).first->second;
    SealantFact fact{.child = static_cast<std::uint32_t>(child),
                     .placement = row,
                     .check = fate.check,
                     .due = false,
                     .wasDueBefore = false,
                     .isKnownLost = fate.isKnownLost,
                     .isRepaired = fate.isRepaired,
                     .isReported = fate.isReported,
                     .from = fate.from,
                     .type = typeOf(placement.tooth),
                     .held = fate.held,
                     .tooth = fate.tooth,
                     .why = followup::CannotAssess::none,
                     .health = followup::ToothHealth::sound,
                     .code = {}};
    if (fate.check) fact.why = view_.records.checks[*fate.check].value.why;
    // How the tooth is now, and not at the look that first found the sealant lost.
    if (const auto seen = fate.toothCheck ? fate.toothCheck : fate.check; seen)
      fact.health = view_.records.checks[*seen].value.health;
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

  /// The end of an earlier term, or its last clinic day where the end is not at hand: what was due
  /// by then stood in that term's report.
  void readEarlierTerms() {
    countedBefore_ = view_.records.earlierTermsEnd;
    for (const auto& day : view_.records.days)
      if (day.value.term != view_.records.id && !day.value.canceled &&
          day.value.date < view_.records.term.start)
        countedBefore_ = std::max(countedBefore_.value_or(day.value.date), day.value.date);
  }

  const TermView& view_;
  std::optional<base::Date> countedBefore_;
  const RetentionOptions& options_;
  FactorWords words_;
  SealantFates fates_;
  std::unordered_map<roster::ChildId, std::size_t> children_;
  std::array<Codes, base::enumCount<Factor>> codes_;
};

} // namespace

RetentionFacts::RetentionFacts(const TermView& view, const RetentionOptions& options) {
  FactReader reader(view, options);
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
