#include "reports/retention_totals.h"

#include "reports/term_view.h"
#include "reports/words.h"

#include <algorithm>
#include <set>

namespace gk::reports {

namespace {

using chairside::PlacementType;
using followup::Held;

/// A sealant of the cohort with the check that counts, if any.
struct Followed {
  const chairside::Placement* placement;
  roster::SchoolId school; ///< that placed it
  bool due;
  const followup::RetentionCheck* check;
};

bool isInCohort(const chairside::Placement& placement, const RetentionOptions& options) {
  return chairside::countsAsSealant(placement) &&
         (!options.firstPlacementsOnly || placement.type != PlacementType::reseal);
}

class Cohort {
 public:
  Cohort(const TermView& view, const RetentionOptions& options) : view_(view), options_(options) {
    for (const auto& row : view.records.checks)
      if (row.value.kind == followup::CheckKind::longTerm)
        checks_[row.value.placement].push_back(&row);
    for (const auto& row : view.records.placements)
      follow(row);
  }

  [[nodiscard]] const std::vector<Followed>& all() const { return followed_; }

 private:
  void follow(const base::Recorded<chairside::Placement>& row) {
    const auto* day = view_.days.find(row.value.day);
    if (!day || !isInCohort(row.value, options_)) return;
    const auto& term = view_.records.term;
    const auto opens = day->date.plusMonths(options_.window.fromMonths);
    const auto shuts = day->date.plusMonths(options_.window.untilMonths);
    if (opens > term.end || shuts < term.start) return;

    const followup::RetentionCheck* first = nullptr;
    const auto at = checks_.find(row.id);
    if (at != checks_.end()) {
      for (const auto* check : inWindow(at->second, day->date)) {
        if (*view_.dateOf(check->day) < term.start) return; // an earlier term has counted it
        if (!first ||
            (first->tooth() == Held::cannotAssess && check->tooth() != Held::cannotAssess))
          first = check;
      }
    }
    followed_.push_back({&row.value, day->school, opens <= view_.records.asOf, first});
  }

  /// By date of the check.
  [[nodiscard]] std::vector<const followup::RetentionCheck*>
  inWindow(const std::vector<const base::Recorded<followup::RetentionCheck>*>& rows,
           base::Date placedOn) const {
    std::vector<const followup::RetentionCheck*> out;
    for (const auto* row : rows) {
      const auto on = view_.dateOf(row->value.day);
      if (on && *on <= view_.records.asOf && followup::isWithin(options_.window, placedOn, *on))
        out.push_back(&row->value);
    }
    std::ranges::stable_sort(out, {}, [&](const auto* check) { return *view_.dateOf(check->day); });
    return out;
  }

  const TermView& view_;
  const RetentionOptions& options_;
  std::map<chairside::PlacementId, std::vector<const base::Recorded<followup::RetentionCheck>*>>
      checks_;
  std::vector<Followed> followed_;
};

struct Tally {
  double assessable = 0;
  double whole = 0;
  double part = 0;
};

/// Adds sealants up to one line; clusters by child, and by school for the total.
class LineBuilder {
 public:
  void add(const Followed& one) {
    const auto& child = one.placement->child;
    ++line_.placed;
    placed_.insert(child);
    if (one.due) {
      ++line_.due;
      due_.insert(child);
    }
    if (!one.check) return;
    found_.insert(child);
    ++line_.examined;
    judge(*one.check, byChild_[child], bySchool_[one.school]);
  }

  [[nodiscard]] RetentionLine finish(std::string label, bool mayUseSchools) {
    line_.label = std::move(label);
    line_.childrenPlaced = static_cast<int>(placed_.size());
    line_.childrenDue = static_cast<int>(due_.size());
    line_.childrenFound = static_cast<int>(found_.size());
    const auto schools =
        std::ranges::count_if(bySchool_, [](const auto& one) { return one.second.assessable > 0; });
    if (mayUseSchools && static_cast<std::size_t>(schools) >= estimates::fewestClusters)
      line_.unit = ClusterUnit::schools;
    if (line_.assessable > 0) {
      line_.whole95 = estimate(false);
      line_.wholeOrPart95 = estimate(true);
    }
    return line_;
  }

 private:
  void judge(const followup::RetentionCheck& check, Tally& child, Tally& school) {
    if (check.health == followup::ToothHealth::cavitated) ++line_.decayedSince;
    if (check.health == followup::ToothHealth::restored) ++line_.filledSince;
    const auto held = check.tooth();
    if (held == Held::cannotAssess || held == Held::notSealed) {
      ++line_.cannotAssess;
      ++line_.why[check.why];
      return;
    }
    ++line_.assessable;
    if (held == Held::whole)
      ++line_.whole;
    else if (held == Held::part)
      ++line_.part;
    else
      ++line_.lost;
    for (auto* tally : {&child, &school}) {
      tally->assessable += 1;
      tally->whole += held == Held::whole ? 1 : 0;
      tally->part += held == Held::part ? 1 : 0;
    }
  }

