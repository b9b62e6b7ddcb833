#include "office/reports/publishing.h"

#include "base/text/text.h"

#include <algorithm>
#include <set>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;

Option issueOption() {
  return {"--issue", "", "records it as issued and prints its version; writes in FILE"};
}

Option mergeOption() {
  return {"--merge", "CODES", "schools shown as one row: A+B, or auto for the smallest"};
}

Option gradesOption() {
  return {"--grades", "GRADES",
          "grades shown as one row: K-1,2-3, or auto, or each; as last issued, or auto"};
}

Result<session::Session> openToIssue(const Call& call, const Surroundings& around) {
  return call.has("--issue") ? openToWrite(call, around) : openToRead(call, around);
}

Result<reports::Groups> groupsWanted(session::Session& session, const Call& call,
                                     const reports::TermTotals& totals,
                                     const reports::SuppressionRule& rule,
                                     std::span<const reports::Release> earlier) {
  const auto words = call.textIfAny("--merge");
  if (!words) return reports::Groups{};
  if (*words == "auto") {
    auto groups = reports::groupsIssued(earlier);
    return groups.empty() ? reports::groupsToOffer(totals, rule, earlier) : std::move(groups);
  }
  reports::Groups groups;
  std::set<std::string> seen;
  for (const auto group : base::split(*words, ',')) {
    groups.emplace_back();
    for (const auto code : base::split(group, '+')) {
      const auto school = schoolCoded(session, std::string(base::trim(code)));
      if (!school) return school.error();
      if (!seen.insert(school->value.code).second)
        return Error{ErrorCode::callMalformed,
                     "--merge names the school " + school->value.code + " twice"};
      groups.back().push_back(school->id.text());
    }
    if (groups.back().size() < 2)
      return Error{ErrorCode::callMalformed, "--merge needs two schools or more, such as A+B"};
  }
  return groups;
}

Result<std::optional<reports::GradeBands>> gradesWanted(const Call& call) {
  const auto words = call.textIfAny("--grades");
  if (!words || *words == "auto") return std::optional<reports::GradeBands>{};
  reports::GradeBands bands;
  if (*words == "each") return std::optional(bands);
  for (const auto word : base::split(*words, ',')) {
    const auto ends = base::split(word, '-');
    const auto first = roster::gradeNumber(ends.front());
    const auto last = roster::gradeNumber(ends.back());
    if (ends.size() > 2 || !first || !last || *last < *first)
      return Error{ErrorCode::callMalformed,
                   "--grades takes grades and runs of them, such as K-1,2-3,4-8"};
    const bool isTwice = std::ranges::any_of(
        bands, [&](const auto& one) { return *first <= one.last && one.first <= *last; });
    if (isTwice) return Error{ErrorCode::callMalformed, "--grades names a grade twice"};
    bands.push_back({*first, *last});
  }
  return std::optional(std::move(bands));
}

Result<std::string> issued(session::Session& session, const Call& call, const Surroundings& around,
                           roster::TermId term, const std::string& report,
                           const std::string& choice, const reports::Report& made,
                           base::Date today) {
  if (!call.has("--issue")) return std::string();
  const auto ready = session::readyIssue(session, term, report, choice, made, today);
  if (!ready) return ready.error();
  const auto by = author(session, call, around);
  if (!by) return by.error();
  const auto noted = session.enterIssue(*by, ready->record);
  if (!noted) return noted.error();
  return ready->words;
}

std::string mergingAdvice(const reports::TermTotals& totals, const reports::SuppressionRule& rule,
                          std::span<const reports::Release> earlier) {
  // Every group tried suppresses the term again.
  constexpr std::size_t fewSchools = 20;
  if (totals.schools.size() > fewSchools) return {};
  const auto offered = reports::groupsToOffer(totals, rule, earlier);
  if (offered.empty()) return {};
  const auto hiddenOf = [&](const reports::Groups& groups) {
    const auto published = reports::publish(totals, rule, earlier, groups);
    return std::to_string(published.hidden) + " of " + std::to_string(published.counts);
  };
  std::vector<std::string> names;
  for (const auto& one : totals.schools)
    if (std::ranges::find(offered.front(), reports::keyOf(one)) != offered.front().end())
      names.push_back(one.school);
  return hiddenOf({}) + " counts are suppressed; with " + base::join(names, ", ") +
         " as one group it would be " + hiddenOf(offered) +
         ": --merge auto. Choose once for the year, before anything is published.";
}

} // namespace gk::office
