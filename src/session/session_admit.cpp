#include "base/text/text.h"
#include "session/session_write.h"

#include <algorithm>

namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

bool keeps(Keeps what, const roster::Member& member) {
  return what == Keeps::nothing ||
         (what == Keeps::kit ? roster::keepsKit(member) : roster::keepsTeam(member));
}

} // namespace

Result<Recorded<roster::Member>> Door::entitled(base::MemberId who, Right right, base::Date on) {
  auto member = only<roster::Member>(store::subjectIs(who), "team member");
  if (!member) return member;
  const auto may = roster::mayDo(member->value, right.task, on);
  if (!may) return may.error();
  if (keeps(right.keeps, member->value)) return member;
  const auto team = members();
  if (!team) return team.error();
  // The first of a team enters the others; and two laptops may each have ended the other's rights.
  if (std::ranges::none_of(*team, [&](const auto& one) {
        return one.value.may.has(right.task) && keeps(right.keeps, one.value);
      }))
    return member;
  return Error{
      ErrorCode::ruleCredential,
      member->value.name +
          (right.keeps == Keeps::kit ? " only types" : " does not sign and is not a manager") +
          ", so another member must do this: one who " +
          (right.keeps == Keeps::kit ? "treats, signs or is a manager" : "signs, or a manager")};
}

Result<Recorded<roster::ClinicDay>> Door::dayInState(roster::DayId id, DayMust must) {
  auto found = this->day(id);
  if (!found || must == DayMust::exist) return found;
  if (found->value.canceled)
    return Error{ErrorCode::ruleDayOpen, "this school day was canceled: " + found->value.reason};
  const auto closed = isSigned(id);
  if (!closed) return closed.error();
  if (must == DayMust::beOpen && *closed)
    return Error{ErrorCode::ruleDayOpen,
                 "this school day is signed; reopen it with a reason, or write a late entry"};
  if (must == DayMust::beSigned && !*closed)
    return Error{ErrorCode::ruleDayOpen, "this school day is not signed; change the entry itself"};
  return found;
}

Result<bool> Door::isSettingUp() {
  const auto days = book_.current<roster::ClinicDay>(store::everything());
  if (!days) return days.error();
  if (days->empty()) return true;
  // A book that was made without its program is set up still, whatever days it has; and so is one
  // in which no one may type any more, such as after two laptops each took it from the other's.
  const auto known = program();
  if (!known && known.error().code != ErrorCode::notFound) return known.error();
  if (!known) return true;
  const auto team = members();
  if (!team) return team.error();
  return std::ranges::none_of(
      *team, [](const auto& one) { return one.value.may.has(roster::Task::type); });
}

/// Who has a PIN is known at the keyboard: from then on no one enters as no one.
Result<bool> Door::isAnyNamed() {
  const auto team = members();
  if (!team) return team.error();
  for (const auto& one : *team) {
    if (!one.value.may.has(roster::Task::type)) continue;
    const auto pin = newestPin(one.id);
    if (!pin) return pin.error();
    if (*pin && !(*pin)->isReset()) return true;
  }
  return false;
}

void Door::confirmClock() {
  clockTrusted_ = world_.clock.now().at;
}

Result<Admission> Door::admit(Verb verb, By by, const About& about) {
  if (const auto question = clockQuestion()) return Error{ErrorCode::clockAhead, *question};
  const auto& rule = ruleOf(verb);
  if (by.station == base::Station::unsaid) by.station = rule.station;
  Admission admission(verb, by, about.on.value_or(world_.clock.now().date()));
  if (rule.day != DayMust::none) {
    base::require(about.day.has_value(), "an act about a day that is not named");
    // Who acts is asked first, on the day's date; a day that is not there is said at once.
    auto known = this->day(*about.day);
    if (!known) return known.error();
    admission.on_ = known->value.date;
  }
  if (by.author) {
    auto author = entitled(*by.author, rule.right, admission.on_);
    if (!author) return author.error();
    admission.author_ = std::move(*author);
  } else {
    const auto settingUp = rule.atSetup ? isSettingUp() : Result<bool>(false);
    if (!settingUp) return settingUp.error();
    const auto named = *settingUp ? isAnyNamed() : Result<bool>(true);
    if (!named) return named.error();
    if (*named)
      return Error{ErrorCode::ruleCredential,
                   "no one is named as entering this; choose one, at the desk under Entered by, "
                   "elsewhere under Team and supplies"};
  }
  if (by.recorder && by.recorder != by.author) {
    const auto recorder = entitled(*by.recorder, roster::Task::type, admission.on_);
    if (!recorder) return recorder.error();
  }
  if (rule.day != DayMust::none) {
    auto day = dayInState(*about.day, rule.day);
    if (!day) return day.error();
    admission.day_ = std::move(*day);
  }
  if (rule.asksSeated) {
    base::require(about.child && about.day, "an act at the chair on no child");
    if (const auto seated = isSeated(*about.child, *about.day); !seated) return seated.error();
  }
  if (rule.consent) {
    base::require(about.child.has_value(), "a service to no child");
    const auto allowed = mayTreat(*about.child, *rule.consent, admission.on_);
    if (!allowed) return allowed.error();
  }
  if (rule.asksReason && base::isBlank(about.reason.value_or("")))
    return Error{ErrorCode::ruleReason,
                 std::string(rule.words) + " needs a reason; say why, in a few words"};
  if (const auto own = isHerself(admission, rule, about); !own) return own.error();
  return admission;
}

} // namespace gk::session
