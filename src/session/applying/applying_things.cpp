#include "session/applying/applying_work.h"

// The things that have a name of their own, and the verbs of the desk for each kind.
namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

template <class Id>
Result<base::Done> isDone(const Result<Id>& made) {
  if (!made) return made.error();
  return base::Done{};
}

} // namespace

Result<base::Done> Applying::program() {
  if (!document_.program) return base::Done{};
  const auto& said = *document_.program;
  if (aim_.isNew) {
    note(SetupKind::program, SetupChange::added, said.at, "program " + said.value.name);
    return base::Done{};
  }
  return each<roster::Program>(
      {said}, {.kind = SetupKind::program,
               .needs = {"name", "county", "phone"},
               .all = [this]() -> List<roster::Program> {
                 auto known = session_.program();
                 if (known) return std::vector{std::move(*known)};
                 if (known.error().code == ErrorCode::notFound)
                   return std::vector<Recorded<roster::Program>>();
                 return known.error();
               },
               .key = [](const auto&) { return std::string(); },
               .formerKey = [](const auto&, const auto&) { return std::string(); },
               .words = [](const auto& program) { return "program " + program.name; },
               .enter = [this](const auto& to) { return isDone(session_.enterProgram(by_, to)); },
               .correct =
                   [this](const auto&, const auto& to) {
                     return session_.correctProgram(by_, to, document_.reason);
                   }});
}

Result<base::Done> Applying::schools() {
  return each<roster::School>(
      document_.schools,
      {.kind = SetupKind::schools,
       .needs = {"name"},
       .all = [this] { return session_.schools(); },
       .key = [](const auto& school) { return school.code; },
       .formerKey = [](const auto&, const auto& code) { return code; },
       .words = [](const auto& school) { return "school " + school.name; },
       .enter = [this](const auto& to) { return isDone(session_.enterSchool(by_, to)); },
       .correct =
           [this](const auto& old, const auto& to) {
             return session_.correctSchool(by_, old.id, to, document_.reason);
           }});
}

Result<base::Done> Applying::terms() {
  return each<roster::Term>(
      document_.terms,
      {.kind = SetupKind::terms,
       .needs = {"start", "end"},
       .all = [this] { return session_.terms(); },
       .key = [](const auto& term) { return term.name; },
       .formerKey = [](const auto&, const auto& name) { return name; },
       .words = [](const auto& term) { return "term " + term.name; },
       .enter = [this](const auto& to) { return isDone(session_.enterTerm(by_, to)); },
       .correct =
           [this](const auto& old, const auto& to) {
             return session_.correctTerm(by_, old.id, to, document_.reason);
           }});
}

Result<base::Done> Applying::years() {
  return each<roster::ProgramYear>(
      document_.years,
      {.kind = SetupKind::years,
       .needs = {"kind", "start", "end"},
       .all = [this] { return session_.years(); },
       .key = [](const auto& year) { return year.name; },
       .formerKey = [](const auto&, const auto& name) { return name; },
       .words = [](const auto& year) { return "year " + year.name; },
       .enter = [this](const auto& to) { return isDone(session_.enterYear(by_, to)); },
       .correct =
           [this](const auto& old, const auto& to) {
             return session_.correctYear(by_, old.id, to, document_.reason);
           }});
}

Result<base::Done> Applying::team() {
  return each<roster::Member>(
      document_.team,
      {.kind = SetupKind::team,
       .needs = {"name", "role"},
       .all = [this] { return session_.members(); },
       .key = [](const auto& member) { return member.initials; },
       .formerKey = [](const auto&, const auto& initials) { return initials; },
       .words = [](const auto& member) { return "team member " + member.initials; },
       .enter = [this](const auto& to) { return isDone(session_.enterMember(by_, to)); },
       .correct =
           [this](const auto& old, const auto& to) {
             return session_.correctMember(by_, old.id, to, document_.reason);
           }});
}

/// From here on whoever the document brought acts herself.
Result<base::Done> Applying::author() {
  if (by_.author || aim_.initials.empty()) return base::Done{};
  const auto team = session_.members();
  if (!team) return team.error();
  for (const auto& member : *team)
    if (member.value.initials == aim_.initials) {
      by_.author = member.id;
      return base::Done{};
    }
  return Error{ErrorCode::notFound, "no team member has the initials that were given"};
}

Result<base::Done> Applying::lots() {
  return each<kit::Lot>(
      document_.lots,
      {.kind = SetupKind::lots,
       .needs = {"kind", "expiry"},
       .all = [this] { return session_.lots(); },
       .key = [](const auto& lot) { return lot.material + "\n" + lot.lot; },
       .formerKey = [](const auto& lot,
                       const auto& number) { return lot.material + "\n" + number; },
       .words = [](const auto& lot) { return kit::shown(lot); },
       .enter = [this](const auto& to) { return isDone(session_.enterLot(by_, to)); },
       .correct =
           [this](const auto& old, const auto& to) {
             return session_.correctLot(by_, old.id, to, document_.reason);
           }});
}

Result<base::Done> Applying::lights() {
  return each<kit::Light>(
      document_.lights,
      {.kind = SetupKind::lights,
       .needs = {},
       .all = [this] { return session_.lights(); },
       .key = [](const auto& light) { return light.tag; },
       .formerKey = [](const auto&, const auto& tag) { return tag; },
       .words = [](const auto& light) { return "light " + light.tag; },
       .enter = [this](const auto& to) { return isDone(session_.enterLight(by_, to)); },
       .correct =
           [this](const auto& old, const auto& to) {
             return session_.correctLight(by_, old, to, document_.reason);
           }});
}

} // namespace gk::session
