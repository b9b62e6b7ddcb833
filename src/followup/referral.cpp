#include "followup/referral.h"

#include "base/text/text.h"
#include "chairside/display_names.h"

#include <algorithm>

namespace gk::followup {

using base::Error;
using base::ErrorCode;
using chairside::Urgency;

namespace {

Error refusedReferral(std::string why) {
  return {ErrorCode::ruleReferral, std::move(why)};
}

} // namespace

base::Date referralDue(Urgency urgency, base::Date seen) {
  base::require(urgency != Urgency::none, "a due date for a child who needs no referral");
  return seen.plusDays(urgency == Urgency::urgent ? 2 : 42); // Seal America, step 9
}

std::optional<Referral> proposedReferral(const chairside::Screening& screening, base::Date seen) {
  const bool decay = screening.untreatedDecay == chairside::Tri::yes;
  if (!decay && screening.urgency == Urgency::none) return std::nullopt;
  const auto urgency = std::max(screening.urgency, Urgency::early);
  std::vector<std::string> teeth;
  for (const auto& finding : screening.teeth)
    if (finding.hasAny(chairside::Condition::cavitated)) teeth.push_back(finding.tooth.words());
  std::vector<std::string> why;
  if (screening.urgentReason != chairside::UrgentReason::none)
    why.emplace_back(base::displayName(screening.urgentReason));
  if (decay)
    why.push_back("untreated decay" + (teeth.empty() ? "" : ": " + base::join(teeth, ", ")));
  if (why.empty()) why.emplace_back(base::displayName(urgency));
  return Referral{.child = screening.child,
                  .day = screening.day,
                  .urgency = urgency,
                  .reason = base::join(why, "; "),
                  .due = referralDue(urgency, seen)};
}

base::Result<base::Done> checkReferral(const Referral& referral,
                                       std::span<const ContactAttempt> attempts) {
  if (referral.urgency == Urgency::none)
    return refusedReferral("a referral is early or urgent; set the urgency of the screening first");
  if (base::isBlank(referral.reason))
    return refusedReferral("a referral needs a reason; write what was seen");
  if (referral.state == ReferralState::open) return base::Done{};

  const auto ours = [&](const ContactAttempt& attempt) { return attempt.child == referral.child; };
  // A letter that went out is no answer, so it does not close an urgent need.
  const auto answered = [&](const ContactAttempt& attempt) {
    return ours(attempt) && attempt.result == ContactResult::reached &&
           attempt.channel != Channel::letter;
  };
  if (referral.urgency == Urgency::urgent && std::ranges::none_of(attempts, answered))
    return refusedReferral(
        "an urgent referral stays open until someone has been reached; log the call "
        "that reached the guardian first");
  if (referral.state == ReferralState::lostAfterAttempts && std::ranges::none_of(attempts, ours))
    return refusedReferral("lost to follow-up, but no attempt is logged; log them first");
  return base::Done{};
}

} // namespace gk::followup
