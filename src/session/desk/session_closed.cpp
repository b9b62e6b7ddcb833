#include "base/text/text.h"
#include "session/part.h"
#include "session/session_write.h"

#include <algorithm>

// Schools where the program works no more.
namespace gk::session {

using base::Error;
using base::ErrorCode;

List<roster::School> FormVerbs::openSchools(base::Date on) {
  auto all = schools();
  if (!all) return all;
  const auto part = oneSchool();
  if (!part) return part.error();
  std::erase_if(*all, [&](const auto& one) {
    return roster::isClosed(one.value, on) || (*part && (*part)->school != one.id);
  });
  return all;
}

Result<base::Done> FormVerbs::worksAt(roster::SchoolId school, base::Date on) {
  if (auto has = hasSchool(*this, school); !has) return has;
  const auto rows = book_.current<roster::School>(store::subjectIs(school));
  if (!rows) return rows.error();
  if (rows->empty() || !roster::isClosed(rows->back().value, on)) return base::Done{};
  const auto& value = rows->back().value;
  return Error{ErrorCode::ruleDate, value.name + " is closed from " + value.closedFrom->words() +
                                        " on; choose another school, or reopen it at the desk "
                                        "(Schools and enrollment)"};
}

Result<base::Done> DeskVerbs::closeSchool(By by, roster::SchoolId id, base::Date from,
                                          const std::string& reason) {
  const auto may = admit(Verb::closeSchool, by, {.reason = reason});
  if (!may) return may.error();
  const auto rows = book_.current<roster::School>(store::subjectIs(id));
  if (!rows) return rows.error();
  if (rows->empty()) return Error{ErrorCode::notFound, "no such school"};
  auto closed = rows->back().value;
  if (closed.closedFrom == from)
    return Error{ErrorCode::ruleDate,
                 closed.name + " is closed from " + from.words() + " on already"};
  // Days are few: all of the program are read.
  const auto opened = book_.current<roster::ClinicDay>(store::rowsOf("school", id));
  if (!opened) return opened.error();
  for (const auto& day : *opened)
    if (!day.value.canceled && day.value.date >= from)
      return Error{ErrorCode::ruleDate, "there was a school day on " + day.value.date.words() +
                                            "; close it from a later date"};
  const auto plans = book_.current<roster::PlannedDay>(store::rowsOf("school", id));
  if (!plans) return plans.error();
  for (const auto& plan : *plans)
    if (!plan.value.canceled && plan.value.date >= from)
      return Error{ErrorCode::ruleDate, "a day is planned there on " + plan.value.date.words() +
                                            "; cancel it on the calendar first (Ctrl+T)"};
  closed.closedFrom = from;
  return write(*may, {}, [&](store::Act& act) { return replaceAll(act, *rows, closed, reason); });
}

Result<base::Done> DeskVerbs::reopenSchool(By by, roster::SchoolId id, const std::string& reason) {
  const auto may = admit(Verb::reopenSchool, by, {.reason = reason});
  if (!may) return may.error();
  const auto rows = book_.current<roster::School>(store::subjectIs(id));
  if (!rows) return rows.error();
  if (rows->empty()) return Error{ErrorCode::notFound, "no such school"};
  auto open = rows->back().value;
  if (!open.closedFrom) return Error{ErrorCode::notFound, open.name + " is not closed"};
  open.closedFrom.reset();
  return write(*may, {}, [&](store::Act& act) { return replaceAll(act, *rows, open, reason); });
}

Result<std::vector<std::string>> DeskVerbs::changesWithClosing(roster::SchoolId id) {
  const auto children = book_.current<roster::Child>(store::rowsOf("school", id));
  if (!children) return children.error();
  const auto opened = book_.current<roster::ClinicDay>(store::rowsOf("school", id));
  if (!opened) return opened.error();
  const auto days =
      std::ranges::count_if(*opened, [](const auto& day) { return !day.value.canceled; });
  std::vector<std::string> changes{
      "From that date on no day is opened or planned there, and the school is not offered for "
      "students, lists, forms or printing."};
  if (!children->empty())
    changes.push_back(base::counted(children->size(), "student stays", "students stay") +
                      " listed there, found by name or number: move each when the new school is "
                      "known. Their forms are not chased.");
  changes.push_back(days > 0 ? base::counted(days, "school day", "school days") +
                                   " with all that was done there and every report of it stay."
                             : "No school day was held there.");
  changes.emplace_back("It can be undone: Reopen.");
  return changes;
}

} // namespace gk::session
