#include "session/values/setup.h"

#include "base/text/text.h"
#include "followup/display_names.h"

#include <algorithm>
#include <set>

namespace gk::session {

using base::Date;
using base::Recorded;
using enum AreaStanding;

namespace {

/// A license that ends so soon is told, so that it is renewed in time (30 days, own choice).
constexpr int soon = 30;
/// A day is signed by two (roster::checkClosure).
constexpr int signers = 2;

/// What is found of one area, the gravest first.
class FoundGaps {
 public:
  void missing(std::string sentence) { missing_.push_back(std::move(sentence)); }
  void ask(std::string sentence) { asked_.push_back(std::move(sentence)); }
  [[nodiscard]] AreaState as(Area area, std::string words) const {
    auto open = missing_;
    open.insert(open.end(), asked_.begin(), asked_.end());
    return {area,
            !missing_.empty() ? AreaStanding::missing
            : open.empty()    ? ready
                              : AreaStanding::ask,
            std::move(words), std::move(open)};
  }

 private:
  std::vector<std::string> missing_;
  std::vector<std::string> asked_;
};

AreaState programState(const SetupRecords& records) {
  FoundGaps found;
  if (!records.program) {
    found.missing("Enter the program: every page and letter names it.");
    return found.as(Area::program, "not entered");
  }
  const auto& program = *records.program;
  if (base::isBlank(program.authorizingDentist)) found.ask("No authorizing dentist is named.");
  if (program.agreementUntil && *program.agreementUntil < records.on)
    found.missing("The agreement with the dentist ended on " + program.agreementUntil->words() +
                  ": enter the new date.");
  if (base::isBlank(program.privacyFooting))
    found.ask("Enter which privacy law applies, who decided it and when.");
  const auto words = program.agreementUntil
                         ? "agreement to " + program.agreementUntil->words()
                         : std::string(base::displayName(program.supervision)) + " supervision";
  return found.as(Area::program, words);
}

AreaState schoolState(const SetupRecords& records) {
  FoundGaps found;
  auto open = records.schools;
  std::erase_if(open, [&](const auto& one) { return roster::isClosed(one.value, records.on); });
  if (open.empty())
    found.missing(records.schools.empty() ? "Enter at least one school."
                                          : "Every school is closed: add one, or reopen one.");
  // Another laptop did not know yet that it was closed.
  for (const auto& [id, stamp, school] : records.schools)
    for (const auto& day : records.days)
      if (day.value.school == id && !day.value.canceled && isClosed(school, day.value.date))
        found.ask(school.name + " is closed from " + school.closedFrom->words() +
                  ", but has a school day on " + day.value.date.words() +
                  ": reopen it, close it from a later date, or cancel that day.");
  std::set<roster::SchoolId> counted;
  for (const auto& count : records.enrollments)
    counted.insert(count.value.school);
  const auto uncounted =
      std::ranges::count_if(open, [&](const auto& school) { return !counted.contains(school.id); });
  if (uncounted > 0)
    found.ask("No enrollment this term for " + base::counted(uncounted, "school", "schools") +
              ": the share of students reached cannot be counted.");
  return found.as(Area::schools, records.schools.empty()
                                     ? "none yet"
                                     : base::counted(open.size(), "school", "schools"));
}

AreaState termState(const SetupRecords& records) {
  FoundGaps found;
  const auto* term = termFor(records.terms, records.on);
  if (!term) {
    found.missing("Enter the term: its first and last day, and its holidays.");
    return found.as(Area::terms, "none yet");
  }
  if (term->value.end < records.on)
    found.missing(term->value.name + " ended on " + term->value.end.words() +
                  ": enter the next term.");
  else if (records.on < term->value.start)
    found.ask(term->value.name + " begins on " + term->value.start.words() +
              ": a day before that needs a reason.");
  return found.as(Area::terms, term->value.name);
}

AreaState teamState(const SetupRecords& records) {
  FoundGaps found;
  const auto mayNow = [&](roster::Task task) {
    return std::ranges::count_if(records.members, [&](const auto& member) {
      return roster::mayDo(member.value, task, records.on).has_value();
    });
  };
  if (records.members.empty()) {
    found.missing("Enter who works: at least one person who may place sealants.");
    return found.as(Area::team, "no one yet");
  }
  for (const auto& [task, words] : {std::pair(roster::Task::decide, "decide what is sealed"),
                                    {roster::Task::place, "place sealants"}})
    if (mayNow(task) == 0)
      found.missing("No one with a license that is valid that day may " + std::string(words) + ".");
  if (mayNow(roster::Task::sign) < signers)
    found.ask("Two people sign each day. Enter a second person who may sign.");
  for (const auto& [id, stamp, member] : records.members) {
    const bool isClinical = member.may.has(roster::Task::place);
    if (isClinical && base::isBlank(member.license))
      found.ask(member.name + ": no license number.");
    if (!member.licenseUntil || member.may.isEmpty()) continue;
    const auto left = base::daysBetween(records.on, *member.licenseUntil);
    if (left < 0)
      found.ask(member.name + ": the license ended on " + member.licenseUntil->words() + ".");
    else if (left <= soon)
      found.ask(member.name + ": the license ends in " + base::counted(left, "day", "days") + ".");
  }
  return found.as(Area::team, base::counted(records.members.size(), "person", "people"));
}

std::vector<kit::Lot> usable(const SetupRecords& records) {
  std::vector<kit::Lot> lots;
  for (const auto& lot : records.lots)
    if (!kit::refusalOf(lot.value, records.on)) lots.push_back(lot.value);
  return lots;
}

AreaState lightState(const SetupRecords& records) {
  FoundGaps found;
  std::set<std::string> cured; // materials that need a light
  for (const auto& lot : usable(records))
    if (lot.kind == kit::MaterialKind::sealantLightCure) cured.insert(lot.material);
  const auto inService = std::ranges::count_if(
      records.lights, [](const auto& light) { return light.value.inService; });
  const bool needsNone = cured.empty() && std::ranges::any_of(usable(records), [](const auto& lot) {
                           return kit::isSealant(lot.kind);
                         });
  if (inService == 0 && !needsNone)
    found.missing(records.lights.empty() ? "Enter the curing light."
                                         : "No curing light is in service.");
  for (const auto& [id, stamp, light] : records.lights) {
    if (!light.inService) continue;
    if (light.baseline.value == 0)
      found.ask(light.tag + ": no first reading to compare with. Read it on the meter.");
    for (const auto& material : cured)
      if (std::ranges::none_of(records.cureTimes, [&](const auto& time) {
            return time.value.light == id && time.value.material == material;
          }))
        found.ask(light.tag + ": no manufacturer's time for " + material +
                  ", so the sealant's own counts.");
  }
  return found.as(Area::lights, records.lights.empty()
                                    ? "none yet"
                                    : base::counted(inService, "in service", "in service"));
}

AreaState lotState(const SetupRecords& records) {
  FoundGaps found;
  const auto lots = usable(records);
  const auto has = [&](auto which) { return std::ranges::any_of(lots, which); };
  const auto isOf = [](kit::MaterialKind kind) {
    return [kind](const kit::Lot& lot) { return lot.kind == kind; };
  };
  if (!has([](const kit::Lot& lot) { return kit::isSealant(lot.kind); }))
    found.missing("No sealant lot can be used: enter one that has not expired.");
  const bool etches = has(isOf(kit::MaterialKind::sealantLightCure)) ||
                      has(isOf(kit::MaterialKind::sealantSelfCure)) || lots.empty();
  if (etches && !has(isOf(kit::MaterialKind::etchant)))
    found.missing("No etchant lot can be used: enter one that has not expired.");
  if (!has(isOf(kit::MaterialKind::varnish))) found.ask("No varnish lot can be used.");
  for (const auto& [id, stamp, lot] : records.lots)
    if (kit::refusalOf(lot, records.on) == kit::LotRefusal::expired && !lot.usedUpOn &&
        !lot.quarantined)
      found.ask(kit::shown(lot) + " expired on " + lot.expiry.words() + ": remove it.");
  return found.as(Area::lots, records.lots.empty()
                                  ? "none yet"
                                  : base::counted(lots.size(), "can be used", "can be used"));
}

AreaState rosterState(const SetupRecords& records) {
  FoundGaps found;
  if (!records.hasStudents)
    found.missing("No student is in the logbook yet.");
  else if (records.withForm == 0)
    found.ask("No valid consent form is in the logbook yet.");
  for (const auto& late : records.lateOnCards)
    found.ask(late + ".");
  return found.as(Area::rosters, !records.hasStudents
                                     ? "none yet"
                                     : base::counted(records.withForm, "form", "forms"));
}

/// No day waits for one: a state asks months later.
AreaState yearState(const SetupRecords& records) {
  return FoundGaps().as(Area::years, records.years.empty()
                                         ? "none yet; for state reports"
                                         : base::counted(records.years.size(), "year", "years"));
}

} // namespace

const Recorded<roster::Term>* termFor(std::span<const Recorded<roster::Term>> terms, Date on) {
  const auto isOver = [&](const roster::Term& term) { return term.end < on; };
  const auto isBetter = [&](const roster::Term& one, const roster::Term& other) {
    if (isOver(one) != isOver(other)) return isOver(other);
    return isOver(one) ? other.start < one.start : one.start < other.start;
  };
  const Recorded<roster::Term>* best = nullptr;
  for (const auto& term : terms)
    if (!best || isBetter(term.value, best->value)) best = &term;
  return best;
}

std::vector<AreaState> setupOf(const SetupRecords& records) {
  return {programState(records), schoolState(records), termState(records),   teamState(records),
          lightState(records),   lotState(records),    rosterState(records), yearState(records)};
}

bool isSetUp(std::span<const AreaState> areas) {
  return std::ranges::none_of(
      areas, [](const auto& area) { return area.standing == AreaStanding::missing; });
}

} // namespace gk::session
