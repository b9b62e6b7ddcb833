#include "chair.h"

using namespace gk::chairside;
using namespace gk::chairside::test;

namespace {

Screening screened(std::vector<ToothFinding> teeth) {
  Ids ids;
  return {.child = ids.make<gk::roster::ChildId>(),
          .day = ids.make<gk::roster::DayId>(),
          .untreatedDecay = Tri::no,
          .treatedDecay = Tri::no,
          .urgency = Urgency::none,
          .note = {},
          .teeth = std::move(teeth)};
}

ToothFinding found(int iso, Condition condition, Decision decision = Decision::none) {
  ToothFinding finding{.tooth = toothAt(iso), .presence = Presence::erupted};
  finding.occlusal.condition = condition;
  finding.decision = decision;
  if (isTreatment(decision)) finding.toSeal = occlusal;
  return finding;
}

const gk::roster::Program anyProgram{};

} // namespace

TEST_CASE("a child is identified by the spoken name and one thing more", "[case-14]") {
  CHECK(checkIdentifiers({Identifier::spokenName, Identifier::birthDate}));
  CHECK(checkIdentifiers({Identifier::spokenName, Identifier::slipScan, Identifier::nameTag}));
  CHECK(checkIdentifiers({Identifier::spokenName}).error().code == ErrorCode::ruleIdentity);
  CHECK(checkIdentifiers({Identifier::slipScan, Identifier::nameTag}).error().code ==
        ErrorCode::ruleIdentity);
  CHECK(checkIdentifiers({}).error().code == ErrorCode::ruleIdentity);
}

TEST_CASE("a cavity means untreated decay and some urgency") {
  auto screening = screened({found(16, Condition::cavitated, Decision::refer)});
  CHECK(checkScreening(screening, anyProgram).error().code == ErrorCode::ruleTooth);
  screening.untreatedDecay = Tri::yes;
  CHECK(checkScreening(screening, anyProgram).error().code == ErrorCode::ruleTooth);
  screening.urgency = Urgency::early;
  CHECK(checkScreening(screening, anyProgram));
}

TEST_CASE("a filling or crown on a permanent tooth means treated decay") {
  for (auto condition : {Condition::restored, Condition::crowned}) {
    auto screening = screened({found(16, condition)});
    CHECK(checkScreening(screening, anyProgram).error().code == ErrorCode::ruleTooth);
    screening.treatedDecay = Tri::yes;
    CHECK(checkScreening(screening, anyProgram));
    CHECK(checkScreening(screened({found(54, condition)}), anyProgram));
  }
}

TEST_CASE("urgent needs its reason") {
  auto screening = screened({});
  screening.urgency = Urgency::urgent;
  CHECK(checkScreening(screening, anyProgram).error().code == ErrorCode::ruleReason);
  screening.urgentReason = UrgentReason::swelling;
  CHECK(checkScreening(screening, anyProgram));
}

TEST_CASE("a screening holds each tooth once") {
  const auto sound = found(16, Condition::sound);
  CHECK(checkScreening(screened({sound, found(26, Condition::sound)}), anyProgram));
  CHECK(checkScreening(screened({sound, sound}), anyProgram).error().code == ErrorCode::ruleTooth);
}

TEST_CASE("a screening is refused with the fault of any tooth in it") {
  CHECK_FALSE(checkScreening(
      screened({found(16, Condition::sound), found(26, Condition::sealedWhole)}), anyProgram));
}

TEST_CASE("a child needs sealants when any tooth is chosen for treatment") {
  CHECK_FALSE(needsSealant(screened({})));
  CHECK_FALSE(needsSealant(screened({found(16, Condition::sound, Decision::notToday)})));
  for (auto decision : {Decision::seal, Decision::interim, Decision::repair, Decision::reseal})
    CHECK(needsSealant(
        screened({found(26, Condition::sound), found(16, Condition::sound, decision)})));
}
