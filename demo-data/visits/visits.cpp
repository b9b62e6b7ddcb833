#include "visits/chair.h"

#include "base/contract.h"
#include "chairside/allergy.h"

#include <algorithm>

namespace gk::demo {

namespace {

using chairside::Condition;
using chairside::DayEnd;
using chairside::Decision;
using chairside::Origin;
using chairside::Presence;
using chairside::SurfaceFinding;
using chairside::ToothFinding;
using chairside::Urgency;
using dentition::Surface;

const std::string wouldNotGoOn = "the child would not go on; again at the next visit";

/// Both sealed surfaces alike, the third sound.
ToothFinding finding(int iso, Presence presence, SurfaceFinding surfaces, Decision decision) {
  const auto meant = usual(iso);
  ToothFinding found{.tooth = meant.tooth, .presence = presence, .decision = decision};
  const SurfaceFinding other{Condition::sound, Origin::notSealed};
  const auto of = [&](Surface surface) { return meant.surfaces.has(surface) ? surfaces : other; };
  found.occlusal = of(Surface::occlusal);
  found.buccal = of(Surface::buccalPit);
  found.lingual = of(Surface::lingualGroove);
  if (chairside::isTreatment(decision)) found.toSeal = meant.surfaces;
  return found;
}

ToothFinding findingOf(int iso, Spot spot) {
  const auto up = Presence::erupted;
  switch (spot) {
  case Spot::seal:
    return finding(iso, up, {Condition::sound, Origin::notSealed}, Decision::seal);
  case Spot::sealEarly:
    return finding(iso, up, {Condition::earlyLesion, Origin::notSealed}, Decision::seal);
  case Spot::stopped:
    return finding(iso, up, {Condition::sound, Origin::notSealed}, Decision::seal);
  case Spot::cavity: {
    auto found = finding(iso, up, {Condition::sound, Origin::notSealed}, Decision::refer);
    found.occlusal.condition = Condition::cavitated;
    return found;
  }
  case Spot::filled:
    return finding(iso, up, {Condition::restored, Origin::notSealed}, Decision::none);
  case Spot::elsewhere:
    return finding(iso, up, {Condition::sealedWhole, Origin::other}, Decision::none);
  case Spot::notUp:
    return {.tooth = dentition::toothAt(iso), .presence = Presence::unerupted};
  case Spot::partlyUp: {
    ToothFinding found{.tooth = dentition::toothAt(iso),
                       .presence = Presence::partlyErupted,
                       .decision = Decision::watch};
    found.revisit = true;
    return found;
  }
  }
  base::fail("no such spot");
}

ToothFinding primaryCavity() {
  return {.tooth = dentition::toothAt(85),
          .presence = Presence::erupted,
          .occlusal = {Condition::cavitated, Origin::notSealed},
          .decision = Decision::refer};
}

bool isRight(int iso) {
  return iso / 10 == 1 || iso / 10 == 4;
}

std::vector<dentition::ToothSurfaces> half(const ChildPlan& plan, bool right, bool stopped) {
  std::vector<dentition::ToothSurfaces> teeth;
  for (const auto& [iso, spot] : plan.molars) {
    const bool wanted =
        stopped ? spot == Spot::stopped : spot == Spot::seal || spot == Spot::sealEarly;
    if (wanted && isRight(iso) == right) teeth.push_back(usual(iso));
  }
  return teeth;
}

std::string reasonFor(DayEnd end) {
  if (end == DayEnd::sealedUnfinished || end == DayEnd::screenedNotTreated) return wouldNotGoOn;
  if (end == DayEnd::declined) return "said no, asked twice";
  if (end == DayEnd::leftSchool) return "moved away, the office says";
  return "";
}

/// The surface wiped and the bite looked at, where sealant was placed and nothing of it is said.
void wipe(const Chair& chair, roster::ChildId child) {
  bool isSealed = false;
  for (const auto& placement : chair.tell().must(chair.book.placements(child)))
    isSealed |=
        placement.value.day == chair.day && placement.value.attempt == chairside::Attempt::complete;
  if (!isSealed || !chair.tell().must(chair.book.afterCures(child, chair.day)).empty()) return;
  chair.tell().must(chair.book.enterAfterCure(chair.by(), {.child = child, .day = chair.day}));
}

/// Why a varnish that the form allows is not on; empty where it is, or may not be.
std::string skippedVarnish(const Chair& chair, roster::ChildId child) {
  const auto allowed =
      chair.tell().must(chair.book.standing(child, roster::Service::varnish, chair.date));
  if (!allowed.allows) return "";
  for (const auto& varnish : chair.tell().must(chair.book.varnishes(child)))
    if (varnish.value.day == chair.day) return "";
  return "child declines";
}

} // namespace

void seat(const Chair& chair, roster::ChildId child) {
  using enum chairside::Identifier;
  chair.tell().pass(90);
  chairside::Seating seating{
      .child = child, .day = chair.day, .confirmed = {spokenName, teacherOrRoom}};
  for (const auto& flag : chair.tell().must(chair.book.flags(child)))
    if (chairside::isAlert(flag.value)) seating.heard.push_back(flag.id);
  chair.tell().must(chair.book.seat(chair.by(), seating));
}

chairside::Screening screeningOf(const Chair& chair, roster::ChildId child, const ChildPlan& plan) {
  chairside::Screening screening{.child = child,
                                 .day = chair.day,
                                 .untreatedDecay = chairside::Tri::no,
                                 .treatedDecay = chairside::Tri::no,
                                 .urgency = plan.urgency,
                                 .teeth = {}};
  for (const auto& tooth : dentition::permanentMolars()) {
    const auto at = plan.molars.find(tooth.iso());
    screening.teeth.push_back(
        findingOf(tooth.iso(), at == plan.molars.end() ? Spot::notUp : at->second));
  }
  if (plan.primaryCavity) screening.teeth.push_back(primaryCavity());
  if (plan.urgency != Urgency::none) screening.untreatedDecay = chairside::Tri::yes;
  if (plan.urgency == Urgency::urgent) screening.urgentReason = chairside::UrgentReason::pain;
  if (plan.count(Spot::filled) > 0) screening.treatedDecay = chairside::Tri::yes;
  return screening;
}

void screen(const Chair& chair, const chairside::Screening& screening) {
  chair.tell().pass(75);
  chair.tell().must(chair.book.screen(chair.by(), screening));
}

void treat(const Chair& chair, roster::ChildId child, const ChildPlan& plan) {
  for (bool right : {true, false}) {
    if (auto teeth = half(plan, right, false); !teeth.empty())
      Half(chair, child, std::move(teeth)).sealAll();
    auto left = half(plan, right, true);
    if (left.empty()) continue;
    Half begun(chair, child, std::move(left));
    begun.stop(wouldNotGoOn);
  }
}

void varnish(const Chair& chair, roster::ChildId child) {
  wipe(chair, child);
  chair.tell().pass(45);
  chair.tell().must(
      chair.book.varnish(chair.by(), {.child = child, .day = chair.day, .lot = chair.varnish}));
}

void end(const Chair& chair, roster::ChildId child, DayEnd how, const std::string& reason) {
  chair.tell().pass(25);
  chairside::DayOutcome outcome{.child = child, .day = chair.day, .end = how, .reason = reason};
  const bool isSeen = how <= DayEnd::recheckOnly;
  if (isSeen) {
    wipe(chair, child);
    outcome.varnishSkipped = skippedVarnish(chair, child);
  }
  chair.tell().must(chair.book.endVisit(chair.by(), outcome));
}

void refer(const Chair& chair, roster::ChildId child, Urgency urgency, const std::string& reason) {
  chair.tell().must(chair.book.enterReferral(
      chair.by(), {.child = child,
                   .day = chair.day,
                   .urgency = urgency,
                   .reason = reason,
                   .due = followup::referralDue(urgency, chair.date),
                   .to = urgency == Urgency::urgent ? followup::ReferredTo::communityClinic
                                                    : followup::ReferredTo::ownDentist}));
  if (urgency != Urgency::urgent) return;
  const auto call = [&](followup::Channel channel, const char* note) {
    chair.tell().pass(60);
    chair.tell().must(chair.book.enterContact(
        {chair.story.team->ines, {}},
        {child, chair.day, channel, followup::ContactResult::reached, note}));
  };
  call(followup::Channel::phone, "told what was seen; will call the clinic today");
  call(followup::Channel::nurse, "school nurse told in person");
}

void visit(const Chair& chair, roster::ChildId child, const ChildPlan& plan) {
  if (plan.end > DayEnd::recheckOnly) {
    end(chair, child, plan.end, reasonFor(plan.end));
    return;
  }
  seat(chair, child);
  screen(chair, screeningOf(chair, child, plan));
  if (plan.urgency != Urgency::none)
    refer(chair, child, plan.urgency,
          plan.urgency == Urgency::urgent ? "tooth hurts at night" : "may have a cavity");
  treat(chair, child, plan);
  if (plan.varnish) varnish(chair, child);
  end(chair, child, plan.end, reasonFor(plan.end));
}

} // namespace gk::demo
