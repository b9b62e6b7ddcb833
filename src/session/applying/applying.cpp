#include "session/applying/applying_work.h"
#include "store/book_file.h"

namespace gk::session {

using base::ErrorCode;

void Applying::note(SetupKind kind, SetupChange change, const std::string& at, std::string what,
                    std::vector<std::string> names) {
  ++(change == SetupChange::added ? counts(kind).added : counts(kind).corrected);
  applied_.lines.push_back({at, change, std::move(what), std::move(names)});
}

Result<base::Done> Applying::hasReason(const std::string& at) const {
  if (!base::isBlank(document_.reason)) return base::Done{};
  return located(at, ErrorCode::ruleReason,
                 "this corrects what is in the logbook, which needs a reason; give \"reason\" at "
                 "the top of the document");
}

Result<SetupApplied> Applying::run() {
  using Step = Result<base::Done> (Applying::*)();
  for (const Step step :
       {&Applying::program, &Applying::schools, &Applying::terms, &Applying::years, &Applying::team,
        &Applying::author, &Applying::enrollment, &Applying::eligibility, &Applying::lots,
        &Applying::lights, &Applying::cureTimes, &Applying::plans, Step(&Applying::students)})
    if (const auto done = (this->*step)(); !done) return done.error();
  return std::move(applied_);
}

Result<SetupApplied> applySetup(Session& session, const SetupDocument& document,
                                const SetupAim& aim) {
  std::optional<SetupApplied> applied;
  const auto kept = session.together([&]() -> Result<base::Done> {
    auto made = Applying(session, document, aim).run();
    if (!made) return made.error();
    applied = std::move(*made);
    return base::Done{};
  });
  if (!kept) return kept.error();
  return std::move(*applied);
}

bool entersMember(const SetupDocument& document, const std::string& initials) {
  return std::ranges::any_of(document.team,
                             [&](const auto& member) { return member.value.initials == initials; });
}

Result<base::Done> makeLogbook(const base::Path& path,
                               const std::function<Result<bool>(const base::Path& draft)>& make) {
  return store::makeInPlace(path, make);
}

} // namespace gk::session
