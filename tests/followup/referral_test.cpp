#include "checks.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::followup;
using namespace gk::followup::test;
using chairside::Urgency;

namespace {

Referral referral(Urgency urgency, ReferralState state = ReferralState::open) {
  return {.child = id<roster::ChildId>(1),
          .day = id<roster::DayId>(2),
          .urgency = urgency,
          .reason = "swelling, lower right",
          .due = day(2026, 11, 19),
          .state = state};
}

ContactAttempt attempt(ContactResult result, Channel channel = Channel::phone,
                       std::uint64_t child = 1) {
  return {.child = id<roster::ChildId>(child),
          .day = id<roster::DayId>(2),
          .channel = channel,
          .result = result,
          .note = {}};
}

bool accepted(const Referral& value, const std::vector<ContactAttempt>& attempts = {}) {
  const auto result = checkReferral(value, attempts);
  if (!result) CHECK(result.error().code == base::ErrorCode::ruleReferral);
  return result.has_value();
}

} // namespace

TEST_CASE("Urgent is due in two days and early in six weeks") {
  // Seal America, step 9: 48 hours and six weeks
  CHECK(referralDue(Urgency::urgent, day(2026, 11, 17)) == day(2026, 11, 19));
  CHECK(referralDue(Urgency::early, day(2026, 11, 17)) == day(2026, 12, 29));
}

TEST_CASE("A referral needs urgency and a reason") {
  CHECK(accepted(referral(Urgency::urgent)));
  CHECK(accepted(referral(Urgency::early)));
  CHECK_FALSE(accepted(referral(Urgency::none)));
  auto silent = referral(Urgency::early);
  silent.reason = "";
  CHECK_FALSE(accepted(silent));
}

TEST_CASE("An urgent referral stays open until someone was reached", "[case-81]") {
  for (std::size_t i = 1; i < base::enumCount<ReferralState>; ++i) {
    const auto closed = referral(Urgency::urgent, static_cast<ReferralState>(i));
    INFO(base::nameOf(closed.state));
    CHECK_FALSE(accepted(closed));
    CHECK_FALSE(accepted(closed, {attempt(ContactResult::message), attempt(ContactResult::noAnswer),
                                  attempt(ContactResult::wrongNumber)}));
    CHECK_FALSE(accepted(closed, {attempt(ContactResult::reached, Channel::letter)}));
    CHECK_FALSE(accepted(closed, {attempt(ContactResult::reached, Channel::phone, 77)}));
    CHECK(accepted(closed, {attempt(ContactResult::noAnswer), attempt(ContactResult::reached)}));
  }
}

TEST_CASE("An early referral is lost only after attempts") {
  const auto lost = referral(Urgency::early, ReferralState::lostAfterAttempts);
  CHECK_FALSE(accepted(lost));
  CHECK_FALSE(accepted(lost, {attempt(ContactResult::noAnswer, Channel::phone, 77)}));
  CHECK(accepted(lost, {attempt(ContactResult::noAnswer)}));
  CHECK(accepted(referral(Urgency::early, ReferralState::treatedComplete)));
}

TEST_CASE("A charted cavity or an urgency proposes a referral, with the teeth and the date",
          "[case-300]") {
  chairside::Screening screening{.child = id<roster::ChildId>(1),
                                 .day = id<roster::DayId>(2),
                                 .untreatedDecay = chairside::Tri::no,
                                 .treatedDecay = chairside::Tri::no,
                                 .urgency = Urgency::none,
                                 .note = {},
                                 .teeth = {}};
  const auto seen = day(2026, 11, 17);
  CHECK_FALSE(proposedReferral(screening, seen));
  chairside::ToothFinding cavity{.tooth = dentition::toothAt(36),
                                 .presence = chairside::Presence::erupted};
  cavity.occlusal.condition = chairside::Condition::cavitated;
  screening.teeth = {cavity};
  screening.untreatedDecay = chairside::Tri::yes;
  const auto early = proposedReferral(screening, seen);
  REQUIRE(early);
  CHECK(early->urgency == Urgency::early); // decay alone waits six weeks at most
  CHECK(early->reason == "untreated decay: lower left first molar");
  CHECK(early->due == day(2026, 12, 29));
  CHECK(accepted(*early));
  screening.urgency = Urgency::urgent;
  screening.urgentReason = chairside::UrgentReason::swelling;
  const auto urgent = proposedReferral(screening, seen);
  REQUIRE(urgent);
  CHECK(urgent->due == day(2026, 11, 19));
  CHECK(urgent->reason == "swelling; untreated decay: lower left first molar");
  screening.untreatedDecay = chairside::Tri::no;
  screening.teeth.clear();
  CHECK(proposedReferral(screening, seen)->reason == "swelling");
}
