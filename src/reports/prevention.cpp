#include "reports/prevention.h"

#include "dentition/eruption.h"
#include "reports/term_view.h"

#include <algorithm>
#include <set>

namespace gk::reports {

namespace {

using chairside::Condition;
using chairside::Presence;
using chairside::ToothFinding;

template <class Claim>
bool anySurface(const ToothFinding& finding, Claim claim) {
  return std::ranges::any_of(
      base::EnumSet<dentition::Surface>::all().values(),
      [&](dentition::Surface surface) { return claim(finding.at(surface)); });
}

bool isUp(const ToothFinding& finding) {
  return (finding.presence == Presence::erupted || finding.presence == Presence::partlyErupted) &&
         anySurface(finding, [](const auto& at) { return at.condition != Condition::notLookedAt; });
}

bool looksEverSealed(const ToothFinding& finding) {
  return anySurface(finding, [](const auto& at) {
    return at.condition == Condition::sealedWhole || at.condition == Condition::sealedPart ||
           at.origin != chairside::Origin::notSealed;
  });
}

bool isAffected(const ToothFinding& finding) {
  return finding.hasAny(Condition::cavitated) || finding.hasAny(Condition::restored) ||
         finding.hasAny(Condition::crowned);
}

double eruptionAge(const dentition::Tooth& tooth, dentition::Sex sex) {
  const bool known = sex == dentition::Sex::female || sex == dentition::Sex::male;
  const auto window = dentition::eruptionWindow(tooth, sex);
  return known && window ? window->mean : estimates::defaultEruptionAge;
}

class Exposures {
 public:
  Exposures(const TermView& view, AttackRateReport& report) : view_(view), report_(report) {
    for (const auto& row : view.records.placements) {
      const auto on = view.dateOf(row.value.day);
      if (on && chairside::countsAsSealant(row.value))
        sealed_[{row.value.child, row.value.tooth}].insert(*on);
    }
  }

  std::vector<estimates::Exposure> rows() {
    std::vector<estimates::Exposure> out;
    std::size_t label = 0;
    for (const auto& row : view_.records.children) {
      const auto& screenings = view_.screenings.of(row.id);
      if (screenings.empty()) continue;
      const auto* first = *std::ranges::min_element(screenings, {}, [&](const auto* one) {
        return std::pair(view_.dateOf(one->value.day), one->stamp.entry);
      });
      addChild(row.value, first->value, label++, out);
    }
    return out;
  }

 private:
  void addChild(const roster::Child& child, const chairside::Screening& screening,
                std::size_t label, std::vector<estimates::Exposure>& out) {
    const auto on = *view_.dateOf(screening.day);
    const double age = roster::approximateAge(child.birth, on);
    std::map<double, estimates::Exposure> byYears;
    for (const auto& finding : screening.teeth) {
      if (!finding.tooth.isFirstPermanentMolar()) continue;
      if (!isUp(finding)) {
        ++report_.notSeenLeftOut;
      } else if (looksEverSealed(finding) || wasSealed(screening.child, finding.tooth, on)) {
        ++report_.everSealedLeftOut;
      } else {
        const double years = age - eruptionAge(finding.tooth, child.sex);
        auto& at =
            byYears.try_emplace(years, estimates::Exposure{years, 0, 0, label}).first->second;
        at.examined += 1;
        at.affected += isAffected(finding) ? 1 : 0;
      }
    }
    for (const auto& [years, exposure] : byYears)
      out.push_back(exposure);
  }

  [[nodiscard]] bool wasSealed(const roster::ChildId& child, const dentition::Tooth& tooth,
                               base::Date on) const {
    const auto at = sealed_.find({child, tooth});
    return at != sealed_.end() && *at->second.begin() < on;
  }

  const TermView& view_;
  AttackRateReport& report_;
  std::map<std::pair<roster::ChildId, dentition::Tooth>, std::set<base::Date>> sealed_;
};

} // namespace

AttackRateReport attackRateOf(const TermRecords& records) {
  const TermView view(records);
  AttackRateReport report;
  const auto rows = Exposures(view, report).rows();
  auto estimate = estimates::attackRate(rows);
  if (estimate)
    report.estimate = *std::move(estimate);
  else
    report.whyNot = "not enough data: no never-sealed first molar with enough time in the mouth";
  return report;
}

AvertedReport avertedOf(int molars, const AttackRateReport& attack,
                        const std::optional<estimates::RetentionEstimate>& retention, int years) {
  AvertedReport report;
  report.sealants = molars;
  report.years = years;
  if (molars == 0)
    report.whyNot = "not enough data: no permanent molar was sealed this term";
  else if (!attack.estimate)
    report.whyNot = attack.whyNot;
  else if (!retention)
    report.whyNot = "not enough data: no one-year check this term";
  if (!report.whyNot.empty()) return report;

  estimates::AvertedInputs inputs{attack.estimate->annual, retention->estimate,
                                  static_cast<double>(molars)};
  inputs.years = years;
  inputs.attackRateSe = attack.estimate->standardError;
  inputs.retentionEffectiveN = retention->effectiveN;
  const auto usual = estimates::averted(inputs);
  inputs.efficacy = estimates::cautiousEfficacy;
  const auto cautious = estimates::averted(inputs);
  if (!usual || !cautious) {
    report.whyNot = (usual ? cautious : usual).error().detail;
    return report;
  }
  report.averted = *usual;
  report.cautious = *cautious;
  return report;
}

} // namespace gk::reports
