#include "visits/special_visits.h"

#include "visits/checks.h"

#include <algorithm>

namespace gk::demo {

namespace {

using chairside::Condition;
using chairside::DayEnd;
using chairside::Decision;
using chairside::EtchReason;
using chairside::Origin;
using chairside::Presence;
using chairside::ToothFinding;
using chairside::Urgency;

ToothFinding& toothIn(chairside::Screening& screening, int iso) {
  return *std::ranges::find(screening.teeth, dentition::toothAt(iso), &ToothFinding::tooth);
}

ChildPlan without(ChildPlan plan, int iso) {
  plan.molars.erase(iso);
  return plan;
}

} // namespace

ChildPlan fourFirsts(const std::string& grade) {
  return {.grade = grade,
          .molars = {{16, Spot::seal}, {26, Spot::seal}, {36, Spot::seal}, {46, Spot::seal}},
          .end = DayEnd::sealedComplete};
}

void visitWithSaliva(const Chair& chair, roster::ChildId child) {
  const auto plan = fourFirsts("2");
  seat(chair, child);
  screen(chair, screeningOf(chair, child, plan));
  Half(chair, child, {usual(16), usual(46)}).sealAll();
  Half left(chair, child, {usual(26), usual(36)});
  left.etch(left.teeth(), EtchReason::first);
  left.dry(left.teeth());
  left.wet(dentition::toothAt(36), chairside::WetStage::afterFrosty);
  left.etch({usual(36)}, EtchReason::wetBeforeSealant);
  left.dry({usual(36)});
  left.flow();
  for (const auto& tooth : left.teeth())
    left.cure(tooth, chair.light);
  for (const auto& tooth : left.teeth())
    left.check(tooth);
  varnish(chair, child);
  end(chair, child, plan.end);
}

void visitWithDeadBattery(const Chair& chair, roster::ChildId child, kit::LightId spare) {
  const auto plan = fourFirsts("3");
  seat(chair, child);
  screen(chair, screeningOf(chair, child, plan));
  Half(chair, child, {usual(16), usual(46)}).sealAll();
  Half left(chair, child, {usual(26), usual(36)});
  left.etch(left.teeth(), EtchReason::first);
  left.dry(left.teeth());
  left.flow();
  left.cureInterrupted(usual(26), chair.light, base::Seconds(11), "the battery died");
  chair.tell().pass(20);
  for (const auto& tooth : left.teeth())
    left.cure(tooth, spare);
  for (const auto& tooth : left.teeth())
    left.check(tooth);
  varnish(chair, child);
  end(chair, child, plan.end);
}

void visitWithCavity(const Chair& chair, roster::ChildId child) {
  auto plan = fourFirsts("2");
  plan.molars[46] = Spot::cavity;
  plan.urgency = Urgency::early;
  visit(chair, child, plan);
}

void visitRefused(const Chair& chair, roster::ChildId child) {
  auto plan = fourFirsts("2");
  plan.molars[26] = Spot::stopped;
  plan.molars[36] = Spot::stopped;
  plan.varnish = false;
  plan.end = DayEnd::sealedUnfinished;
  visit(chair, child, plan);
}

void visitReseal(const Chair& chair, roster::ChildId child) {
  seat(chair, child);
  auto screening = screeningOf(chair, child, fourFirsts("3"));
  for (int iso : {16, 26, 36, 46}) {
    auto& tooth = toothIn(screening, iso);
    const bool part = iso == 26;
    for (auto* surface : {&tooth.occlusal, tooth.tooth.isUpper() ? &tooth.lingual : &tooth.buccal})
      *surface = {Condition::sealedWhole, Origin::ours};
    if (part) tooth.lingual.condition = Condition::sealedPart;
    tooth.decision = part ? Decision::reseal : Decision::none;
    tooth.note = part ? "the remaining sealant lifts off" : "";
    if (part) tooth.resealWhy = chairside::ResealWhy::lifted;
    if (!part) tooth.toSeal = {};
  }
  screen(chair, screening);
  look(chair, child, {26, followup::Held::part, followup::CannotAssess::none},
       followup::CheckAction::resealToday);
  Half(chair, child, {usual(26)}).sealAll();
  varnish(chair, child);
  end(chair, child, DayEnd::sealedComplete);
}

void visitOpacities(const Chair& chair, roster::ChildId child, kit::LightId outOfService) {
  const auto plan = fourFirsts("2");
  seat(chair, child);
  auto screening = screeningOf(chair, child, plan);
  for (int iso : {16, 26}) {
    auto& tooth = toothIn(screening, iso);
    tooth.enamel = chairside::Enamel::opacity;
    tooth.revisit = true;
    tooth.note = "hypomineralized, no breakdown; look again in spring";
  }
  screen(chair, screening);
  Half right(chair, child, {usual(16), usual(46)});
  right.etch(right.teeth(), EtchReason::first);
  right.dry(right.teeth());
  right.flow();
  const chairside::StepRun wrongLight{.field = right.id(),
                                      .step = chairside::Step::cure,
                                      .teeth = {usual(16)},
                                      .lasted = base::Seconds(20),
                                      .target = base::Seconds(20),
                                      .source = chairside::TimeSource::timer,
                                      .light = outOfService};
  chair.tell().mustRefuse(chair.book.enterStep(chair.by(), wrongLight), base::ErrorCode::ruleLight);
  for (const auto& tooth : right.teeth())
    right.cure(tooth, chair.light);
  for (const auto& tooth : right.teeth())
    right.check(tooth);
  Half(chair, child, {usual(26), usual(36)}).sealAll();
  varnish(chair, child);
  end(chair, child, plan.end);
}

void visitInterim(const Chair& chair, roster::ChildId child) {
  const auto plan = without(fourFirsts("2"), 46);
  seat(chair, child);
  auto screening = screeningOf(chair, child, plan);
  auto& tooth = toothIn(screening, 46);
  tooth.presence = Presence::partlyErupted;
  tooth.softTissue = chairside::SoftTissue::operculum;
  tooth.occlusal = {Condition::sound, Origin::notSealed};
  tooth.decision = Decision::interim;
  tooth.toSeal = {dentition::Surface::occlusal};
  tooth.revisit = true;
  tooth.note = "flap of gum over the back half";
  screen(chair, screening);
  treat(chair, child, plan);
  Half(chair, child, {{dentition::toothAt(46), {dentition::Surface::occlusal}}},
       chair.story.kit->clay)
      .coverAll(150);
  varnish(chair, child);
  end(chair, child, DayEnd::sealedComplete);
}

void visitWithoutRosin(const Chair& chair, roster::ChildId child) {
  const auto plan = fourFirsts("2");
  seat(chair, child);
  screen(chair, screeningOf(chair, child, plan));
  treat(chair, child, plan);
  chair.tell().mustRefuse(
      chair.book.varnish(chair.by(), {child, chair.day, chair.story.kit->birch}),
      base::ErrorCode::ruleAllergy);
  auto otherVarnish = chair;
  otherVarnish.varnish = chair.story.kit->alder;
  varnish(otherVarnish, child);
  end(chair, child, plan.end);
}

void visitWithExpiredLot(const Chair& chair, roster::ChildId child, kit::LotId expired) {
  const auto plan = fourFirsts("2");
  seat(chair, child);
  screen(chair, screeningOf(chair, child, plan));
  const chairside::Field lastTip{.child = child,
                                 .day = chair.day,
                                 .teeth = {usual(16), usual(46)},
                                 .isolation = chairside::Isolation::rollsAndCheekPads,
                                 .fourHanded = false,
                                 .sealant = expired,
                                 .etchant = chair.story.kit->thistle,
                                 .cleaned = chairside::Cleaning::toothbrush};
  chair.tell().mustRefuse(chair.book.isolate(chair.by(), lastTip), base::ErrorCode::ruleMaterial);
  treat(chair, child, plan);
  varnish(chair, child);
  end(chair, child, plan.end);
}

void visitUrgent(const Chair& chair, roster::ChildId child) {
  seat(chair, child);
  auto screening = screeningOf(chair, child, fourFirsts("2"));
  for (int iso : {16, 26, 36, 46}) {
    auto& tooth = toothIn(screening, iso);
    tooth.decision = Decision::notToday;
    tooth.toSeal = {};
    tooth.note = "swelling comes first";
  }
  screening.teeth.push_back({.tooth = dentition::toothAt(75),
                             .presence = Presence::erupted,
                             .occlusal = {Condition::cavitated, Origin::notSealed},
                             .decision = Decision::refer});
  screening.untreatedDecay = chairside::Tri::yes;
  screening.urgency = Urgency::urgent;
  screening.urgentReason = chairside::UrgentReason::swelling;
  screen(chair, screening);
  chair.tell().must(chair.book.enterReferral(
      chair.by(), {.child = child,
                   .day = chair.day,
                   .urgency = Urgency::urgent,
                   .reason = "swelling beside a decayed primary molar",
                   .due = followup::referralDue(Urgency::urgent, chair.date),
                   .to = followup::ReferredTo::communityClinic}));
  end(chair, child, DayEnd::screenedNotTreated, "swelling: sealants when it has healed");
  const auto tryToReach = [&](followup::Channel channel, followup::ContactResult result,
                              const char* note) {
    chair.tell().pass(120);
    chair.tell().must(chair.book.enterContact({chair.story.team->ines, {}},
                                              {child, chair.day, channel, result, note}));
  };
  using followup::Channel;
  using followup::ContactResult;
  tryToReach(Channel::phone, ContactResult::noAnswer, "rang out");
  tryToReach(Channel::nurse, ContactResult::reached,
             "nurse looked at the child and keeps an eye on her");
  tryToReach(Channel::phone, ContactResult::reached,
             "mother takes her to the clinic this afternoon");
}

} // namespace gk::demo
