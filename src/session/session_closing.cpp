#include "session/session_write.h"

#include <algorithm>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using followup::Incident;
using followup::PaperCount;

namespace {

Result<base::Done> saysWho(By by) {
  if (by.author) return base::Done{};
  return Error{ErrorCode::ruleCredential, "say who does this: no team member is chosen"};
}

} // namespace

List<Incident> Reader::incidents(roster::DayId day) {
  auto all = book_.current<Incident>(store::everything());
  if (!all) return all;
  std::erase_if(
      *all, [&](const auto& row) { return row.value.day != day && !followup::isOpen(row.value); });
  return all;
}

Result<followup::IncidentId> Session::enterIncident(By by, const Incident& incident) {
  if (const auto who = saysWho(by); !who) return who.error();
  if (const auto sound = checkIncident(incident, world_.clock.now().at); !sound)
    return sound.error();
  if (const auto day = this->day(incident.day); !day) return day.error();
  return write(by, incident.child, [&](store::Act& act) { return act.add(incident); });
}

Result<base::Done> Session::correctIncident(By by, const Recorded<Incident>& old,
                                            const Incident& incident, const std::string& reason) {
  if (const auto who = saysWho(by); !who) return who.error();
  if (const auto sound = checkIncident(incident, world_.clock.now().at); !sound)
    return sound.error();
  if (reason.empty()) return Error{ErrorCode::ruleReason, "say what is new about the incident"};
  return write(by, incident.child, [&](store::Act& act) {
    act.correct(old, incident, reason);
    return base::Done{};
  });
}

Result<base::Done> Session::countPaper(By by, const PaperCount& count) {
  if (const auto sound = checkPaper(count); !sound) return sound.error();
  if (const auto day = this->day(count.day); !day) return day.error();
  auto counts = book_.current<PaperCount>(store::rowsOf("day", count.day));
  if (!counts) return counts.error();
  std::erase_if(*counts, [&](const auto& row) { return row.value.paper != count.paper; });
  return write(by, {}, [&](store::Act& act) {
    if (counts->empty()) {
      act.add(count);
      return base::Done{};
    }
    // One count takes the place of what each laptop had.
    act.correct(counts->back(), count, "counted again");
    counts->pop_back();
    for (const auto& row : *counts)
      act.retract(row.stamp.entry, "counted together");
    return base::Done{};
  });
}

Result<base::Done> Session::countOut(By by, roster::DayId day, followup::Paper paper, int sheets) {
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
  return write(by, {}, [&](store::Act& act) {
    if (known == counts->end())
      act.add(count);
    else
      act.correct(*known, count, "more were printed");
    return base::Done{};
  });
}

Result<kit::LightPassId> Session::passOverLight(By by, const kit::LightPass& pass) {
  if (const auto who = saysWho(by); !who) return who.error();
  auto day = dayOpenForCare(pass.day);
  if (!day) return day.error();
  auto light = only<kit::Light>(store::subjectIs(pass.light), "light");
  if (!light) return light.error();
  if (pass.reason.empty())
    return Error{ErrorCode::ruleReason, "say why " + light->value.tag + " is not read"};
  return write(by, {}, [&](store::Act& act) { return act.add(pass); });
}

} // namespace gk::session
