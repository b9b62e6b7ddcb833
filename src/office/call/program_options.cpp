#include "office/call/program_options.h"

#include "office/call/adding.h"

namespace gk::office {

using base::Result;

std::vector<Option> programOptions(bool isNew) {
  return {
      {"--program", "NAME", "as printed on letters", isNew},
      {"--county", "NAME", "as printed on letters", isNew},
      {"--phone", "NUMBER", "as printed on letters", isNew},
      {"--notation", "WORD", "universal (usual) or iso-3950"},
      {"--supervision", "WORD",
       "general (usual), direct, public health ...; dentist exam "
       "required: no tooth before a dentist named it"},
      {"--authorizing-dentist", "TEXT", "dentist responsible for the work"},
      {"--agreement-until", "DATE", "last day of the standing agreement, or none"},
      {"--authorization-days", "N", "how long a dentist's authorization is valid (365)"},
      {"--privacy-footing", "TEXT", "which law applies, who decided, when"},
      {"--suppress-below", "N", "published counts under this are suppressed (10)"},
      {"--by-school", "WORD",
       "what is published by school: all (usual), or services: participation and services, with "
       "findings in total only"},
      {"--benchmark-consented", "N", "own benchmark, percent of enrolled, or none (usual)"},
      {"--benchmark-screened", "N", "own benchmark, percent of consented, or none (usual)"},
      {"--benchmark-sealed", "N", "own benchmark, percent of those in need, or none (usual)"},
      {"--benchmark-retained", "N",
       "own benchmark, percent fully retained at one year, or none (usual)"}};
}

Result<std::optional<base::Date>> dateOrNone(const Call& call, std::string_view option,
                                             std::optional<base::Date> before) {
  const auto text = call.textIfAny(option);
  if (!text) return before;
  if (*text == "none") return std::optional<base::Date>{};
  return call.date(option);
}

namespace {

Result<std::optional<int>> percentOrNone(const Call& call, std::string_view option,
                                         std::optional<int> before) {
  const auto text = call.textIfAny(option);
  if (!text) return before;
  if (*text == "none") return std::optional<int>{};
  return call.whole(option, 1, 100); // as the schema has it
}

} // namespace

Result<roster::Program> programOf(const Call& call, roster::Program program) {
  program.name = call.textIfAny("--program").value_or(program.name);
  program.county = call.textIfAny("--county").value_or(program.county);
  program.phone = call.textIfAny("--phone").value_or(program.phone);
  if (const auto word = call.textIfAny("--notation")) {
    const auto notation = wordOf<dentition::Notation>("--notation", *word);
    if (!notation) return notation.error();
    program.notation = *notation;
  }
  if (const auto word = call.textIfAny("--supervision")) {
    const auto supervision = wordOf<roster::Supervision>("--supervision", *word);
    if (!supervision) return supervision.error();
    program.supervision = *supervision;
  }
  const auto until = dateOrNone(call, "--agreement-until", program.agreementUntil);
  if (!until) return until.error();
  program.agreementUntil = *until;
  program.authorizingDentist =
      call.textIfAny("--authorizing-dentist").value_or(program.authorizingDentist);
  program.privacyFooting = call.textIfAny("--privacy-footing").value_or(program.privacyFooting);
  const auto least = call.whole("--suppress-below", 5, 100); // as the schema has it
  if (!least) return least.error();
  program.suppressBelow = least->value_or(program.suppressBelow);
  if (const auto word = call.textIfAny("--by-school")) {
    const auto bySchool = wordOf<roster::BySchool>("--by-school", *word);
    if (!bySchool) return bySchool.error();
    program.bySchool = *bySchool;
  }
  const auto holds = call.whole("--authorization-days", 1, 1100); // as the schema has it
  if (!holds) return holds.error();
  program.authorizationDays = holds->value_or(program.authorizationDays);
  for (const auto& [option, into] :
       {std::pair("--benchmark-consented", &program.benchmarks.consented),
        {"--benchmark-screened", &program.benchmarks.screened},
        {"--benchmark-sealed", &program.benchmarks.sealed},
        {"--benchmark-retained", &program.benchmarks.retained}}) {
    const auto percent = percentOrNone(call, option, *into);
    if (!percent) return percent.error();
    *into = *percent;
  }
  return roster::soundProgram(std::move(program));
}

} // namespace gk::office
