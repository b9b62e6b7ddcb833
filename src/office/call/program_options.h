#pragma once

#include "office/call/call.h"
#include "roster/program/program.h"

namespace gk::office {

/// The options that say a program. Name, county and phone are needed where there is none yet.
std::vector<Option> programOptions(bool isNew);

/// `program` with what the call gives; "none" takes a date away. Fails with the option's name.
base::Result<roster::Program> programOf(const Call& call, roster::Program program);

/// A date option where "none" means that there is no such day; `before` when it is not given.
base::Result<std::optional<base::Date>> dateOrNone(const Call& call, std::string_view option,
                                                   std::optional<base::Date> before);

} // namespace gk::office
