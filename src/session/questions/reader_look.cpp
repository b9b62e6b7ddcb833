#include "followup/display_names.h"
#include "kit/twins.h"
#include "session/reader_held.h"
#include "session/session_write.h"

#include <algorithm>
#include <ranges>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using store::everything;
using store::rowsOf;
using store::subjectIs;

Result<Recorded<roster::Program>> Reader::program() {
  return only<roster::Program>(everything(), "program");
}

List<roster::Term> Reader::terms() {
  return book_.current<roster::Term>(everything());
}

List<roster::School> Reader::schools() {
  return book_.current<roster::School>(everything());
}

List<roster::Member> Reader::members() {
  return book_.current<roster::Member>(everything());
}

List<roster::ClinicDay> Reader::days(roster::TermId term) {
  return book_.current<roster::ClinicDay>(rowsOf("term", term));
}

Result<Recorded<roster::ClinicDay>> Reader::day(roster::DayId day) {
  return only<roster::ClinicDay>(subjectIs(day), "school day");
}

Result<Recorded<roster::ClinicDay>> Reader::openDayNow() {
  auto all = book_.current<roster::ClinicDay>(everything());
  if (!all) return all.error();
  const auto part = oneSchool();
  if (!part) return part.error();
  std::ranges::stable_sort(*all, {}, [](const auto& day) { return day.value.date; });
  for (auto& day : *all | std::views::reverse) {
    // In a logbook of one school another's day has no one to see.
    if (*part && (*part)->school != day.value.school) continue;
    const auto closed = isSigned(day.id);
    if (!closed) return closed.error();
    if (!*closed && !day.value.canceled) return std::move(day);
  }
  return Error{ErrorCode::notFound, "no school day is open"};
}

Result<base::Date> Reader::careDate() {
  const auto open = openDayNow();
  if (open) return open->value.date;
  if (open.error().code != ErrorCode::notFound) return open.error();
  return world_.clock.now().date();
}

Result<bool> Reader::isSigned(roster::DayId day) {
  auto closures = book_.current<roster::DayClosure>(rowsOf("day", day));
  if (!closures) return closures.error();
  return !closures->empty();
}

Result<std::optional<base::Date>> Reader::lapsedAgreement(roster::DayId id) {
  auto day = this->day(id);
  if (!day) return day.error();
  auto program = this->program();
  if (!program) return program.error();
  const auto until = program->value.agreementUntil;
  if (!until || day->value.date <= *until) return std::optional<base::Date>{};
  auto taken = book_.current<roster::AgreementOverride>(rowsOf("day", id));
  if (!taken) return taken.error();
  return taken->empty() ? until : std::optional<base::Date>{};
}

List<kit::ReadinessCheck> Reader::readiness(roster::DayId day) {
  auto rows = book_.current<kit::ReadinessCheck>(rowsOf("day", day));
  if (!rows) return rows;
  return kit::newestOfEach(*rows);
}

List<kit::Light> Reader::lights() {
  auto rows = book_.current<kit::Light>(everything());
  if (rows) kit::agree(*rows);
  return rows;
}

List<kit::MeterReading> Reader::readings(kit::LightId light) {
  return book_.current<kit::MeterReading>(rowsOf("light", light));
}

List<kit::Lot> Reader::lots() {
  auto rows = book_.current<kit::Lot>(everything());
  if (rows) kit::agree(*rows);
  return rows;
}

Result<Recorded<kit::Lot>> lotWithTwins(Reader& book, kit::LotId id) {
  const auto lots = book.lots();
  if (!lots) return lots.error();
  const auto at = std::ranges::find(*lots, id, &Recorded<kit::Lot>::id);
  if (at == lots->end()) return Error{ErrorCode::notFound, "no such lot"};
  return *at;
}

List<kit::CureTime> Reader::cureTimes() {
  return book_.current<kit::CureTime>(everything());
}

Result<base::Seconds> Reader::cureTarget(kit::LotId sealant, std::optional<kit::LightId> light) {
  auto lot = lotWithTwins(*this, sealant);
  if (!lot) return lot.error();
  if (!light) return lot->value.makersTime;
  auto table = cureTimes();
  if (!table) return table.error();
  std::vector<kit::CureTime> times;
  for (const auto& row : *table)
    times.push_back(row.value);
  return kit::cureTarget(lot->value, *light, times);
}

