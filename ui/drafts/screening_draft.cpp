#include "ui/drafts/screening_draft.h"

#include "base/contract.h"
#include "base/text/text.h"
#include "reports/display_names.h"

#include <algorithm>
#include <array>

namespace gk::ui {

using chairside::Condition;
using chairside::Decision;
using chairside::Enamel;
using chairside::Origin;
using chairside::Presence;
using chairside::SoftTissue;
using chairside::SurfaceFinding;
using chairside::ToothFinding;
using chairside::Tri;
using chairside::Urgency;
using dentition::Surface;
using dentition::SurfaceSet;
using dentition::Tooth;

namespace {

/// In the order in which a mouth is looked over; workflow of the program, first molars first.
constexpr std::array<int, 8> lookOrder{16, 26, 36, 46, 17, 27, 37, 47};

SurfaceFinding& part(ToothFinding& finding, Surface surface) {
  switch (surface) {
  case Surface::occlusal:
    return finding.occlusal;
  case Surface::buccalPit:
    return finding.buccal;
  case Surface::lingualGroove:
    return finding.lingual;
  }
  base::fail("no such surface");
}

bool isUp(const ToothFinding& finding) {
  return finding.presence == Presence::erupted || finding.presence == Presence::partlyErupted;
}

void setAbsent(ToothFinding& finding, Presence presence) {
  const auto note = finding.note;
  finding = {finding.tooth, presence};
  finding.note = note;
}

void setCondition(ToothFinding& finding, SurfaceSet surfaces, SurfaceFinding found) {
  if (!isUp(finding)) finding.presence = Presence::erupted;
  // A word on the whole tooth says nothing of what the gum covers; one on that surface says that
  // it was seen.
  const bool isCovered = finding.softTissue == SoftTissue::gumOverCompanion;
  if (isCovered && surfaces.has(Surface::occlusal)) surfaces = {Surface::occlusal};
  if (isCovered && !surfaces.has(Surface::occlusal)) finding.softTissue = SoftTissue::none;
  for (Surface surface : surfaces.values())
    part(finding, surface) = found;
}

} // namespace

ScreeningDraft::ScreeningDraft(roster::Program program, bool mayTreat)
    : program_(std::move(program)), mayTreat_(mayTreat) {}

void ScreeningDraft::takeOver(const chairside::Screening& recorded) {
  teeth_ = recorded.teeth;
  for (const auto& finding : teeth_)
    decided_.insert(finding.tooth);
  untreated_ = recorded.untreatedDecay;
  treated_ = recorded.treatedDecay;
  urgency_ = recorded.urgency;
  urgentReason_ = recorded.urgentReason;
  note_ = recorded.note;
}

void ScreeningDraft::takeOver(const Tooth& tooth, const followup::RetentionCheck& check) {
  using followup::Held;
  using followup::ToothHealth;
  SurfaceSet lessThanWhole;
  auto& finding = at(tooth);
  const auto found = [&](Surface surface, Held held) -> SurfaceFinding {
    if (held == Held::whole) return {Condition::sealedWhole, Origin::ours};
    if (held != Held::part && held != Held::lost) return {};
    lessThanWhole.add(surface);
    if (held == Held::part) return {Condition::sealedPart, Origin::ours};
    if (check.health == ToothHealth::sound) return {Condition::sound};
    if (check.health == ToothHealth::earlyLesion) return {Condition::earlyLesion};
    return {}; // where the cavity or the filling is, is for the eye to say
  };
  finding.presence = Presence::erupted;
  finding.occlusal = found(Surface::occlusal, check.occlusal);
  finding.buccal = found(Surface::buccalPit, check.buccal);
  finding.lingual = found(Surface::lingualGroove, check.lingual);
  propose(finding);
  if (check.action != followup::CheckAction::resealToday) return;
  auto resealed = finding;
  resealed.decision = Decision::reseal;
  resealed.toSeal = lessThanWhole;
  resealed.revisit = chairside::suggestsRevisit(resealed);
  // What the rules or the consent do not let be resealed stays as it was proposed.
  if (!mayTreat_ || !chairside::checkFinding(resealed, program_)) return;
  finding = resealed;
  decided_.insert(tooth);
  setResealWhy(tooth, check.lift == followup::LiftTest::lifted ? chairside::ResealWhy::lifted
                                                               : chairside::ResealWhy::lost);
}

const ToothFinding* ScreeningDraft::find(const Tooth& tooth) const {
  const auto found = std::ranges::find(teeth_, tooth, &ToothFinding::tooth);
  return found == teeth_.end() ? nullptr : &*found;
}

ToothFinding& ScreeningDraft::at(const Tooth& tooth) {
  const auto found = std::ranges::find(teeth_, tooth, &ToothFinding::tooth);
  if (found != teeth_.end()) return *found;
  return teeth_.emplace_back(ToothFinding{tooth, Presence::erupted});
}

void ScreeningDraft::set(const Tooth& tooth, ToothState state, std::optional<Surface> surface) {
  auto& finding = at(tooth);
  decided_.erase(tooth);
  const auto usual = surface ? SurfaceSet{*surface} : dentition::usualSurfaces(tooth);
  const auto one = SurfaceSet{surface.value_or(Surface::occlusal)};
  const auto companions = SurfaceSet::all().without({Surface::occlusal});
  switch (state) {
  case ToothState::sound:
    setCondition(finding, usual, {Condition::sound});
    break;
  case ToothState::early:
    setCondition(finding, usual, {Condition::earlyLesion});
    break;
  case ToothState::cavity:
    setCondition(finding, one, {Condition::cavitated});
    break;
  case ToothState::filled:
    setCondition(finding, one, {Condition::restored});
    break;
  case ToothState::crown:
    setCondition(finding, usual, {Condition::crowned});
    break;
  case ToothState::banded:
    setCondition(finding, surface ? one : usual.without({Surface::occlusal}), {Condition::banded});
    break;
  case ToothState::fractured:
    setCondition(finding, one, {Condition::fractured});
    break;
  case ToothState::ours:
    setCondition(finding, usual, {Condition::sealedWhole, Origin::ours});
    break;
  case ToothState::oursInPart:
    setCondition(finding, usual, {Condition::sealedPart, Origin::ours});
    break;
  case ToothState::elsewhere:
    setCondition(finding, usual, {Condition::sealedWhole, Origin::other});
    break;
  case ToothState::unknownOrigin:
    setCondition(finding, usual, {Condition::sealedWhole, Origin::unknown});
    break;
  case ToothState::gone:
    setAbsent(finding, Presence::extracted);
    break;
  case ToothState::notUp:
    setAbsent(finding, Presence::unerupted);
    break;
  case ToothState::neverFormed:
    setAbsent(finding, Presence::neverFormed);
    break;
  case ToothState::cannotSee:
    setAbsent(finding, Presence::cannotSee);
    break;
  case ToothState::primaryStillHere:
    setAbsent(finding, Presence::primaryStillPresent);
    break;
  case ToothState::shed:
    setAbsent(finding, Presence::shed);
    break;
  case ToothState::partUp:
    finding.presence = Presence::partlyErupted;
    break;
  case ToothState::operculum:
    finding.presence = Presence::partlyErupted;
    finding.softTissue = SoftTissue::operculum;
    break;
  case ToothState::gumOverCompanion:
    finding.presence = Presence::partlyErupted;
    finding.softTissue = SoftTissue::gumOverCompanion;
    for (Surface covered : companions.values())
      part(finding, covered) = {};
    break;
  case ToothState::opacity:
    finding.enamel = Enamel::opacity;
    break;
  case ToothState::opacityBroken:
    finding.enamel = Enamel::opacityBroken;
    break;
  case ToothState::hypoplasia:
    finding.enamel = Enamel::hypoplasia;
    break;
  case ToothState::fluorosisMild:
    finding.enamel = Enamel::fluorosisMild;
    break;
  case ToothState::fluorosisPitted:
    finding.enamel = Enamel::fluorosisPitted;
    break;
  }
  propose(finding);
  answerByChart();
}

/// A cavity is untreated decay; whoever knows better answers again.
void ScreeningDraft::answerByChart() {
  const bool shows = chairside::showsUntreatedDecay(teeth_);
  if (shows && !untreated_) {
    untreated_ = Tri::yes;
    isDecayCharted_ = true;
  } else if (!shows && isDecayCharted_) {
    untreated_.reset();
    isDecayCharted_ = false;
  }
}

void ScreeningDraft::setSecondMolarsNotUp() {
  for (int iso : lookOrder)
    if (const auto tooth = dentition::toothAt(iso); tooth.isSecondPermanentMolar() && !find(tooth))
      set(tooth, ToothState::notUp);
}

SurfaceSet ScreeningDraft::treatable(const ToothFinding& finding) const {
  auto surfaces = chairside::sealableSurfaces(finding);
  const bool repairs = finding.decision == Decision::repair;
  if (!repairs && finding.decision != Decision::reseal) return surfaces;
  for (Surface surface : SurfaceSet::all().values()) {
    const auto condition = finding.at(surface).condition;
    const bool isTreatable =
        condition == Condition::sealedPart || (repairs && condition == Condition::restored);
    if (isTreatable) surfaces.add(surface);
  }
  return surfaces;
}

void ScreeningDraft::propose(ToothFinding& finding) {
  if (decided_.contains(finding.tooth)) return;
  finding.resealWhy = chairside::ResealWhy::notSaid;
  finding.decision = chairside::proposedDecision(finding, program_);
  if (chairside::isTreatment(finding.decision) && !mayTreat_)
    finding.decision = Decision::notAllowedByConsent;
  finding.toSeal = chairside::isTreatment(finding.decision) ? treatable(finding) : SurfaceSet{};
  finding.revisit = chairside::suggestsRevisit(finding);
}

void ScreeningDraft::decide(const Tooth& tooth, Decision decision) {
  auto& finding = at(tooth);
  finding.decision = decision;
  finding.resealWhy = chairside::ResealWhy::notSaid;
  finding.toSeal = chairside::isTreatment(decision) ? treatable(finding) : SurfaceSet{};
  finding.revisit = chairside::suggestsRevisit(finding);
  decided_.insert(tooth);
}

std::optional<Tooth> ScreeningDraft::unexplainedReseal() const {
  for (const auto& finding : teeth_)
    if (finding.decision == Decision::reseal && finding.resealWhy == chairside::ResealWhy::notSaid)
      return finding.tooth;
  return std::nullopt;
}

void ScreeningDraft::setResealWhy(const Tooth& tooth, chairside::ResealWhy why) {
  at(tooth).resealWhy = why;
}

void ScreeningDraft::changeDecision(const Tooth& tooth) {
  const auto* now = find(tooth);
  if (!now) return;
  constexpr auto count = base::enumCount<Decision>;
  for (std::size_t step = 1; step < count; ++step) {
    auto trial = *now;
    trial.resealWhy = chairside::ResealWhy::notSaid;
    trial.decision =
        static_cast<Decision>((static_cast<std::size_t>(now->decision) + step) % count);
    trial.toSeal = chairside::isTreatment(trial.decision) ? treatable(trial) : SurfaceSet{};
    trial.revisit = chairside::suggestsRevisit(trial);
    if (!chairside::checkFinding(trial, program_)) continue;
    decide(tooth, trial.decision);
    return;
  }
}

void ScreeningDraft::changeSurfaces(const Tooth& tooth) {
  const auto* now = find(tooth);
  if (!now || !chairside::isTreatment(now->decision)) return;
  const auto all = treatable(*now);
  std::vector<SurfaceSet> choices{all};
  if (all.size() > 1)
    for (Surface surface : all.values())
      choices.push_back({surface});
  const auto place = std::ranges::find(choices, now->toSeal);
  const bool last = place == choices.end() || place + 1 == choices.end();
  at(tooth).toSeal = last ? choices.front() : *(place + 1);
  decided_.insert(tooth);
}

void ScreeningDraft::add(const Tooth& tooth) {
  if (!find(tooth)) teeth_.push_back({tooth, Presence::erupted});
}

void ScreeningDraft::setNote(const Tooth& tooth, std::string note) {
  at(tooth).note = std::move(note);
}

int ScreeningDraft::openQuestion() const {
  if (!untreated_) return 0;
  if (!treated_) return 1;
  return urgency_ ? 3 : 2;
}

void ScreeningDraft::answer(int choice) {
  switch (openQuestion()) {
  case 0:
    isDecayCharted_ = false;
    untreated_ = static_cast<Tri>(choice);
    return;
  case 1:
    treated_ = static_cast<Tri>(choice);
    return;
  case 2:
    urgency_ = static_cast<Urgency>(choice);
    return;
  default:
    return;
  }
}

void ScreeningDraft::askAgain() {
  untreated_.reset();
  isDecayCharted_ = false;
  treated_.reset();
  urgency_.reset();
  urgentReason_ = chairside::UrgentReason::none;
}

bool ScreeningDraft::isSaid(const Tooth& tooth) const {
  const auto* finding = find(tooth);
  if (!finding) return false;
  if (!isUp(*finding)) return true;
  return std::ranges::any_of(SurfaceSet::all().values(), [&](Surface surface) {
    return finding->at(surface).condition != Condition::notLookedAt;
  });
}

std::optional<Tooth> ScreeningDraft::nextUnsaid(const std::optional<Tooth>& here) const {
  auto order = lookOrder;
  const auto at =
      std::ranges::find_if(order, [&](int iso) { return here == dentition::toothAt(iso); });
  if (at != order.end()) std::ranges::rotate(order, at + 1);
  for (int iso : order)
    if (const auto tooth = dentition::toothAt(iso); !isSaid(tooth)) return tooth;
  return std::nullopt;
}

std::string ScreeningDraft::missing() const {
  if (const auto tooth = nextUnsaid())
    return "no finding yet for the " + tooth->shown(program_.notation);
  for (const auto& finding : teeth_)
    if (!isSaid(finding.tooth))
      return "no finding yet for the " + finding.tooth.shown(program_.notation);
  switch (openQuestion()) {
  case 0:
    return "untreated decay is not answered yet: 4 no, 5 yes, 6 cannot tell";
  case 1:
    return "treated decay is not answered yet: 4 no, 5 yes, 6 cannot tell";
  case 2:
    return "urgency is not answered yet: 4 none, 5 early, 6 urgent";
  default:
    return {};
  }
}

chairside::Screening ScreeningDraft::build(roster::ChildId child, roster::DayId day) const {
  base::require(missing().empty(), "an unfinished screening");
  return {child, day, *untreated_, *treated_, *urgency_, urgentReason_, note_, teeth_};
}

std::string pauseLine(const std::vector<ToothFinding>& teeth, dentition::Notation notation) {
  std::vector<std::string> parts;
  for (const auto& finding : teeth)
    if (chairside::isTreatment(finding.decision)) {
      auto what = std::string(base::displayName(finding.decision)) + " ";
      if (finding.decision == Decision::seal) what.clear();
      parts.push_back(what + finding.tooth.shown(notation) + " (" +
                      dentition::words(finding.toSeal) + ")");
    }
  if (parts.empty()) return "Nothing to seal.";
  return "Sealing " + std::to_string(parts.size()) + ": " + base::join(parts, "; ") + ".";
}

} // namespace gk::ui
