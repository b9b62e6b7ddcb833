#include "base/text/text.h"
#include "followup/display_names.h"
#include "session/session_write.h"

#include <algorithm>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using followup::Incident;
using followup::PaperCount;

List<Incident> Reader::incidents(roster::DayId day) {
  auto all = book_.current<Incident>(store::everything());
  if (!all) return all;
  std::erase_if(
      *all, [&](const auto& row) { return row.value.day != day && !followup::isOpen(row.value); });
  return all;
}

Result<followup::IncidentId> DayVerbs::enterIncident(By by, const Incident& incident) {
  const auto may = admit(Verb::enterIncident, by, {.day = incident.day});
  if (!may) return may.error();
  if (const auto sound = checkIncident(incident, world_.clock.now().at); !sound)
    return sound.error();
  return write(*may, incident.child, [&](store::Act& act) { return act.add(incident); });
}

Result<base::Done> DayVerbs::correctIncident(By by, const Recorded<Incident>& old,
                                             const Incident& incident, const std::string& reason) {
  const auto may = admit(Verb::correctIncident, by, {.day = incident.day, .reason = reason});
  if (!may) return may.error();
  if (const auto sound = checkIncident(incident, world_.clock.now().at); !sound)
    return sound.error();
  if (base::isBlank(reason))
    return Error{ErrorCode::ruleReason, "say what is new about the incident"};
  const auto now = asItStands(old);
  if (!now) return now.error();
  if (now->value.day != incident.day)
    return Error{ErrorCode::ruleIdentity, "an incident stays on its day"};
  return write(*may, incident.child, [&](store::Act& act) {
    act.correct(*now, incident, reason);
    return base::Done{};
  });
}

Result<base::Done> DayVerbs::countPaper(By by, const PaperCount& count) {
  const auto may = admit(Verb::countPaper, by, {.day = count.day});
  if (!may) return may.error();
  if (const auto sound = checkPaper(count); !sound) return sound.error();
  auto counts = book_.current<PaperCount>(store::rowsOf("day", count.day));
  if (!counts) return counts.error();
  std::erase_if(*counts, [&](const auto& row) { return row.value.paper != count.paper; });
  return write(*may, {},
               [&](store::Act& act) { return replaceAll(act, *counts, count, "counted again"); });
}

Result<std::optional<roster::DayEffort>> Reader::lastEffort() {
  auto rows = book_.current<roster::DayEffort>(store::everything());
  if (!rows) return rows.error();
  if (rows->empty()) return std::optional<roster::DayEffort>();
  return std::optional(std::move(rows->back().value));
}

Result<std::optional<roster::DayCost>> Reader::lastCosts() {
  auto rows = book_.current<roster::DayCost>(store::everything());
  if (!rows) return rows.error();
  if (rows->empty()) return std::optional<roster::DayCost>();
  return std::optional(std::move(rows->back().value));
}

Result<base::Done> DayVerbs::enterEffort(By by, const roster::DayEffort& effort) {
  const auto may = admit(Verb::enterEffort, by, {.day = effort.day});
  if (!may) return may.error();
  if (const auto sound = roster::checkEffort(effort); !sound) return sound.error();
  auto rows = book_.current<roster::DayEffort>(store::rowsOf("day", effort.day));
  if (!rows) return rows.error();
  return write(*may, {},
               [&](store::Act& act) { return replaceAll(act, *rows, effort, "entered again"); });
}

Result<base::Done> DayVerbs::enterCosts(By by, const roster::DayCost& cost) {
  const auto may = admit(Verb::enterCosts, by, {.day = cost.day});
  if (!may) return may.error();
  if (const auto sound = roster::checkCosts(cost); !sound) return sound.error();
  auto rows = book_.current<roster::DayCost>(store::rowsOf("day", cost.day));
  if (!rows) return rows.error();
  const auto closed = isSigned(cost.day);
  if (!closed) return closed.error();
  return write(*may, {}, [&](store::Act& act) {
    // Bills come after the day; the sheet that was signed says that they did.
    const bool isNew = rows->empty() ? !cost.lines.empty() : rows->front().value != cost;
    if (*closed && isNew)
      act.add(roster::Addendum{cost.day,
                               {},
                               cost.lines.empty() ? "costs taken out after the signatures"
                                                  : "costs entered after the signatures, $: " +
                                                        roster::costsText(cost.lines)});
    return replaceAll(act, *rows, cost, "entered again");
  });
}

