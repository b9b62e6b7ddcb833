#include "base/text/text.h"
#include "chairside/allergy.h"
#include "followup/display_names.h"
#include "session/light_reading.h"
#include "session/session_write.h"

#include <algorithm>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using chairside::DayEnd;

Result<base::Done> Door::dateOpenForCare(roster::ChildId child, base::Date on) {
  auto card = this->child(child);
  if (!card) return card.error();
  auto days = book_.current<roster::ClinicDay>(store::everything());
  if (!days) return days.error();
  Result<base::Done> found = base::Done{};
  for (const auto& day : *days) {
    if (day.value.date != on || day.value.school != card->value.school) continue;
    const auto open = dayInState(day.id, DayMust::beOpen);
    if (open) return base::Done{};
    found = open.error();
  }
  return found;
}

Result<base::Done> Door::mayTreat(roster::ChildId child, roster::Service service, base::Date on) {
  auto overrides = book_.current<roster::ConsentOverride>(store::rowsOf("child", child));
  if (!overrides) return overrides.error();
  const bool taken = std::ranges::any_of(
      *overrides, [&](const auto& override) { return override.value.on == on; });
  if (taken) return base::Done{};
  const auto standing = this->standing(child, service, on);
  if (!standing) return standing.error();
  if (!standing->allows)
    return Error{ErrorCode::ruleConsent, "no valid consent for " +
                                             std::string(base::displayName(service)) + " on " +
                                             on.words() + ": " + standing->why};
  return base::Done{};
}

Result<base::Done> Door::agreementHolds(roster::DayId day) {
  const auto lapsed = lapsedAgreement(day);
  if (!lapsed) return lapsed.error();
  if (!*lapsed) return base::Done{};
  return Error{ErrorCode::ruleCredential,
               "the agreement with the authorizing dentist ended on " + (*lapsed)->words() +
                   "; a clinician can give a reason to place sealants today, or enter the new date "
                   "at the desk, under Program"};
}

Result<base::Done> Door::isSeated(roster::ChildId child, roster::DayId day) {
  auto seatings = book_.current<chairside::Seating>(store::rowsOf("child", child, "day", day));
  if (!seatings) return seatings.error();
  if (seatings->empty())
    return Error{ErrorCode::ruleIdentity,
                 "the child's identity is not confirmed yet today; do that first"};
  return base::Done{};
}

Result<base::Done> Door::lotFits(kit::LotId lot, kit::MaterialKind kind, roster::ChildId child,
                                 base::Date on) {
  auto found = lotWithTwins(*this, lot);
  if (!found) return found.error();
  if (found->value.kind != kind)
    return Error{ErrorCode::ruleMaterial, kit::shown(found->value) + " is " +
                                              std::string(base::displayName(found->value.kind)) +
                                              " and cannot be used as " +
                                              std::string(base::displayName(kind))};
  if (const auto usable = kit::checkUsable(found->value, on); !usable) return usable.error();
  auto flagged = flags(child);
  if (!flagged) return flagged.error();
  return chairside::checkAllergy(found->value, *flagged);
}

Result<base::Done> Door::lightFits(kit::LightId light, base::Date on, const chairside::StepRun& run,
                                   const roster::Member& author) {
  const auto all = lights();
  if (!all) return all.error();
  const auto found = std::ranges::find(*all, light, &Recorded<kit::Light>::id);
  if (found == all->end()) return Error{ErrorCode::notFound, "no such light"};
  const auto red = readsRed(*this, light, on);
  if (!red) return red.error();
  if (found->value.inService && !*red) return base::Done{};
  const bool taken = !base::isBlank(run.reason) && author.may.has(roster::Task::clinicianOverride);
  if (taken) return base::Done{};
  return Error{ErrorCode::ruleLight,
               "light " + found->value.tag +
                   (found->value.inService ? " reads red today" : " is out of service") +
                   "; take another light, a self-cure material, or have a clinician give a reason"};
}

