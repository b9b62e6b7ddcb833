#include "session/session_write.h"

#include <algorithm>
#include <set>

namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

Error refuse(ErrorCode code, std::string why) {
  return {code, std::move(why)};
}

} // namespace

Result<roster::ProgramId> Session::enterProgram(By by, const roster::Program& program) {
  const auto may = admit(Verb::enterProgram, by);
  if (!may) return may.error();
  if (program.name.empty()) return refuse(ErrorCode::textMalformed, "the program needs a name");
  if (program.suppressBelow < 5)
    return refuse(ErrorCode::numberMalformed, "small counts are hidden below 5 at the least");
  const auto already = this->program();
  if (already) return refuse(ErrorCode::ruleReason, "this logbook has its program already");
  return write(*may, {}, [&](store::Act& act) { return act.add(program); });
}

Result<roster::TermId> Session::enterTerm(By by, const roster::Term& term) {
  const auto may = admit(Verb::enterTerm, by);
  if (!may) return may.error();
  if (term.end <= term.start)
    return refuse(ErrorCode::ruleDate, "the term ends before it starts; check both dates");
  auto others = terms();
  if (!others) return others.error();
  for (const auto& other : *others)
    if (term.start <= other.value.end && other.value.start <= term.end)
      return refuse(ErrorCode::ruleDate, "the term overlaps with " + other.value.name);
  return write(*may, {}, [&](store::Act& act) { return act.add(term); });
}

Result<roster::SchoolId> Session::enterSchool(By by, const roster::School& school) {
  const auto may = admit(Verb::enterSchool, by);
  if (!may) return may.error();
  auto others = schools();
  if (!others) return others.error();
  for (const auto& other : *others)
    if (other.value.code == school.code)
      return refuse(ErrorCode::textMalformed,
                    "the code " + school.code + " belongs to " + other.value.name);
  if (school.name.empty() || school.code.empty())
    return refuse(ErrorCode::textMalformed, "a school needs a name and a code");
  return write(*may, {}, [&](store::Act& act) { return act.add(school); });
}

Result<roster::EnrolmentId> Session::enterEnrolment(By by, const roster::Enrolment& enrolment) {
  const auto may = admit(Verb::enterEnrolment, by);
  if (!may) return may.error();
  const auto grade = roster::gradeNumber(enrolment.grade);
  if (!grade) return grade.error();
  if (enrolment.pupils < 0)
    return refuse(ErrorCode::numberMalformed, "a count of pupils cannot be negative");
  return write(*may, {}, [&](store::Act& act) { return act.add(enrolment); });
}

Result<base::Done> Session::enterEligibility(By by, const roster::MealEligibility& eligibility) {
  const auto may = admit(Verb::enterEligibility, by);
  if (!may) return may.error();
  if (eligibility.percent < 0 || eligibility.percent > 100)
    return refuse(ErrorCode::numberMalformed, "the share of pupils is 0 to 100 per cent");
  if (eligibility.source.empty())
    return refuse(ErrorCode::textMalformed, "say who published the share, and of which year");
  auto rows = book_.current<roster::MealEligibility>(store::rowsOf("term", eligibility.term));
  if (!rows) return rows.error();
  std::erase_if(*rows, [&](const auto& row) { return row.value.school != eligibility.school; });
  return write(*may, {},
               [&](store::Act& act) { return replaceAll(act, *rows, eligibility, "said again"); });
}

Result<base::MemberId> Session::enterMember(By by, const roster::Member& member) {
  const auto may = admit(Verb::enterMember, by);
  if (!may) return may.error();
  if (member.name.empty() || member.initials.empty())
    return refuse(ErrorCode::textMalformed, "a team member needs a name and initials");
  auto others = members();
  if (!others) return others.error();
  for (const auto& other : *others)
    if (other.value.initials == member.initials)
      return refuse(ErrorCode::textMalformed,
                    "the initials " + member.initials + " belong to " + other.value.name);
  return write(*may, {}, [&](store::Act& act) { return act.add(member); });
}

Result<roster::ChildId> Session::enrolChild(By by, roster::Child child, const Identity& identity,
                                            Confirmed schoolConfirmsAge) {
  auto entered = enrol(Verb::enrolChild, by, {{std::move(child), identity}}, schoolConfirmsAge);
  if (!entered) return entered.error();
  return entered->front();
}

