#include "base/text/text.h"
#include "session/session_write.h"

#include <algorithm>

namespace gk::session {

using base::Error;
using base::ErrorCode;

Result<followup::CheckId> DayVerbs::enterCheck(By by, const followup::RetentionCheck& check) {
  const auto may = admit(Verb::enterCheck, by, {.day = check.day, .child = check.child});
  if (!may) return may.error();
  const auto on = may->on();
  auto placement = only<chairside::Placement>(store::subjectIs(check.placement), "placement");
  if (!placement) return placement.error();
  if (placement->value.child != check.child)
    return Error{ErrorCode::ruleCheck, "that placement is another child's"};
  auto placedDay = this->day(placement->value.day);
  if (!placedDay) return placedDay.error();
  // Of what was sealed again before this day, the newer sealant is looked at.
  const auto earlier = earlierPlacements(check.child, check.day);
  if (!earlier) return earlier.error();
  for (const auto& one : *earlier)
    if (one.placement.id == check.placement) placement->value.surfaces = one.left;
  if (placement->value.surfaces.isEmpty())
    return Error{ErrorCode::ruleCheck, "that sealant was sealed over since; check the newer one"};
  const auto sound = followup::checkRetention(check, placement->value, placedDay->value.date, on);
  if (!sound) return sound.error();
  if (!base::isBlank(check.note))
    if (const auto quiet = namesNeither(check.note, {check.child}); !quiet) return quiet.error();
  auto entered = check;
  // Allowed to whoever placed it, who knows whose it is: then it is not blind, whatever is said.
  if (may->author().id == placement->value.placedBy) entered.blinded = false;
  return write(*may, check.child, [&](store::Act& act) { return act.add(entered); });
}

Result<followup::ReferralId> DayVerbs::enterReferral(By by, const followup::Referral& referral) {
  const auto may = admit(Verb::enterReferral, by, {.day = referral.day});
  if (!may) return may.error();
  const auto sound = followup::checkReferral(referral, {});
  if (!sound) return sound.error();
  return write(*may, referral.child, [&](store::Act& act) { return act.add(referral); });
}

Result<base::Done> DayVerbs::updateReferral(By by, const Recorded<followup::Referral>& old,
                                            const followup::Referral& referral,
                                            const std::string& reason) {
  const auto may = admit(Verb::updateReferral, by, {.day = referral.day, .reason = reason});
  if (!may) return may.error();
  auto attempts = book_.current<followup::ContactAttempt>(store::rowsOf("child", referral.child));
  if (!attempts) return attempts.error();
  std::vector<followup::ContactAttempt> made;
  for (const auto& attempt : *attempts)
    made.push_back(attempt.value);
  const auto sound = followup::checkReferral(referral, made);
  if (!sound) return sound.error();
  if (base::isBlank(reason))
    return Error{ErrorCode::ruleReason, "say what is new about the referral"};
  const auto now = asItStands(old);
  if (!now) return now.error();
  if (now->value.child != referral.child || now->value.day != referral.day)
    return Error{ErrorCode::ruleIdentity, "a referral stays with its child and its day"};
  return write(*may, referral.child, [&](store::Act& act) {
    act.correct(*now, referral, reason);
    return base::Done{};
  });
}

Result<followup::ContactId> DayVerbs::enterContact(By by, const followup::ContactAttempt& attempt) {
  const auto may = admit(Verb::enterContact, by);
  if (!may) return may.error();
  return write(*may, attempt.child, [&](store::Act& act) { return act.add(attempt); });
}

Result<base::Done> DayVerbs::correctTooth(By by, const Recorded<chairside::Placement>& given,
                                          const dentition::Tooth& tooth, const std::string& reason,
                                          const OwnPin& pin) {
  const auto may =
      admit(Verb::correctTooth, by, {.day = given.value.day, .reason = reason, .pin = pin});
  if (!may) return may.error();
  const auto stands = asItStands(given);
  if (!stands) return stands.error();
  const auto& old = *stands;
  const auto closed = isSigned(old.value.day);
  if (!closed) return closed.error();
  if (*closed) {
    // A look at the child on a later day is what finds it; that day says so.
    const auto again = openDayNow();
    const bool isSeen = again && again->id != old.value.day && isSeated(old.value.child, again->id);
    if (!isSeen)
      return Error{ErrorCode::ruleDayOpen, "this school day is signed; reopen it with a reason, or "
                                           "write a late entry; a later visit "
                                           "of the child corrects it too"};
  }
  auto placed = book_.current<chairside::Placement>(
      store::rowsOf("child", old.value.child, "day", old.value.day));
  if (!placed) return placed.error();
  for (const auto& other : *placed)
    if (other.value.tooth == tooth && other.value.attempt == chairside::Attempt::complete)
      return Error{ErrorCode::ruleTooth,
                   "the " + tooth.words() + " has a sealant of that day itself"};
  auto corrected = old.value;
  corrected.tooth = tooth;
  // The companion surface of an upper molar is no surface of a lower one.
  if (corrected.surfaces == dentition::usualSurfaces(old.value.tooth))
    corrected.surfaces = dentition::usualSurfaces(tooth);
  return write(*may, corrected.child, [&](store::Act& act) {
    act.correct(old, corrected, reason);
    // What was signed for does not change unseen: the sheet of that day prints it.
    if (*closed)
      act.add(roster::Addendum{old.value.day, old.value.child,
                               "sealant charted on the " + old.value.tooth.words() + " is on the " +
                                   tooth.words() + ": " + reason});
    return base::Done{};
  });
}

} // namespace gk::session
