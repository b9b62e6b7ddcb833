#pragma once

#include "chairside/screening.h"

namespace gk::followup {

using ReferralId = base::Id<struct ReferralTag>;
using ContactId = base::Id<struct ContactTag>;

enum class ReferredTo { ownDentist, communityClinic, emergency, medical, noneAvailable };
enum class ReferralState {
  open,
  treatedComplete,
  treatmentStarted,
  seenNoneNeeded,
  declined,
  moved,
  lostAfterAttempts
};

struct Referral {
  using Key = ReferralId;
  roster::ChildId child;
  roster::DayId day;
  chairside::Urgency urgency; ///< early or urgent
  std::string reason;
  base::Date due; ///< urgent within 48 hours, early within six weeks (Seal America, step 9)
  ReferredTo to = ReferredTo::ownDentist;
  ReferralState state = ReferralState::open;
  bool operator==(const Referral&) const = default;
};

/// The last day by which the child should be seen, counted from the day of the screening.
/// Precondition: early or urgent.
base::Date referralDue(chairside::Urgency urgency, base::Date seen);

enum class Channel { phone, letter, nurse, message };
enum class ContactResult { reached, message, noAnswer, wrongNumber, returned };

/// What the findings of a screening ask a dentist for: untreated decay, or an urgency that was
/// said; none where there is neither.
std::optional<Referral> proposedReferral(const chairside::Screening& screening, base::Date seen);

/// One try at reaching a guardian about a child.
struct ContactAttempt {
  using Key = ContactId;
  roster::ChildId child;
  roster::DayId day;
  Channel channel;
  ContactResult result;
  std::string note;
  bool operator==(const ContactAttempt&) const = default;
};

/// `attempts` are those made since the referral was opened; other children's are passed over.
/// Fails with `ruleReferral`: a referral without urgency or reason, an urgent one closed without
/// someone having been reached by more than a letter, one closed as lost without any attempt.
base::Result<base::Done> checkReferral(const Referral& referral,
                                       std::span<const ContactAttempt> attempts);

} // namespace gk::followup

template <>
inline constexpr auto gk::base::enumNames<gk::followup::ReferredTo> =
    std::to_array<std::string_view>({"own dentist", "community clinic", "emergency", "medical",
                                     "none available"});
template <>
inline constexpr auto gk::base::enumNames<gk::followup::ReferralState> =
    std::to_array<std::string_view>({"open", "treated, complete", "treatment started",
                                     "seen, none needed", "declined", "moved",
                                     "lost after attempts"});
template <>
inline constexpr auto gk::base::enumNames<gk::followup::Channel> =
    std::to_array<std::string_view>({"phone", "letter", "nurse", "message"});
template <>
inline constexpr auto gk::base::enumNames<gk::followup::ContactResult> =
    std::to_array<std::string_view>({"reached", "message", "no answer", "wrong number",
                                     "returned"});