namespace {

Error numberTaken(const std::string& number) {
  return refuse(ErrorCode::textMalformed, "the number " + number + " is another child's");
}

/// The child as it will be entered, or why it cannot be.
Result<roster::Child> soundChild(const NewChild& entering, base::Date today, Confirmed confirmed,
                                 const std::set<std::string>& taken) {
  const auto& [child, identity, form, background] = entering;
  if (const auto sound = vault::checkIdentity(identity); !sound) return sound.error();
  const auto verdict = roster::judgeBirthDate(identity.birth, child.grade, today);
  if (verdict == roster::BirthVerdict::impossible)
    return refuse(ErrorCode::ruleBirthDate, "born " + identity.birth.words() +
                                                " would not be 3 to 19 years old; check the year");
  if (verdict == roster::BirthVerdict::askUnusualForGrade && confirmed == Confirmed::no)
    return refuse(ErrorCode::ruleBirthDate, "born " + identity.birth.words() +
                                                " is unusual for grade " + child.grade +
                                                "; ask the school and confirm");
  const auto number = roster::parseChildNumber(child.number);
  if (!number) return number.error();
  if (taken.contains(*number)) return numberTaken(*number);
  auto sound = child;
  sound.number = *number;
  sound.birth = {identity.birth.year(), identity.birth.month()};
  return sound;
}

} // namespace

Result<std::vector<roster::ChildId>> Session::enrolRoster(By by, std::vector<NewChild> children,
                                                          Confirmed schoolConfirmsAges) {
  return enrol(Verb::importRoster, by, std::move(children), schoolConfirmsAges);
}

Result<std::vector<roster::ChildId>>
Session::enrol(Verb verb, By by, std::vector<NewChild> children, Confirmed schoolConfirmsAges) {
  const auto may = admit(verb, by);
  if (!may) return may.error();
  if (!vault_) return refuse(ErrorCode::vaultLocked, "unlock the logbook to enter a child");
  std::set<std::string> taken;
  const auto today = world_.clock.now().date();
  const auto nobody = roster::ChildId(base::Uuid{});
  for (auto& entering : children) {
    auto sound = soundChild(entering, today, schoolConfirmsAges, taken);
    if (!sound) return sound.error();
    const auto others = book_.current<roster::Child>(store::numberIs(sound->number));
    if (!others) return others.error();
    if (!others->empty()) return numberTaken(sound->number);
    if (entering.form)
      if (const auto form = roster::checkForm(entering.form(nobody), today); !form)
        return form.error();
    taken.insert(sound->number);
    entering.child = std::move(*sound);
  }
  return write(*may, {}, [&](store::Act& act) {
    std::vector<roster::ChildId> ids;
    for (const auto& entering : children) {
      ids.push_back(act.add(entering.child));
      const auto sealed = vault_->seal(ids.back().uuid(), entering.identity, world_.random);
      act.add(store::SealedIdentity{ids.back(), sealed.nonce, sealed.box});
      if (entering.form) act.add(entering.form(ids.back()));
      if (entering.background) act.add(entering.background(ids.back()));
    }
    return ids;
  });
}

Result<base::Done> Session::enterBackground(By by, const roster::Background& background) {
  const auto may = admit(Verb::enterBackground, by);
  if (!may) return may.error();
  if (const auto known = this->child(background.child); !known) return known.error();
  auto rows = book_.current<roster::Background>(store::rowsOf("child", background.child));
  if (!rows) return rows.error();
  return write(*may, background.child,
               [&](store::Act& act) { return replaceAll(act, *rows, background, "said again"); });
}

Result<base::Done> Session::confirmProvisional(By by, roster::ChildId child,
                                               const std::string& reason) {
  const auto may = admit(Verb::confirmProvisional, by, {.child = child, .reason = reason});
  if (!may) return may.error();
  auto old = this->child(child);
  if (!old) return old.error();
  if (reason.empty()) return refuse(ErrorCode::ruleReason, "say how the school confirmed it");
  auto confirmed = old->value;
  confirmed.provisional = false;
  return write(*may, child, [&](store::Act& act) {
    act.correct(*old, confirmed, reason);
    return base::Done{};
  });
}

