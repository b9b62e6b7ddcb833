#include "followup/incident.h"

#include "base/text/text.h"

namespace gk::followup {

using base::Error;
using base::ErrorCode;

base::Result<base::Done> checkIncident(const Incident& incident, base::Instant now) {
  if (base::trim(incident.done).empty())
    return Error{ErrorCode::ruleReason, "say in a few words what was done"};
  if (incident.happened.at > now)
    return Error{ErrorCode::ruleDate, "an incident at " + incident.happened.words() +
                                          " has not happened yet; check the time"};
  return base::Done{};
}

bool isOpen(const Incident& incident) {
  return !incident.settled && !incident.followUp.empty();
}

std::string_view firstAid(IncidentType type) {
  switch (type) {
  case IncidentType::eyeSplash:
    return "Flush the eye 15 minutes, then medical care.";
  case IncidentType::etchantOnTissue:
    return "Rinse skin and gums with plenty of water at once.";
  case IncidentType::allergicSign:
  case IncidentType::fainting:
  case IncidentType::foreignBody:
    return "Trouble breathing, or not waking: call 911 first.";
  case IncidentType::privacy:
    return "A lost laptop or paper: tell the program manager at once.";
  case IncidentType::sharps:
    return "Wash it, tell the program manager at once; time matters for medical care.";
  case IncidentType::fall:
  case IncidentType::equipment:
    return {};
  }
  base::fail("no such incident");
}

} // namespace gk::followup
