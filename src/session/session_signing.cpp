#include "base/text.h"
#include "reports/close_out.h"
#include "session/session_write.h"

#include <algorithm>

// The signatures of a day, and the two ways to change it afterwards.
namespace gk::session {

using base::Error;
using base::ErrorCode;

Result<roster::ClosureId> Session::signDay(By by, const roster::DayClosure& closure) {
  auto day = dayOpenForCare(closure.day);
  if (!day) return day.error();
  if (closure.clinical == closure.coordinator)
    return Error{ErrorCode::ruleCredential, "two people sign: one clinical, one for completeness"};
  // The others' rights, such as the license, are asked of the day; whoever signs is here now.
  if (by.author != closure.clinical && by.author != closure.coordinator)
    return Error{ErrorCode::ruleCredential,
                 "whoever signs must be one of the two who are named; a third person cannot sign "
                 "for both"};
  for (const auto member : {closure.clinical, closure.coordinator}) {
    auto signer = author({member, {}}, roster::Task::sign, day->value.date);
    if (!signer) return signer.error();
  }
  auto clinical = author({closure.clinical, {}}, roster::Task::screen, day->value.date);
  if (!clinical) return clinical.error();
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
  return write(by, {}, [&](store::Act& act) { return act.add(closure); });
}

Result<roster::ReopeningId> Session::reopenDay(By by, roster::DayId day,
                                               const std::string& reason) {
  if (const auto known = this->day(day); !known) return known.error();
  if (auto signer = author(by, roster::Task::sign, world_.clock.now().date()); !signer)
    return signer.error();
  if (base::trim(reason).empty())
    return Error{ErrorCode::ruleReason, "say what has to change on the signed day"};
  auto closures = book_.current<roster::DayClosure>(store::rowsOf("day", day));
  if (!closures) return closures.error();
  if (closures->empty())
    return Error{ErrorCode::ruleDayOpen, "this school day is not signed: it is open already"};
  return write(by, {}, [&](store::Act& act) {
    for (const auto& closure : *closures)
      act.retract(closure.stamp.entry, reason);
    return act.add(roster::Reopening{day, reason});
  });
}

Result<roster::AddendumId> Session::addAddendum(By by, const roster::Addendum& addendum) {
  if (const auto known = this->day(addendum.day); !known) return known.error();
  if (auto typist = author(by, roster::Task::type, world_.clock.now().date()); !typist)
    return typist.error();
  if (base::trim(addendum.text).empty())
    return Error{ErrorCode::textMalformed, "say what is added"};
  if (addendum.child)
    if (const auto known = child(*addendum.child); !known) return known.error();
  const auto closed = isSigned(addendum.day);
  if (!closed) return closed.error();
  if (!*closed)
    return Error{ErrorCode::ruleDayOpen,
                 "this school day is not signed: enter it where it belongs, not as a late entry"};
  return write(by, addendum.child, [&](store::Act& act) { return act.add(addendum); });
}

List<roster::Addendum> Reader::addenda(roster::DayId day) {
  return book_.current<roster::Addendum>(store::rowsOf("day", day));
}

} // namespace gk::session
