#pragma once

#include "office/opening.h"

namespace gk::office {

/// The newest school day, not cancelled, that --day, --school and --team allow. `notFound` when
/// there is none, `callMalformed` when two of that date fit.
base::Result<base::Recorded<roster::ClinicDay>> dayChosen(session::Session& session,
                                                          const Call& call);
/// --day, --school and --team, with this help for --day.
std::vector<Option> dayOptions(std::string_view dayHelp);

} // namespace gk::office
