#include "reports/term/participation.h"

#include "reports/records/term_view.h"

#include <algorithm>
#include <set>

namespace gk::reports {

namespace {

using chairside::DayEnd;

/// The newest count of each grade, summed.
std::map<roster::SchoolId, int> enrollments(const TermView& view) {
  std::map<std::pair<roster::SchoolId, std::string>, const base::Recorded<roster::Enrollment>*>
      last;
  for (const auto& row : view.records.enrollments) {
    if (row.value.term != view.records.id) continue;
    auto& kept = last[{row.value.school, row.value.grade}];
    if (!kept || kept->stamp.entry < row.stamp.entry) kept = &row;
  }
  std::map<roster::SchoolId, int> sums;
  for (const auto& [key, row] : last)
    sums[key.first] += row->value.students;
  return sums;
}

int& waysNotScreened(Participation& at, const chairside::DayOutcome* last, bool hasLeft) {
  if (!last) return hasLeft ? at.left : at.stillToSee;
  switch (last->end) {
  case DayEnd::absent:
    return at.absent;
  case DayEnd::declined:
    return at.declined;
  case DayEnd::leftSchool:
    return at.left;
  case DayEnd::withdrawn:
    return at.withdrawn;
  case DayEnd::onHold:
    return at.onHold;
  case DayEnd::notReached:
    return at.notReached;
  case DayEnd::sealedComplete:
  case DayEnd::sealedUnfinished:
  case DayEnd::screenedNoneNeeded:
  case DayEnd::screenedNotTreated:
  case DayEnd::recheckOnly:
    return at.seenOnly;
  }
  base::fail("no such outcome");
}

class Counter {
 public:
  explicit Counter(const TermView& view) : view_(view), forms_(view.records.consents) {
    for (const auto& row : view.records.days)
      if (view.isOfTerm(row.id)) dates_[row.value.school].insert(row.value.date);
    for (const auto& row : view.records.overrides)
      if (row.value.on >= view.records.term.start && row.value.on <= view.records.asOf)
        overridden_.insert(row.value.child);
    today_ = std::clamp(view.records.asOf, view.records.term.start, view.records.term.end);
  }

  void count(const roster::ChildId& id, const roster::Child& child, Participation& at) const {
    const bool screened = view_.screenings.has(id);
    const bool yes = hasYes(id, child.school);
    if (yes || hasForm(id)) ++at.formsBack;
    if (yes || screened) ++at.consented;
    if (screened && !yes && overridden_.contains(id)) ++at.underOverride;
    if (screened)
      ++at.screened;
    else if (yes)
      ++waysNotScreened(at, lastOutcome(id), roster::hasLeft(child, view_.records.asOf));
    findings(id, at);
    services(id, at);
    at.visits += visits(id);
  }

 private:
  [[nodiscard]] bool hasForm(const roster::ChildId& id) const {
    return std::ranges::any_of(forms_.of(id), [&](const auto& row) {
      return view_.records.isFormOf(row.value.term) &&
             row.value.state != roster::ConsentState::notReturned;
    });
  }

  /// A yes of this term that stands on a day of the child's school, or on the date of the report.
  /// Last year's form for two years lets a child be rechecked, but no one was asked this year: it
  /// would lift the share of consent over the students that the forms went to.
  [[nodiscard]] bool hasYes(const roster::ChildId& id, const roster::SchoolId& school) const {
    const auto& forms = forms_.of(id);
    const bool askedNow = std::ranges::any_of(forms, [&](const auto& row) {
      return view_.records.isFormOf(row.value.term) && saysYes(row.value.state);
    });
    if (!askedNow) return false;
    const auto yesOn = [&](base::Date on) {
      return saysYes(roster::standing(forms, roster::Service::screening, on).state);
    };
    const auto at = dates_.find(school);
    return yesOn(*today_) || (at != dates_.end() && std::ranges::any_of(at->second, yesOn));
  }

  [[nodiscard]] const chairside::DayOutcome* lastOutcome(const roster::ChildId& id) const {
    const auto& rows = view_.outcomes.of(id);
    if (rows.empty()) return nullptr;
    const auto* last = *std::ranges::max_element(rows, {}, [&](const auto* row) {
      return std::pair(view_.dateOf(row->value.day), row->stamp.entry);
    });
    return &last->value;
  }

  void findings(const roster::ChildId& id, Participation& at) const {
    if (!view_.screenings.has(id)) return; // what was done without one says nothing of need
    bool needs = isSealed(id);             // as a recheck found, where no screening chose the tooth
    bool untreated = false;
    bool told = false;
    auto urgency = chairside::Urgency::none;
    for (const auto* row : view_.screenings.of(id)) {
      needs = needs || chairside::needsSealant(row->value);
      untreated = untreated || row->value.untreatedDecay == chairside::Tri::yes;
      told = told || row->value.untreatedDecay != chairside::Tri::cannotTell;
      urgency = std::max(urgency, row->value.urgency);
    }
    at.needing += needs ? 1 : 0;
    at.untreated += untreated ? 1 : 0;
    at.couldNotTell += told ? 0 : 1;
    at.early += urgency == chairside::Urgency::early ? 1 : 0;
    at.urgent += urgency == chairside::Urgency::urgent ? 1 : 0;
  }

