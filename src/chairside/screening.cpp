#include "chairside/screening.h"

#include "base/text/text.h"
#include "chairside/display_names.h"

#include <algorithm>

namespace gk::chairside {

using base::Done;
using base::Error;
using base::ErrorCode;
using base::Result;
using dentition::Surface;
using dentition::SurfaceSet;

namespace {

bool isUp(Presence presence) {
  return presence == Presence::erupted || presence == Presence::partlyErupted;
}

bool isSealed(Condition condition) {
  return condition == Condition::sealedWhole || condition == Condition::sealedPart;
}

bool isSealable(Condition condition) {
  return condition == Condition::sound || condition == Condition::earlyLesion;
}

bool isOffered(const dentition::Tooth& tooth, const roster::Program& program) {
  return program.primaryTeethOffered || (!tooth.isPrimary() && tooth.isMolar());
}

bool isUnderGum(const ToothFinding& finding, Surface surface) {
  return finding.softTissue == SoftTissue::gumOverCompanion && surface != Surface::occlusal;
}

/// The two states in which looking again is part of the decision itself.
bool demandsRevisit(const ToothFinding& finding) {
  if (finding.decision == Decision::interim) return true;
  return finding.softTissue == SoftTissue::operculum &&
         (isTreatment(finding.decision) || finding.decision == Decision::watch);
}

Error wrong(const ToothFinding& finding, const std::string& why) {
  return {ErrorCode::ruleTooth, finding.tooth.words() + ": " + why};
}

Result<Done> checkPresence(const ToothFinding& finding) {
  const auto& tooth = finding.tooth;
  if (finding.presence == Presence::shed && !tooth.isPrimary())
    return wrong(finding,
                 "only a primary tooth exfoliates; choose missing or congenitally missing");
  if (finding.presence == Presence::primaryStillPresent && (tooth.isPrimary() || tooth.isMolar()))
    return wrong(finding, "there is no primary tooth in this place; check which tooth it is");
  return Done{};
}

/// What is not up, not seen or under gum was not looked at, whatever key was pressed.
Result<Done> checkLookedAt(const ToothFinding& finding) {
  for (Surface surface : SurfaceSet::all().values()) {
    if (finding.at(surface).condition == Condition::notLookedAt) continue;
    if (!isUp(finding.presence))
      return wrong(finding, "it is " + std::string(base::displayName(finding.presence)) +
                                ", so its " + std::string(base::displayName(surface)) +
                                " was not examined");
    if (isUnderGum(finding, surface))
      return wrong(finding, "its " + std::string(base::displayName(surface)) +
                                " is under gingiva, so it was not examined");
  }
  return Done{};
}

Result<Done> checkOrigins(const ToothFinding& finding) {
  for (Surface surface : SurfaceSet::all().values()) {
    const auto& [condition, origin] = finding.at(surface);
    if (isSealed(condition) && origin == Origin::notSealed)
      return wrong(finding, std::string(base::displayName(surface)) +
                                " is sealed; say whose sealant it is, or unknown");
  }
  return Done{};
}

bool mayTreat(const ToothFinding& finding, Surface surface) {
  const auto& [condition, origin] = finding.at(surface);
  if (isUnderGum(finding, surface)) return false;
  if (isSealable(condition)) return true;
  if (finding.decision == Decision::repair)
    return condition == Condition::sealedPart || condition == Condition::restored;
  if (finding.decision == Decision::reseal)
    return condition == Condition::sealedPart ||
           // Resin in place of an interim cover that still holds; never over another's intact one.
           (condition == Condition::sealedWhole && origin == Origin::ours &&
            !base::trim(finding.note).empty());
  return false;
}

Result<Done> checkTreatment(const ToothFinding& finding, const roster::Program& program) {
  const std::string what(base::displayName(finding.decision));
  if (!isOffered(finding.tooth, program))
    return wrong(finding, "the program offers permanent molars only");
  if (!isUp(finding.presence))
    return wrong(finding, "it is " + std::string(base::displayName(finding.presence)) +
                              ", so it cannot be chosen for " + what);
  if (finding.hasAny(Condition::cavitated))
    return wrong(finding,
                 "it has a cavity and is referred; change the status with a reason if that is "
                 "a mistake");
  if (finding.hasAny(Condition::crowned)) return wrong(finding, "it is crowned");
  if (finding.toSeal.isEmpty()) return wrong(finding, "choose at least one surface for " + what);
  for (Surface surface : finding.toSeal.values())
    if (!mayTreat(finding, surface))
      return wrong(finding,
                   std::string(base::displayName(surface)) + " is " +
                       (isUnderGum(finding, surface)
                            ? std::string("under gingiva")
                            : std::string(base::displayName(finding.at(surface).condition))) +
                       ", so it cannot be chosen for " + what);
  const auto chosen = finding.toSeal.values();
  if (finding.decision == Decision::repair && std::ranges::none_of(chosen, [&](Surface surface) {
        return !isSealable(finding.at(surface).condition);
      }))
    return wrong(finding, "there is nothing to repair on these surfaces; choose seal or reseal");
  return Done{};
}

Result<Done> checkWholeChild(const Screening& screening) {
  const auto& teeth = screening.teeth;
  const auto cavity = std::ranges::find_if(
      teeth, [](const ToothFinding& tooth) { return tooth.hasAny(Condition::cavitated); });
  if (cavity != teeth.end() && screening.untreatedDecay != Tri::yes)
    return wrong(*cavity, "a cavity means untreated decay; answer yes there");
  const auto treated = std::ranges::find_if(teeth, [](const ToothFinding& tooth) {
    return !tooth.tooth.isPrimary() &&
           (tooth.hasAny(Condition::restored) || tooth.hasAny(Condition::crowned));
  });
  if (treated != teeth.end() && screening.treatedDecay != Tri::yes)
    return wrong(*treated, "a filling or crown means treated decay; answer yes there");
  if (screening.untreatedDecay == Tri::yes && screening.urgency == Urgency::none)
    return Error{ErrorCode::ruleTooth, "untreated decay needs care: urgency is at least early"};
  if (screening.urgency == Urgency::urgent && screening.urgentReason == UrgentReason::none)
    return Error{ErrorCode::ruleReason, "urgent needs its reason, such as pain or swelling"};
  return Done{};
}

} // namespace

Result<Done> checkIdentifiers(IdentifierSet confirmed) {
  if (!confirmed.has(Identifier::spokenName))
    return Error{ErrorCode::ruleIdentity, "ask \"What is your name?\" and wait for the answer"};
  if (confirmed.size() < 2)
    return Error{ErrorCode::ruleIdentity,
                 "one more identifier must match the spoken name: birth date, teacher or "
                 "room, slip or name tag"};
  return Done{};
}

Result<Done> checkHistory(const Seating& seating) {
  const bool isSaid = !base::trim(seating.changed).empty();
  if (!seating.historyUnchanged && !isSaid)
    return Error{ErrorCode::ruleReason, "say what has changed since the form"};
  if (seating.historyUnchanged && isSaid)
    return Error{ErrorCode::ruleReason,
                 "the answer is that nothing changed, but a change is listed"};
  return Done{};
}

bool ToothFinding::hasAny(Condition condition) const {
  return occlusal.condition == condition || buccal.condition == condition ||
         lingual.condition == condition;
}

const SurfaceFinding& ToothFinding::at(Surface surface) const {
  switch (surface) {
  case Surface::occlusal:
    return occlusal;
  case Surface::buccalPit:
    return buccal;
  case Surface::lingualGroove:
    return lingual;
  }
  base::fail("no such surface");
}

bool showsUntreatedDecay(std::span<const ToothFinding> teeth) {
  return std::ranges::any_of(
      teeth, [](const ToothFinding& finding) { return finding.hasAny(Condition::cavitated); });
}

Result<Done> checkFinding(const ToothFinding& finding, const roster::Program& program) {
  if (auto fine = checkPresence(finding); !fine) return fine;
  if (auto fine = checkLookedAt(finding); !fine) return fine;
  if (auto fine = checkOrigins(finding); !fine) return fine;
  if (isTreatment(finding.decision))
    if (auto fine = checkTreatment(finding, program); !fine) return fine;
  if (finding.resealWhy != ResealWhy::notSaid && finding.decision != Decision::reseal)
    return wrong(finding,
                 "a reason to reseal goes with a reseal; choose that or remove the reason");
  if (finding.resealWhy == ResealWhy::other && base::trim(finding.note).empty())
    return wrong(finding, "say in the note why it is resealed");
  if (demandsRevisit(finding) && !finding.revisit)
    return wrong(finding, "this decision needs a revisit; set the revisit mark");
  return Done{};
}

Result<Done> checkScreening(const Screening& screening, const roster::Program& program) {
  std::vector<dentition::Tooth> seen;
  for (const auto& finding : screening.teeth) {
    if (auto fine = checkFinding(finding, program); !fine) return fine;
    if (std::ranges::find(seen, finding.tooth) != seen.end())
      return wrong(finding, "it is in this screening twice; keep one");
    seen.push_back(finding.tooth);
  }
  return checkWholeChild(screening);
}

bool isTreatment(Decision decision) {
  return decision == Decision::seal || decision == Decision::interim ||
         decision == Decision::repair || decision == Decision::reseal;
}

bool needsSealant(const Screening& screening) {
  return std::ranges::any_of(
      screening.teeth, [](const ToothFinding& finding) { return isTreatment(finding.decision); });
}

SurfaceSet sealableSurfaces(const ToothFinding& finding) {
  SurfaceSet surfaces;
  if (!isUp(finding.presence)) return surfaces;
  for (Surface surface : SurfaceSet::all().values())
    if (isSealable(finding.at(surface).condition) && !isUnderGum(finding, surface))
      surfaces.add(surface);
  return surfaces;
}

Decision proposedDecision(const ToothFinding& finding, const roster::Program& program) {
  if (finding.presence == Presence::cannotSee) return Decision::watch;
  if (!isUp(finding.presence)) return Decision::none;
  if (finding.hasAny(Condition::cavitated) || finding.hasAny(Condition::fractured) ||
      finding.enamel == Enamel::opacityBroken)
    return Decision::refer;
  if (finding.hasAny(Condition::crowned) || !isOffered(finding.tooth, program))
    return Decision::none;
  if (finding.hasAny(Condition::sealedPart)) return Decision::repair;
  if (finding.softTissue == SoftTissue::operculum) return Decision::watch;
  if (!sealableSurfaces(finding).isEmpty()) return Decision::seal;
  return finding.hasAny(Condition::banded) ? Decision::watch : Decision::none;
}

bool suggestsRevisit(const ToothFinding& finding) {
  if (demandsRevisit(finding)) return true;
  if (finding.presence == Presence::partlyErupted)
    return isTreatment(finding.decision) || finding.decision == Decision::watch;
  const bool holdsLess = finding.enamel == Enamel::opacity ||
                         finding.enamel == Enamel::opacityBroken ||
                         finding.enamel == Enamel::hypoplasia;
  return holdsLess && isTreatment(finding.decision);
}

} // namespace gk::chairside