Result<base::Done> Session::moveChild(By by, roster::ChildId child, roster::SchoolId school,
                                      const std::string& grade, const std::string& room,
                                      const std::string& reason) {
  const auto may = admit(Verb::moveChild, by, {.child = child, .reason = reason});
  if (!may) return may.error();
  auto old = this->child(child);
  if (!old) return old.error();
  const auto known = roster::gradeNumber(grade);
  if (!known) return known.error();
  if (reason.empty()) return refuse(ErrorCode::ruleReason, "say why the child moves");
  auto moved = old->value;
  moved.school = school;
  moved.grade = grade;
  moved.room = room;
  return write(*may, child, [&](store::Act& act) {
    act.correct(*old, moved, reason);
    return base::Done{};
  });
}

Result<roster::ConsentId> Session::enterConsent(By by, const roster::Consent& form) {
  const auto may = admit(Verb::enterConsent, by);
  if (!may) return may.error();
  const auto sound = roster::checkForm(form, world_.clock.now().date());
  if (!sound) return sound.error();
  return write(*may, form.child, [&](store::Act& act) { return act.add(form); });
}

Result<base::Done> Session::withdrawConsent(By by, roster::ChildId child, const std::string& how) {
  const auto may = admit(Verb::withdrawConsent, by, {.child = child, .reason = how});
  if (!may) return may.error();
  if (how.empty())
    return refuse(ErrorCode::ruleReason, "say how it was withdrawn and who took the word");
  auto forms = consents(child);
  if (!forms) return forms.error();
  std::erase_if(*forms, [](const auto& form) {
    return form.value.state != roster::ConsentState::yes &&
           form.value.state != roster::ConsentState::yesWithLimits;
  });
  if (forms->empty()) return refuse(ErrorCode::notFound, "there is no consent to withdraw");
  return write(*may, child, [&](store::Act& act) {
    for (const auto& form : *forms) {
      auto withdrawn = form.value;
      withdrawn.state = roster::ConsentState::withdrawn;
      withdrawn.note = how;
      act.correct(form, withdrawn, "withdrawn");
    }
    return base::Done{};
  });
}

Result<base::Done> Session::correctConsent(By by, const Recorded<roster::Consent>& old,
                                           const roster::Consent& form, const std::string& reason) {
  const auto may = admit(Verb::correctConsent, by, {.child = form.child, .reason = reason});
  if (!may) return may.error();
  if (reason.empty()) return refuse(ErrorCode::ruleReason, "a correction needs a reason");
  const auto sound = roster::checkForm(form, world_.clock.now().date());
  if (!sound) return sound.error();
  return write(*may, form.child, [&](store::Act& act) {
    act.correct(old, form, reason);
    return base::Done{};
  });
}

Result<roster::OverrideId> Session::overrideConsent(By by, const roster::ConsentOverride& taken) {
  const auto may = admit(Verb::overrideConsent, by,
                         {.child = taken.child, .reason = taken.reason, .on = taken.on});
  if (!may) return may.error();
  if (taken.reason.empty())
    return refuse(ErrorCode::ruleReason, "an override needs a reason; every report shows it");
  if (by.author != taken.clinician)
    return refuse(ErrorCode::ruleCredential, "only the clinician herself can take it on");
  return write(*may, taken.child, [&](store::Act& act) { return act.add(taken); });
}

Result<roster::FlagId> Session::enterFlag(By by, const roster::MedicalFlag& flag) {
  const auto may = admit(Verb::enterFlag, by);
  if (!may) return may.error();
  return write(*may, flag.child, [&](store::Act& act) { return act.add(flag); });
}

Result<base::Done> Session::resolveFlag(By by, const Recorded<roster::MedicalFlag>& flag,
                                        const std::string& decided) {
  const auto may = admit(Verb::resolveFlag, by, {.child = flag.value.child, .reason = decided});
  if (!may) return may.error();
  auto now = only<roster::MedicalFlag>(store::subjectIs(flag.id), "medical flag");
  if (!now) return now.error();
  if (now->value.resolved)
    return refuse(ErrorCode::ruleReason, "this was decided already: " + now->value.decided);
  auto resolved = now->value;
  resolved.resolved = true;
  resolved.decided = decided;
  return write(*may, flag.value.child, [&](store::Act& act) {
    act.correct(*now, resolved, decided);
    return base::Done{};
  });
}

} // namespace gk::session