Result<Recorded<roster::Child>> Reader::child(roster::ChildId child) {
  return only<roster::Child>(subjectIs(child), "student");
}

Result<Identity> Reader::identity(roster::ChildId child) {
  if (!vault_) return Error{ErrorCode::vaultLocked, "unlock the logbook to see names"};
  const auto sealed = only<store::SealedIdentity>(rowsOf("child", child), "identity");
  if (!sealed) return sealed.error();
  auto newest = reveal(child, {sealed->value.nonce, sealed->value.box});
  if (newest || newest.error().code != ErrorCode::vaultDamaged) return newest;
  // Whoever can write a row that does not open takes no name away by it: the newest that does.
  const auto ever = book_.history<store::SealedIdentity>(rowsOf("child", child));
  if (!ever) return ever.error();
  for (const auto& box : *ever | std::views::reverse)
    if (auto earlier = reveal(child, {box.value.nonce, box.value.box})) return earlier;
  return newest;
}

Result<Identity> Reader::reveal(roster::ChildId child, const crypto::Sealed& sealed) {
  auto identity = vault_->reveal(book_.enteredAs(child.uuid()), sealed);
  if (identity || identity.error().code != ErrorCode::vaultDamaged) return identity;
  const auto keys = book_.current<roster::BookKey>(store::everything());
  if (!keys) return keys.error();
  for (const auto& key : *keys)
    if (!vault_->holds(roster::uuidOf(key.value.name)))
      return Error{ErrorCode::vaultReplaced, "sealed with a key of the names that was set on " +
                                                 key.stamp.at.date().words() +
                                                 " on another laptop; lock, then unlock with "
                                                 "the passphrase of then"};
  return identity;
}

List<roster::Consent> Reader::consents(roster::ChildId child) {
  return book_.current<roster::Consent>(rowsOf("child", child));
}

Result<std::optional<roster::Background>> Reader::background(roster::ChildId child) {
  const auto rows = book_.current<roster::Background>(rowsOf("child", child));
  if (!rows) return rows.error();
  return rows->empty() ? std::nullopt : std::optional(rows->back().value);
}

List<roster::MedicalFlag> Reader::flags(roster::ChildId child) {
  return book_.current<roster::MedicalFlag>(rowsOf("child", child));
}

Result<roster::Standing> Reader::standing(roster::ChildId child, roster::Service service,
                                          base::Date on) {
  auto forms = consents(child);
  if (!forms) return forms.error();
  return roster::standing(*forms, service, on);
}

List<chairside::Authorization> Reader::authorizations(roster::ChildId child) {
  return book_.current<chairside::Authorization>(rowsOf("child", child));
}

Result<std::string> Reader::dentistWords(roster::ChildId child, base::Date on) {
  auto program = this->program();
  if (!program) return program.error();
  if (!chairside::waitsForDentist(program->value)) return std::string();
  auto named = authorizations(child);
  if (!named) return named.error();
  const auto teeth = chairside::authorizedTeeth(*named, on);
  if (teeth.empty()) return std::string("WAITING for the dentist's exam: no tooth is authorized");
  auto words = "authorized " + std::to_string(teeth.size()) + ": " +
               dentition::shown(teeth, program->value.notation);
  for (const auto& one : *named) {
    if (!chairside::holds(one.value, on)) continue;
    auto dentist = only<roster::Member>(store::subjectIs(one.value.dentist), "team member");
    if (!dentist) return dentist.error();
    words += ". " + dentist->value.name + ", " + std::string(base::displayName(one.value.how)) +
             ", " + one.value.on.words() + ", through " + one.value.until.words();
  }
  return words;
}

List<chairside::Screening> Reader::screenings(roster::ChildId child) {
  return book_.current<chairside::Screening>(rowsOf("child", child));
}

List<chairside::Placement> Reader::placements(roster::ChildId child) {
  return book_.current<chairside::Placement>(rowsOf("child", child));
}

List<chairside::Varnish> Reader::varnishes(roster::ChildId child) {
  return book_.current<chairside::Varnish>(rowsOf("child", child));
}

List<chairside::DayOutcome> Reader::outcomes(roster::ChildId child) {
  return book_.current<chairside::DayOutcome>(rowsOf("child", child));
}

List<followup::Referral> Reader::referrals(roster::ChildId child) {
  return book_.current<followup::Referral>(rowsOf("child", child));
}

