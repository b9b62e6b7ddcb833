#include "session/rights/all_verbs.h"

namespace gk::test {

using session::Verb;

void AllVerbs::fillStudents() {
  using A = Ask;
  calls[Verb::confirmProvisional] = [this](const A& a) {
    return codeIn(session.confirmProvisional(a.as, a.who, a.why));
  };
  calls[Verb::moveChild] = [this](const A& a) {
    return codeIn(session.moveChild(a.as, a.who, school, "3", "9", a.why));
  };
  calls[Verb::leaveProgram] = [this](const A& a) {
    return codeIn(session.leaveProgram(a.as, {a.who},
                                       {today().plusDays(400), roster::LeftBecause::graduated}));
  };
  calls[Verb::comeBack] = [this](const A& a) {
    return codeIn(session.comeBack(a.as, a.who, a.why));
  };
  calls[Verb::joinCards] = [this](const A& a) {
    return codeIn(session.joinCards(a.as, a.who, waiting, a.why));
  };
  calls[Verb::partCards] = [this](const A& a) {
    return codeIn(session.partCards(a.as, a.who, a.why));
  };
}

} // namespace gk::test
