#pragma once

#include "office/call/opening.h"

namespace gk::office {

/// --day, --school and --team, and after them `more`.
std::vector<Option> choosingDay(std::vector<Option> more);

/// The newest school day that fits those options and was not canceled. `notFound` when there is
/// none; `callMalformed` asks when there are two of that date.
base::Result<base::Recorded<roster::ClinicDay>> wantedDay(session::Session& session,
                                                          const Call& call);

} // namespace gk::office