  [[nodiscard]] std::optional<estimates::RetentionEstimate> estimate(bool withPart) const {
    std::vector<estimates::Cluster> clusters;
    const auto addAll = [&](const auto& tallies) {
      for (const auto& [key, tally] : tallies)
        clusters.push_back({tally.assessable, tally.whole + (withPart ? tally.part : 0)});
    };
    if (line_.unit == ClusterUnit::schools)
      addAll(bySchool_);
    else
      addAll(byChild_);
    return *estimates::retention(clusters); // whole counts, at least one: nothing to refuse
  }

  RetentionLine line_;
  std::set<roster::ChildId> placed_;
  std::set<roster::ChildId> due_;
  std::set<roster::ChildId> found_;
  std::map<roster::ChildId, Tally> byChild_;
  std::map<roster::SchoolId, Tally> bySchool_;
};

class Labels {
 public:
  explicit Labels(const TermView& view)
      : view_(view), lights_(view.records.lights), lots_(view.records.lots),
        members_(view.records.members) {}

  [[nodiscard]] std::string of(const Followed& one, Factor factor) const {
    const auto& placement = *one.placement;
    switch (factor) {
    case Factor::school:
      return view_.schoolName(one.school);
    case Factor::light: {
      if (!placement.light) return "no light";
      const auto* light = lights_.find(*placement.light);
      return light ? light->tag : "light not on the list";
    }
    case Factor::arch:
      return placement.tooth.isUpper() ? "upper" : "lower";
    case Factor::tooth:
      return placement.tooth.shown(view_.records.notation);
    case Factor::isolation:
      return named(placement.isolation);
    case Factor::delivery:
      return placement.fourHanded ? "four-handed" : "two-handed";
    case Factor::placedBy: {
      const auto* member = members_.find(placement.placedBy);
      return member ? member->initials : "member not on the list";
    }
    case Factor::lot: {
      const auto* lot = lots_.find(placement.sealant);
      return lot ? kit::shown(*lot) : "lot not on the list";
    }
    }
    base::fail("no such factor");
  }

 private:
  const TermView& view_;
  Lookup<kit::Light> lights_;
  Lookup<kit::Lot> lots_;
  Lookup<roster::Member> members_;
};

RetentionLine hiddenLine(std::string label) {
  RetentionLine line;
  line.label = std::move(label);
  line.hidden = true;
  return line;
}

} // namespace

RetentionTotals retentionTotals(const TermRecords& records, const RetentionOptions& options) {
  const TermView view(records);
  const Cohort cohort(view, options);
  std::map<roster::SchoolId, LineBuilder> schools;
  std::map<roster::SchoolId, int> checkedAt;
  LineBuilder total;
  for (const auto& one : cohort.all()) {
    schools[one.school].add(one);
    total.add(one);
  }
  int checkedThisTerm = 0;
  for (const auto& row : records.checks) {
    if (!view.isOfTerm(row.value.day)) continue;
    const auto school = view.days.find(row.value.day)->school;
    schools[school]; // a line even where nothing was placed
    ++checkedAt[school];
    ++checkedThisTerm;
  }

  RetentionTotals out;
  for (auto& [id, builder] : schools) {
    out.schools.push_back(builder.finish(view.schoolName(id), false));
    out.schools.back().checkedHere = checkedAt[id];
  }
  std::ranges::stable_sort(out.schools, {}, &RetentionLine::label);
  out.total = total.finish("Total", true);
  out.total.checkedHere = checkedThisTerm;
  return out;
}

std::vector<RetentionLine> retentionBy(const TermRecords& records, Factor factor,
                                       std::optional<roster::SchoolId> school,
                                       const RetentionOptions& options) {
  const TermView view(records);
  const Cohort cohort(view, options);
  const Labels labels(view);
  std::map<std::string, LineBuilder> lines;
  for (const auto& one : cohort.all())
    if (!school || one.school == *school) lines[labels.of(one, factor)].add(one);
  std::vector<RetentionLine> out;
  for (auto& [label, builder] : lines) {
    auto line = builder.finish(label, false);
    const bool tooFew = factor == Factor::placedBy && line.assessable < options.leastForOperator;
    out.push_back(tooFew ? hiddenLine(label) : std::move(line));
  }
  return out;
}

} // namespace gk::reports