Result<base::Done> DayVerbs::countLot(By by, const kit::LotCount& count) {
  const auto may = admit(Verb::countLot, by, {.day = count.day});
  if (!may) return may.error();
  if (const auto sound = kit::checkLotCount(count); !sound) return sound.error();
  const auto lot = only<kit::Lot>(store::subjectIs(count.lot), "lot");
  if (!lot) return lot.error();
  auto rows = book_.current<kit::LotCount>(store::rowsOf("day", count.day));
  if (!rows) return rows.error();
  std::erase_if(*rows, [&](const auto& row) { return row.value.lot != count.lot; });
  auto counted = lot->value;
  if (count.left) counted.usedUpOn.reset();
  if (count.left == 0) counted.usedUpOn = may->on();
  return write(*may, {}, [&](store::Act& act) {
    replaceAll(act, *rows, count, "counted again");
    if (counted != lot->value)
      act.correct(*lot, counted, counted.usedUpOn ? "none is left" : "some is left");
    return base::Done{};
  });
}

Result<base::Done> DayVerbs::countOut(By by, roster::DayId day, followup::Paper paper, int sheets) {
  const auto may = admit(Verb::countOut, by, {.day = day});
  if (!may) return may.error();
  auto counts = book_.current<PaperCount>(store::rowsOf("day", day));
  if (!counts) return counts.error();
  const auto known = std::ranges::find_if(*counts, [&](const auto& row) {
    return row.value.paper == paper && row.stamp.laptop == book_.laptop();
  });
  PaperCount count{.day = day, .paper = paper};
  if (known != counts->end()) count = known->value;
  count.out += sheets;
  count.reason.clear(); // it was given for fewer sheets
  if (const auto sound = checkPaper(count); !sound) return sound.error();
  const auto closed = isSigned(day);
  if (!closed) return closed.error();
  if (*closed)
    return write(*may, {}, [&](store::Act& act) {
      act.add(roster::Addendum{
          day,
          {},
          "printed after the signatures: " + std::string(base::displayName(paper)) + ", " +
              std::to_string(sheets)});
      return base::Done{};
    });
  return write(*may, {}, [&](store::Act& act) {
    if (known == counts->end())
      act.add(count);
    else
      act.correct(*known, count, "more were printed");
    return base::Done{};
  });
}

Result<followup::BackupNoteId> DayVerbs::noteBackup(By by, const followup::BackupNote& note) {
  const auto may = admit(Verb::noteBackup, by, {.day = note.day});
  if (!may) return may.error();
  if (note.file.empty()) return Error{ErrorCode::textMalformed, "name the copy"};
  return write(*may, {}, [&](store::Act& act) { return act.add(note); });
}

Result<std::optional<base::Date>> DayVerbs::dayNotBackedUp(std::optional<base::Date> known) {
  const auto notes = book_.current<followup::BackupNote>(store::everything());
  if (!notes) return notes.error();
  for (const auto& note : *notes)
    if (note.stamp.laptop == book_.laptop())
      known = std::max(known, std::optional(note.stamp.at.date()));
  const auto all = book_.current<roster::ClinicDay>(store::everything());
  if (!all) return all.error();
  const auto today = world_.clock.now().date();
  std::optional<base::Date> newest;
  for (const auto& day : *all)
    if (!day.value.canceled && day.value.date < today)
      newest = std::max(newest, std::optional(day.value.date));
  return newest > known ? newest : std::nullopt;
}

Result<kit::LightPassId> DayVerbs::passOverLight(By by, const kit::LightPass& pass) {
  const auto may = admit(Verb::passOverLight, by, {.day = pass.day, .reason = pass.reason});
  if (!may) return may.error();
  auto light = only<kit::Light>(store::subjectIs(pass.light), "light");
  if (!light) return light.error();
  if (base::isBlank(pass.reason))
    return Error{ErrorCode::ruleReason, "say why " + light->value.tag + " is not read"};
  return write(*may, {}, [&](store::Act& act) { return act.add(pass); });
}

} // namespace gk::session
