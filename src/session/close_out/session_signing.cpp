#include "base/text/text.h"
#include "reports/day/close_out.h"
#include "session/session_write.h"

// The signatures of a day, and the two ways to change it afterwards.
namespace gk::session {

using base::Error;
using base::ErrorCode;

Result<roster::ClosureId> DayVerbs::signDay(By by, const roster::DayClosure& closure) {
  const auto may = admit(Verb::signDay, by, {.day = closure.day});
  if (!may) return may.error();
  if (closure.clinical == closure.coordinator)
    return Error{ErrorCode::ruleCredential, "two people sign: one clinical, one for completeness"};
  if (by.author != closure.clinical && by.author != closure.coordinator)
    return Error{ErrorCode::ruleCredential,
                 "the signer must be one of the two people named; a third person cannot sign "
                 "for both"};
  for (const auto member : {closure.clinical, closure.coordinator}) {
    auto signer = entitled(member, roster::Task::sign, may->on());
    if (!signer) return signer.error();
  }
  auto clinical = entitled(closure.clinical, roster::Task::screen, may->on());
  if (!clinical) return clinical.error();
  if (!isUnlocked())
    return Error{ErrorCode::vaultLocked,
                 "unlock the names before signing: cards with the same name are checked"};
  auto records = dayRecords(closure.day);
  if (!records) return records.error();
  const auto known = names(*records);
  if (!known) return known.error();
  const auto sheet = reports::closeOut(*records, *known);
  if (!sheet.mayClose())
    return Error{ErrorCode::ruleDayOpen,
                 "the day does not add up yet: " +
                     base::counted(sheet.openThings(), "thing is open", "things are open") +
                     "; the close-out lists them"};
  if (const auto can = canSign(closure); !can) return can.error();
  return writeSigned(*may, closure, sheet.equation);
}

Result<roster::ReopeningId> DayVerbs::reopenDay(By by, roster::DayId day, const std::string& reason,
                                                const OwnPin& pin) {
  const auto may = admit(Verb::reopenDay, by, {.day = day, .reason = reason, .pin = pin});
  if (!may) return may.error();
  // A license that held on the day may be over today.
  if (auto signer = entitled(*by.author, roster::Task::sign, world_.clock.now().date()); !signer)
    return signer.error();
  auto closures = book_.current<roster::DayClosure>(store::rowsOf("day", day));
  if (!closures) return closures.error();
  return write(*may, {}, [&](store::Act& act) {
    for (const auto& closure : *closures)
      act.retract(closure.stamp.entry, reason);
    return act.add(roster::Reopening{day, reason});
  });
}

Result<roster::AddendumId> DayVerbs::addAddendum(By by, const roster::Addendum& addendum,
                                                 const OwnPin& pin) {
  const auto may = admit(Verb::addAddendum, by, {.day = addendum.day, .pin = pin});
  if (!may) return may.error();
  if (base::isBlank(addendum.text)) return Error{ErrorCode::textMalformed, "say what is added"};
  if (addendum.child)
    if (const auto known = child(*addendum.child); !known) return known.error();
  return write(*may, addendum.child, [&](store::Act& act) { return act.add(addendum); });
}

List<roster::Addendum> Reader::addenda(roster::DayId day) {
  return book_.current<roster::Addendum>(store::rowsOf("day", day));
}

} // namespace gk::session
