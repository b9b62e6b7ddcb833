#include "base/text/text.h"
#include "session/session_write.h"

#include <algorithm>

namespace gk::session {

using base::Error;
using base::ErrorCode;

Result<roster::DayId> DayVerbs::openDay(By by, const roster::ClinicDay& day) {
  const auto may = admit(Verb::openDay, by, {.on = day.date});
  if (!may) return may.error();
  auto term = only<roster::Term>(store::subjectIs(day.term), "term");
  if (!term) return term.error();
  const auto today = world_.clock.now().date();
  if (day.date > today)
    return Error{ErrorCode::ruleDate, day.date.words() + " is in the future; today is " +
                                          today.words() + ". Check the laptop's clock"};
  if (const auto works = worksAt(day.school, day.date); !works) return works.error();
  const auto question = roster::dateQuestion(term->value, day.date);
  if (!question.empty() && base::isBlank(day.reason))
    return Error{ErrorCode::ruleDate, question + "; give a reason to open the day"};
  auto others = days(day.term);
  if (!others) return others.error();
  for (const auto& other : *others)
    if (other.value.school == day.school && other.value.date == day.date &&
        other.value.team == day.team)
      return Error{ErrorCode::ruleDayOpen,
                   "this school day is there already; a second team that day is team " +
                       std::to_string(day.team + 1)};
  return write(*may, {}, [&](store::Act& act) { return act.add(day); });
}

Result<base::Done> DayVerbs::cancelDay(By by, roster::DayId day, const std::string& reason) {
  const auto may = admit(Verb::cancelDay, by, {.day = day, .reason = reason});
  if (!may) return may.error();
  auto old = this->day(day);
  if (!old) return old.error();
  if (base::isBlank(reason)) return Error{ErrorCode::ruleReason, "say why the day is canceled"};
  auto seatings = book_.current<chairside::Seating>(store::rowsOf("day", day));
  if (!seatings) return seatings.error();
  if (!seatings->empty())
    return Error{ErrorCode::ruleDayOpen, "students were seen on this day; close it out instead"};
  auto canceled = old->value;
  canceled.canceled = true;
  canceled.reason = reason;
  return write(*may, {}, [&](store::Act& act) {
    act.correct(*old, canceled, reason);
    return base::Done{};
  });
}

Result<roster::AgreementOverrideId>
DayVerbs::overrideAgreement(By by, const roster::AgreementOverride& taken, const OwnPin& pin) {
  const auto may =
      admit(Verb::overrideAgreement, by, {.day = taken.day, .reason = taken.reason, .pin = pin});
  if (!may) return may.error();
  if (by.author != taken.clinician)
    return Error{ErrorCode::ruleCredential, "only the clinician who gives the reason can do this"};
  const auto lapsed = lapsedAgreement(taken.day);
  if (!lapsed) return lapsed.error();
  if (!*lapsed)
    return Error{ErrorCode::ruleReason, "the agreement is valid today; no override is needed"};
  return write(*may, {}, [&](store::Act& act) { return act.add(taken); });
}

Result<kit::ReadinessId> DayVerbs::answerReadiness(By by, const kit::ReadinessCheck& check) {
  const auto may = admit(Verb::answerReadiness, by, {.day = check.day});
  if (!may) return may.error();
  if (const auto fits = kit::checkReadiness(check); !fits) return fits.error();
  auto answers = readiness(check.day);
  if (!answers) return answers.error();
  const auto old =
      std::ranges::find_if(*answers, [&](const auto& row) { return row.value.item == check.item; });
  return write(*may, {}, [&](store::Act& act) {
    if (old == answers->end()) return act.add(check);
    act.correct(*old, check, "answered again");
    return old->id;
  });
}

Result<chairside::PaperId> Session::enterPaper(By by, const chairside::PaperSheet& sheet) {
  const auto may = admit(Verb::enterPaper, by, {.day = sheet.day, .child = sheet.child});
  if (!may) return may.error();
  const auto refuse = [](std::string why) { return Error{ErrorCode::rulePaper, std::move(why)}; };
  if (sheet.number.empty()) return refuse("say which number is printed on the sheet");
  if (sheet.checker == by.recorder.value_or(*by.author))
    return refuse("the person who typed the visit cannot check it");
  auto checker = only<roster::Member>(store::subjectIs(sheet.checker), "team member");
  if (!checker) return checker.error();
  auto others = paperSheets(sheet.day);
  if (!others) return others.error();
  for (const auto& other : *others)
    if (other.value.number == sheet.number || other.value.child == sheet.child)
      return refuse(other.value.child == sheet.child
                        ? "this visit is from sheet " + other.value.number + " already"
                        : "sheet " + sheet.number + " is another child's on this day");
  return write(*may, sheet.child, [&](store::Act& act) { return act.add(sheet); });
}

} // namespace gk::session
