#include "followup/display_names.h"
#include "session/session_write.h"

namespace gk::session {

Result<base::Done> DayVerbs::enterLetters(By by, const std::vector<followup::Letter>& letters) {
  if (letters.empty()) return base::Done{};
  const auto may = admit(Verb::enterLetters, by);
  if (!may) return may.error();
  std::optional<roster::ChildId> only;
  if (letters.size() == 1) only = letters.front().child;
  return write(*may, only, [&](store::Act& act) {
    for (const auto& letter : letters)
      act.add(letter);
    return base::Done{};
  });
}

Result<base::Done> DayVerbs::moveLetters(By by,
                                         const std::vector<Recorded<followup::Letter>>& letters,
                                         followup::LetterState to) {
  if (letters.empty()) return base::Done{};
  const auto may = admit(Verb::moveLetters, by);
  if (!may) return may.error();
  std::vector<Recorded<followup::Letter>> now;
  for (const auto& letter : letters) {
    auto stands = asItStands(letter);
    if (!stands) return stands.error();
    now.push_back(std::move(*stands));
  }
  std::optional<roster::ChildId> only;
  if (now.size() == 1) only = now.front().value.child;
  return write(*may, only, [&](store::Act& act) {
    for (const auto& letter : now)
      act.correct(letter, followup::moved(letter.value, to), std::string(base::displayName(to)));
    return base::Done{};
  });
}

Result<followup::IssueId> DayVerbs::enterIssue(By by, const followup::IssuedReport& issue) {
  const auto may = admit(Verb::enterIssue, by);
  if (!may) return may.error();
  return write(*may, {}, [&](store::Act& act) { return act.add(issue); });
}

} // namespace gk::session