  [[nodiscard]] bool isSealed(const roster::ChildId& id) const {
    return std::ranges::any_of(view_.placements.of(id), [](const auto* row) {
      return chairside::countsAsSealant(row->value);
    });
  }

  void services(const roster::ChildId& id, Participation& at) const {
    const bool screened = view_.screenings.has(id);
    if (view_.varnishes.has(id)) {
      ++at.varnish;
      if (!screened) ++at.varnishUnscreened;
    }
    std::map<dentition::Tooth, dentition::SurfaceSet> sealed;
    for (const auto* row : view_.placements.of(id)) {
      if (!chairside::countsAsSealant(row->value)) continue;
      auto& surfaces = sealed[row->value.tooth];
      surfaces = surfaces.with(row->value.surfaces);
    }
    if (sealed.empty()) return;
    ++at.sealed;
    if (!screened) ++at.sealedUnscreened;
    const auto* last = lastOutcome(id);
    if (last && last->end == DayEnd::sealedUnfinished) ++at.unfinished;
    for (const auto& [tooth, surfaces] : sealed) {
      at.surfaces += static_cast<int>(surfaces.size());
      if (tooth.isFirstPermanentMolar())
        ++at.firstMolars;
      else if (tooth.isSecondPermanentMolar())
        ++at.secondMolars;
      else
        ++at.otherTeeth;
    }
  }

  [[nodiscard]] int visits(const roster::ChildId& id) const {
    std::set<roster::DayId> days;
    const auto addAll = [&](const auto& perChild) {
      for (const auto* row : perChild.of(id))
        days.insert(row->value.day);
    };
    addAll(view_.seatings);
    addAll(view_.screenings);
    addAll(view_.placements);
    addAll(view_.varnishes);
    addAll(view_.checks);
    return static_cast<int>(days.size());
  }

  const TermView& view_;
  Forms forms_;
  std::map<roster::SchoolId, std::set<base::Date>> dates_;
  std::set<roster::ChildId> overridden_;
  std::optional<base::Date> today_;
};

void add(Participation& sum, const Participation& one) {
  for (auto member : {&Participation::formsBack,
                      &Participation::consented,
                      &Participation::underOverride,
                      &Participation::screened,
                      &Participation::absent,
                      &Participation::declined,
                      &Participation::left,
                      &Participation::withdrawn,
                      &Participation::onHold,
                      &Participation::notReached,
                      &Participation::seenOnly,
                      &Participation::stillToSee,
                      &Participation::needing,
                      &Participation::sealed,
                      &Participation::unfinished,
                      &Participation::firstMolars,
                      &Participation::secondMolars,
                      &Participation::otherTeeth,
                      &Participation::surfaces,
                      &Participation::varnish,
                      &Participation::untreated,
                      &Participation::couldNotTell,
                      &Participation::early,
                      &Participation::urgent,
                      &Participation::days,
                      &Participation::visits,
                      &Participation::sealedUnscreened,
                      &Participation::varnishUnscreened})
    sum.*member += one.*member;
}

} // namespace

std::optional<double> Participation::childrenPerDay() const {
  if (days == 0) return std::nullopt;
  return static_cast<double>(screened) / days;
}

std::optional<double> Participation::teethPerChild() const {
  if (sealed == 0) return std::nullopt;
  return static_cast<double>(teeth()) / sealed;
}

Participation sumOf(const std::vector<Participation>& schools) {
  Participation sum;
  sum.school = "Total";
  sum.enrolled = 0;
  for (const auto& one : schools) {
    add(sum, one);
    if (!one.enrolled)
      sum.enrolled.reset();
    else if (sum.enrolled)
      *sum.enrolled += *one.enrolled;
  }
  return sum;
}

std::vector<ChildShare> participationByChild(const TermView& view) {
  const Counter counter(view);
  std::vector<ChildShare> out;
  out.reserve(view.records.children.size());
  for (const auto& row : view.records.children) {
    auto& share = out.emplace_back(ChildShare{row.id, row.value.school, {}});
    counter.count(row.id, row.value, share.counts);
  }
  return out;
}

std::vector<Participation> participation(const TermView& view) {
  std::map<roster::SchoolId, Participation> schools;
  for (const auto& row : view.records.schools)
    schools[row.id];
  for (const auto& share : participationByChild(view))
    add(schools[share.school], share.counts);
  for (const auto& row : view.records.days)
    if (view.isOfTerm(row.id)) ++schools[row.value.school].days;
  for (const auto& [school, students] : enrollments(view))
    schools[school].enrolled = students;

  std::vector<Participation> out;
  for (auto& [id, one] : schools) {
    one.school = view.schoolName(id);
    one.id = id;
    out.push_back(std::move(one));
  }
  std::ranges::stable_sort(out, {}, &Participation::school);
  return out;
}

} // namespace gk::reports
