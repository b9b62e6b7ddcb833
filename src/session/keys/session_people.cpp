#include "base/text/text.h"
#include "followup/display_names.h"
#include "followup/placements_confirmed.h"
#include "session/reader_held.h"
#include "session/session_write.h"
#include "vault/vault.h"

#include <algorithm>

// Members' PINs, and what each operator confirms of her own.
namespace gk::session {

using base::Error;
using base::ErrorCode;
using roster::MemberPin;
using roster::PinState;

namespace {

/// Days as far back are looked through for placements that were never confirmed: a term and the
/// holidays before it (ours).
constexpr int daysBack = 200;

PinState stateOf(const std::optional<MemberPin>& pin) {
  if (!pin) return PinState::none;
  return pin->isReset() ? PinState::toChoose : PinState::set;
}

std::string whatOf(const chairside::Placement& placement) {
  if (placement.attempt != chairside::Attempt::complete)
    return std::string(base::displayName(placement.attempt));
  return std::string(base::displayName(placement.type)) + ", " +
         dentition::words(placement.surfaces);
}

} // namespace

Result<PinState> PeopleVerbs::pinOf(base::MemberId who) {
  const auto pin = newestPin(who);
  if (!pin) return pin.error();
  return stateOf(*pin);
}

Result<bool> PeopleVerbs::hasPins() {
  const auto team = members();
  if (!team) return team.error();
  for (const auto& one : *team) {
    if (!one.value.may.has(roster::Task::type)) continue;
    const auto state = pinOf(one.id);
    if (!state) return state.error();
    if (*state == PinState::set) return true;
  }
  return false;
}

Result<base::Done> PeopleVerbs::setPin(By by, base::MemberId whose, std::string pin,
                                       const OwnPin& own) {
  const auto given = crypto::Secret::taking(pin);
  const auto may = admit(Verb::setPin, by, {.pin = own});
  if (!may) return may.error();
  const auto member = entitled(whose, roster::Task::type, may->on());
  if (!member) return member.error();
  const auto state = pinOf(whose);
  if (!state) return state.error();
  const bool isHers = by.author == whose;
  if (!isHers && *state != PinState::none)
    return Error{ErrorCode::ruleCredential,
                 member->value.name + " alone chooses that PIN; if it is forgotten, reset it"};
  if (!isHers && !roster::keepsTeam(may->author().value))
    return Error{ErrorCode::ruleCredential,
                 may->author().value.name + " does not sign and is not a manager, so " +
                     member->value.name + " or one of those sets the first PIN"};
  if (!vault_)
    return Error{ErrorCode::vaultLocked, "unlock the names first: a PIN is sealed with them"};
  if (const auto newest = sealsWithNewest(); !newest) return newest.error();
  auto sealed = vault_->sealPin(book_.enteredAs(whose.uuid()), given, costOf(kind_), world_.random);
  if (!sealed) return sealed.error();
  auto written = write(*may, {}, [&](store::Act& act) {
    act.add(MemberPin{.member = whose,
                      .salt = sealed->salt,
                      .opsLimit = sealed->opsLimit,
                      .memoryBytes = sealed->memoryBytes,
                      .nonce = sealed->nonce,
                      .box = sealed->box});
    return base::Done{};
  });
  // She typed it, so she is there.
  if (written && isHers && by.recorder.value_or(whose) == whose) keyboard_.signedIn = whose;
  return written;
}

Result<base::Done> PeopleVerbs::addReset(const Admission& may, base::MemberId whose,
                                         const std::string& reason) {
  const auto state = pinOf(whose);
  if (!state) return state.error();
  if (*state != PinState::set)
    return Error{ErrorCode::notFound, "there is no PIN to reset; one may be chosen"};
  auto written = write(may, {}, [&](store::Act& act) {
    act.add(MemberPin{.member = whose,
                      .salt = {},
                      .opsLimit = 0,
                      .memoryBytes = 0,
                      .nonce = {},
                      .box = {},
                      .reason = reason});
    return base::Done{};
  });
  if (written && keyboard_.signedIn == whose) keyboard_.signedIn.reset();
  return written;
}

Result<base::Done> PeopleVerbs::resetPin(By by, base::MemberId whose, const std::string& reason,
                                         const OwnPin& own) {
  const auto may = admit(Verb::resetPin, by, {.reason = reason, .pin = own});
  if (!may) return may.error();
  if (by.author == whose)
    return Error{ErrorCode::ruleCredential,
                 "another member who signs, or a manager, resets a PIN; with the old one, it "
                 "can be changed"};
  if (!roster::keepsTeam(may->author().value))
    return Error{ErrorCode::ruleCredential,
                 may->author().value.name +
                     " does not sign and is not a manager, so one of those resets the PIN"};
  return addReset(*may, whose, reason);
}

Result<base::Done> PeopleVerbs::resetOwnPin(base::MemberId whose, std::string passphrase,
                                            const std::string& reason) {
  const auto team = members();
  if (!team) return team.error();
  // Whose own PIN cannot be checked can reset no one's; and where that is said of all of them, the
  // passphrase or the recovery code stands for them, or one forged row each would lock all out.
  const auto canReset = [&](const auto& one) {
    if (one.id == whose || !roster::keepsTeam(one.value)) return false;
    return !vault_ || pinThatCounts(book_, *vault_, one.id).has_value();
  };
  if (std::ranges::any_of(*team, canReset))
    return Error{ErrorCode::ruleCredential,
                 "another member who signs, or a manager, resets a PIN that is forgotten"};
  if (const auto opens = isOpenedBy(passphrase, OrCode::yes); !opens) return opens.error();
  const auto before = keyboard_.signedIn;
  keyboard_.signedIn = whose;
  const auto own = keyboard_.confirm(whose, world_.clock.steady());
  const auto may = admit(Verb::resetPin, {.author = whose}, {.reason = reason, .pin = own});
  auto done = may ? addReset(*may, whose, reason) : Result<base::Done>(may.error());
  if (!done) keyboard_.signedIn = before;
  return done;
}

Result<std::set<base::EntryId>> PeopleVerbs::confirmedPlacements(roster::DayId day) {
  const auto said = book_.current<followup::PlacementsConfirmed>(store::rowsOf("day", day));
  if (!said) return said.error();
  if (said->empty()) return std::set<base::EntryId>();
  const auto ever = book_.history<chairside::Placement>(store::rowsOf("day", day));
  if (!ever) return ever.error();
  return followup::confirmedRows(*ever, *said);
}

Result<std::vector<DayToConfirm>> PeopleVerbs::placementsToConfirm(base::MemberId who) {
  std::vector<DayToConfirm> found;
  auto days = book_.current<roster::ClinicDay>(store::everything());
  if (!days) return days.error();
  const auto since = world_.clock.now().date().plusDays(-daysBack);
  std::erase_if(*days, [&](const auto& day) { return day.value.date < since; });
  std::ranges::stable_sort(*days, {}, [](const auto& day) { return day.value.date; });
  for (const auto& day : *days) {
    auto placed = book_.current<chairside::Placement>(store::rowsOf("day", day.id));
    if (!placed) return placed.error();
    std::erase_if(*placed, [&](const auto& row) { return row.value.placedBy != who; });
    if (placed->empty()) continue;
    const auto confirmed = confirmedPlacements(day.id);
    if (!confirmed) return confirmed.error();
    DayToConfirm one{day.id, day.value.date, {}, placed->size()};
    for (const auto& row : *placed) {
      if (confirmed->contains(row.stamp.entry)) continue;
      const auto child = this->child(row.value.child);
      if (!child) return child.error();
      one.waiting.push_back({child->value.number, row.value.tooth, whatOf(row.value)});
    }
    if (one.waiting.empty()) continue;
    auto school = only<roster::School>(store::subjectIs(day.value.school), "school");
    if (!school) return school.error();
    one.school = school->value.name;
    found.push_back(std::move(one));
  }
  return found;
}

Result<base::Done> PeopleVerbs::confirmPlacements(By by, roster::DayId day, const OwnPin& own) {
  const auto may = admit(Verb::confirmPlacements, by, {.day = day, .pin = own});
  if (!may) return may.error();
  auto placed = book_.current<chairside::Placement>(store::rowsOf("day", day));
  if (!placed) return placed.error();
  const auto confirmed = confirmedPlacements(day);
  if (!confirmed) return confirmed.error();
  std::erase_if(*placed, [&](const auto& row) {
    return row.value.placedBy != *by.author || confirmed->contains(row.stamp.entry);
  });
  if (placed->empty())
    return Error{ErrorCode::notFound, "no placement of " + may->author().value.name +
                                          " on that day waits to be confirmed"};
  return write(*may, {}, [&](store::Act& act) {
    for (const auto& last : followup::lastOfEachLaptop(*placed))
      act.add(followup::PlacementsConfirmed{day, *by.author, last});
    return base::Done{};
  });
}

} // namespace gk::session
