#pragma once

#include "base/enum_names.h"
#include "roster/child/child.h"

#include <optional>
#include <string>

namespace gk::reports {

enum class ExceptionKind {
  shortStep,
  interruptedCure,
  wet,
  frostyNotSeen,
  consentOverride,
  redLight,
  provisionalChild,
  guardMissing,   ///< a field that one of the four dry guards could not be had for
  notReady,       ///< an item of the morning's readiness that failed or was passed over
  letterMissing,  ///< due, and no letter printed or queued; or the record changed since
  letterInError,  ///< one was handed over or printed that is not due
  recordDoubtful, ///< a check of the day found no placement that fits the tooth
  lightPassedOver,
  paperMissing,
  paperNotCounted, ///< no one was asked about sheets beside the letters
  agreementOverride
};

enum class Fixer { nobody, clinician, coordinator };

/// No one where all is known and the line is kept for the record.
Fixer whoMustFix(ExceptionKind kind);

struct DayException {
  ExceptionKind kind;
  std::optional<roster::ChildId> child;
  std::string shown;
  std::string what;
  std::string reason;
  std::string who; ///< initials of whose act it was
};

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::ExceptionKind> =
    std::to_array<std::string_view>({"short step", "interrupted cure", "wet", "frosty not seen",
                                     "consent override", "red light", "provisional child",
                                     "dry guard missing", "not ready", "letter missing",
                                     "letter in error", "record doubtful", "light passed over",
                                     "paper missing", "paper not counted", "agreement override"});
template <>
inline constexpr auto gk::base::enumNames<gk::reports::Fixer> =
    std::to_array<std::string_view>({"nobody", "clinician", "coordinator"});