List<followup::RetentionCheck> Reader::checks(roster::ChildId child) {
  return book_.current<followup::RetentionCheck>(rowsOf("child", child));
}

List<chairside::AfterCure> Reader::afterCures(roster::ChildId child, roster::DayId day) {
  return book_.current<chairside::AfterCure>(rowsOf("child", child, "day", day));
}

List<chairside::PaperSheet> Reader::paperSheets(roster::DayId day) {
  return book_.current<chairside::PaperSheet>(rowsOf("day", day));
}

dentition::SurfaceSet surfacesLeft(const std::vector<EarlierPlacement>& placed, std::size_t of) {
  const auto& one = placed.at(of).placement.value;
  auto left = one.surfaces;
  for (auto later = of + 1; later < placed.size(); ++later) {
    const auto& over = placed[later].placement.value;
    if (over.tooth == one.tooth && over.type != chairside::PlacementType::repair)
      left = left.without(over.surfaces);
  }
  return left;
}

Result<std::vector<EarlierPlacement>> Reader::earlierPlacements(roster::ChildId child,
                                                                roster::DayId day) {
  auto today = this->day(day);
  if (!today) return today.error();
  auto placed = placements(child);
  if (!placed) return placed.error();
  auto checks = this->checks(child);
  if (!checks) return checks.error();
  std::vector<EarlierPlacement> earlier;
  for (auto& placement : *placed) {
    auto then = this->day(placement.value.day);
    if (!then) return then.error();
    if (then->value.date >= today->value.date ||
        placement.value.attempt != chairside::Attempt::complete)
      continue;
    auto school = only<roster::School>(subjectIs(then->value.school), "school");
    if (!school) return school.error();
    EarlierPlacement one{placement, then->value.date, school->value.name, {}};
    for (const auto& check : *checks)
      if (check.value.placement == placement.id) one.newest = check;
    earlier.push_back(std::move(one));
  }
  std::ranges::stable_sort(earlier, {}, &EarlierPlacement::placedOn);
  for (std::size_t i = 0; i < earlier.size(); ++i)
    earlier[i].left = surfacesLeft(earlier, i);
  return earlier;
}

std::string Reader::clockWarning() {
  const auto newest = book_.newestMoment();
  const auto now = world_.clock.now();
  // Two minutes of grace: two laptops are never set quite alike.
  if (now.at.utc + base::Seconds(120) >= newest.utc) return {};
  return "This laptop's clock says " + now.words() + ", but the logbook has entries from " +
         base::LocalInstant{newest, now.offset}.words() +
         ". Check the date and time against the school clock; the order of entries is kept.";
}

std::string Reader::copyNotice() const {
  const auto& [news, newest] = book_.handNotice();
  const auto what = newest ? "What this laptop recorded after " + newest->words()
                           : std::string("What this laptop recorded");
  switch (news) {
  case store::HandNews::same:
  case store::HandNews::firstHere:
  case store::HandNews::notClosed:
    return {}; // nothing is lost and nothing is to be done
  case store::HandNews::earlierCopy:
    return "This logbook is an earlier copy. " + what +
           " is not in it. To get it back, merge another laptop's logbook or a later backup that "
           "has it. You can keep recording here meanwhile.";
  case store::HandNews::otherMachine:
    return "This logbook was last used from a copy of this disk on another computer. Nothing is "
           "lost. New entries here are kept separate from that computer's entries, "
           "and the two logbooks can be merged.";
  case store::HandNews::wentOnElsewhere:
    return "Another copy of this logbook was used under this laptop's identity. Nothing is lost. "
           "New entries here are kept separate from the entries there, and the "
           "two logbooks can be merged.";
  }
  base::fail("a kind of news");
}

std::optional<std::string> Reader::clockQuestion() const {
  // Longer than any summer without a clinic day; a clock that is off is off by a year or by
  // decades.
  constexpr auto longestSilence = std::chrono::hours(24 * 150);
  const auto newest = book_.newestMoment();
  const auto known = std::max(newest.utc, clockTrusted_.utc);
  const auto now = world_.clock.now();
  const bool isEmpty = newest.utc == base::Milliseconds{};
  if (isEmpty || now.at.utc <= known + longestSilence) return std::nullopt;
  return "This laptop's clock says " + now.words() + ". The newest entry in the logbook is from " +
         base::LocalInstant{newest, now.offset}.date().words() +
         ". Is the date right? Entries made under a wrong date stay under it.";
}

} // namespace gk::session