Result<base::Done> Door::outcomeFits(const chairside::DayOutcome& outcome,
                                     std::span<const chairside::Placement> besides) {
  const auto here = store::rowsOf("child", outcome.child, "day", outcome.day);
  auto placed = book_.current<chairside::Placement>(here);
  if (!placed) return placed.error();
  auto screened = book_.current<chairside::Screening>(here);
  if (!screened) return screened.error();
  auto checked = book_.current<followup::RetentionCheck>(here);
  if (!checked) return checked.error();
  const auto complete =
      std::ranges::count_if(
          *placed, [](const auto& p) { return p.value.attempt == chairside::Attempt::complete; }) +
      std::ranges::count(besides, chairside::Attempt::complete, &chairside::Placement::attempt);
  const auto refuse = [&](std::string why) -> Result<base::Done> {
    return Error{ErrorCode::ruleOutcome, "\"" + std::string(base::displayName(outcome.end)) +
                                             "\" does not fit: " + std::move(why)};
  };
  switch (outcome.end) {
  case DayEnd::sealedComplete:
  case DayEnd::sealedUnfinished:
    if (complete == 0) return refuse("no tooth was sealed today");
    if (outcome.end == DayEnd::sealedUnfinished && base::isBlank(outcome.reason))
      return refuse("say what is unfinished and why");
    return base::Done{};
  case DayEnd::screenedNoneNeeded:
  case DayEnd::screenedNotTreated:
    if (screened->empty()) return refuse("there is no screening today");
    if (complete > 0) return refuse("teeth were sealed today");
    if (outcome.end == DayEnd::screenedNotTreated && base::isBlank(outcome.reason))
      return refuse("say why nothing was done");
    return base::Done{};
  case DayEnd::recheckOnly:
    return checked->empty() ? refuse("nothing was checked today") : base::Done{};
  case DayEnd::absent:
  case DayEnd::notReached: {
    const auto seated = isAny<chairside::Seating>(here);
    if (!seated) return seated.error();
    if (*seated && outcome.end == DayEnd::absent) return refuse("the child was in the chair today");
    const auto seen = isAny<chairside::Screening, chairside::Field, chairside::Placement,
                            chairside::Varnish, followup::RetentionCheck>(here);
    if (!seen) return seen.error();
    return *seen || !besides.empty() ? refuse("the child was seen today") : base::Done{};
  }
  case DayEnd::declined:
  case DayEnd::leftSchool:
  case DayEnd::withdrawn:
  case DayEnd::onHold:
    return complete == 0 ? base::Done{} : refuse("teeth were sealed today");
  }
  base::fail("no such outcome");
}

Result<base::Done> Door::isCareComplete(const chairside::DayOutcome& outcome, base::Date on) {
  const bool isSealed =
      outcome.end == DayEnd::sealedComplete || outcome.end == DayEnd::sealedUnfinished;
  const bool isSeen = isSealed || outcome.end == DayEnd::screenedNoneNeeded ||
                      outcome.end == DayEnd::screenedNotTreated ||
                      outcome.end == DayEnd::recheckOnly;
  if (!isSeen) return base::Done{};
  const auto here = store::rowsOf("child", outcome.child, "day", outcome.day);
  if (isSealed) {
    auto placed = book_.current<chairside::Placement>(here);
    if (!placed) return placed.error();
    auto after = book_.current<chairside::AfterCure>(here);
    if (!after) return after.error();
    // By identity, which a later correction of the tooth keeps.
    std::optional<base::Uuid> last;
    for (const auto& row : *placed)
      if (row.value.attempt == chairside::Attempt::complete)
        last = std::max(last.value_or(row.id.uuid()), row.id.uuid());
    const bool isSaid = std::ranges::any_of(
        *after, [&](const auto& row) { return !last || row.stamp.entry.uuid() > *last; });
    if (!isSaid)
      return Error{
          ErrorCode::ruleOutcome,
          "not answered yet: was the surface wiped and the bite checked after the last cure"};
  }
  const auto allowed = standing(outcome.child, roster::Service::varnish, on);
  if (!allowed) return allowed.error();
  auto varnished = book_.current<chairside::Varnish>(here);
  if (!varnished) return varnished.error();
  const bool isOpen = allowed->allows && varnished->empty();
  if (isOpen && base::trim(outcome.varnishSkipped).empty())
    return Error{ErrorCode::ruleVarnish,
                 "the form allows varnish and none was applied: apply it, or say why not"};
  return base::Done{};
}

} // namespace gk::session
