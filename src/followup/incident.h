#pragma once

#include "base/enum_names.h"
#include "base/time/clock.h"
#include "roster/child/child.h"
#include "roster/days/clinic_day.h"

#include <optional>
#include <string>

namespace gk::followup {

using IncidentId = base::Id<struct IncidentTag>;

/// The sorts of incident that a clinic day is asked about; a lost laptop is one of privacy.
enum class IncidentType {
  etchantOnTissue,
  eyeSplash,
  foreignBody,
  fall,
  fainting,
  allergicSign,
  sharps,
  privacy,
  equipment
};

/// What went wrong on a day and what was done about it. Written after help was given, also when the
/// day is signed; what comes later supersedes it. The words stay in the logbook: no export has
/// them.
struct Incident {
  using Key = IncidentId;
  base::DayId day;
  std::optional<roster::ChildId> child{}; ///< none when no child was hurt or named
  IncidentType type = IncidentType::etchantOnTissue;
  base::LocalInstant happened{};
  std::string done;
  std::string told{};
  std::string followUp{}; ///< what is still to be done; empty when nothing is
  bool settled = false;
  bool operator==(const Incident&) const = default;
};

/// Fails with `ruleReason` when no one says what was done, and with `ruleDate` when it has not
/// happened yet.
base::Result<base::Done> checkIncident(const Incident& incident, base::Instant now);

/// Something is still to be done.
bool isOpen(const Incident& incident);

/// What to do first, as the team is told; empty where the program knows nothing to say.
std::string_view firstAid(IncidentType type);

} // namespace gk::followup

template <>
inline constexpr auto gk::base::enumNames<gk::followup::IncidentType> =
    std::to_array<std::string_view>({"etchant on soft tissue", "eye splash", "foreign body", "fall",
                                     "fainting", "allergic sign", "staff sharps exposure",
                                     "privacy", "equipment"});
