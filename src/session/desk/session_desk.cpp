#include "base/text/text.h"
#include "session/desk/importing.h"
#include "session/reader_held.h"
#include "session/session_write.h"

#include <algorithm>
#include <map>
#include <set>

namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

Error refuse(ErrorCode code, std::string why) {
  return {code, std::move(why)};
}

} // namespace

Result<roster::ChildId> DeskVerbs::enrollChild(By by, roster::Child child, const Identity& identity,
                                               Confirmed schoolConfirmsAge, Confirmed isAnother) {
  return enrollChild(by, NewChild{std::move(child), identity}, schoolConfirmsAge, isAnother);
}

Result<roster::ChildId> DeskVerbs::enrollChild(By by, NewChild child, Confirmed schoolConfirmsAge,
                                               Confirmed isAnother) {
  auto entered = enroll(Verb::enrollChild, by, {std::move(child)}, schoolConfirmsAge, isAnother);
  if (!entered) return entered.error();
  return entered->front();
}

namespace {

Error numberTaken(const std::string& number) {
  return refuse(ErrorCode::textMalformed, "the number " + number + " is another student's");
}

/// The child as it will be entered, or why it cannot be.
Result<roster::Child> soundChild(const NewChild& entering, base::Date today, Confirmed confirmed,
                                 const std::set<std::string>& taken) {
  const auto& child = entering.child;
  const auto& identity = entering.identity;
  if (const auto named = vault::checkIdentity(identity); !named) return named.error();
  const auto grade = roster::parseGrade(child.grade);
  if (!grade) return grade.error();
  const auto verdict = roster::judgeBirthDate(identity.birth, *grade, today);
  if (verdict == roster::BirthVerdict::impossible)
    return refuse(ErrorCode::ruleBirthDate, "born " + identity.birth.words() +
                                                " would not be 3 to 19 years old; check the year");
  if (verdict == roster::BirthVerdict::askUnusualForGrade && confirmed == Confirmed::no)
    return refuse(ErrorCode::ruleBirthDate, "born " + identity.birth.words() +
                                                " is unusual for grade " + *grade +
                                                "; ask the school and confirm");
  const auto number = roster::parseChildNumber(child.number);
  if (!number) return number.error();
  if (taken.contains(*number)) return numberTaken(*number);
  auto sound = child;
  sound.number = *number;
  sound.grade = *grade;
  sound.birth = {identity.birth.year(), identity.birth.month()};
  return sound;
}

} // namespace

Result<base::Done> areOtherChildren(Reader& book, const std::vector<NewChild>& children,
                                    Confirmed areOthersInList,
                                    const std::set<roster::ChildId>& onList) {
  std::vector<std::string> numbers;
  const auto add = [&](const std::string& number, roster::Likeness why) {
    if (roster::isTooAlike(why))
      numbers.push_back(number + " (" + std::string(roster::words(why)) + ")");
  };
  // Of the list, by birth date: the too alike have one.
  std::map<base::Date, std::vector<std::pair<roster::Person, std::string>>> earlier;
  for (const auto& entering : children) {
    const auto near = book.nearMatches(entering.child.number, entering.identity);
    if (!near) return near.error();
    for (const auto& one : *near)
      if (!onList.contains(one.child.child) &&
          std::ranges::find(entering.others, one.child.child) == entering.others.end())
        add(one.child.number, one.why);
    const auto person = personOf(entering.identity);
    if (areOthersInList == Confirmed::no)
      for (const auto& [other, number] : earlier[person.birth])
        if (const auto why = roster::likeness(person, other)) add(number, *why);
    earlier[person.birth].emplace_back(person, entering.child.number);
  }
  if (numbers.empty()) return base::Done{};
  return refuse(ErrorCode::ruleSameChild,
                "this may be a student who has a card already, number " +
                    base::join(numbers, "; ") +
                    ". Open that card, or confirm that it is a different student");
}

Result<std::vector<roster::ChildId>> DeskVerbs::enrollRoster(By by, std::vector<NewChild> children,
                                                             Confirmed schoolConfirmsAges,
                                                             Confirmed areOthers) {
  return enroll(Verb::importRoster, by, std::move(children), schoolConfirmsAges, areOthers);
}

Result<base::Done> DeskVerbs::makeSound(std::vector<NewChild>& children,
                                        Confirmed schoolConfirmsAges) {
  std::set<std::string> taken;
  std::set<roster::SchoolId> asked;
  const auto today = world_.clock.now().date();
  const auto nobody = roster::ChildId(base::Uuid{});
  for (auto& entering : children) {
    auto sound = soundChild(entering, today, schoolConfirmsAges, taken);
    if (!sound) return sound.error();
    const auto others = book_.current<roster::Child>(store::numberIs(sound->number));
    if (!others) return others.error();
    if (!others->empty()) return numberTaken(sound->number);
    if (asked.insert(sound->school).second)
      if (const auto works = worksAt(sound->school, today); !works) return works.error();
    if (entering.form)
      if (const auto form = roster::checkForm(entering.form(nobody), today); !form)
        return form.error();
    for (auto* text : {&entering.identity.first, &entering.identity.middle, &entering.identity.last,
                       &entering.identity.nameUsed})
      *text = std::string(base::trim(*text));
    taken.insert(sound->number);
    entering.child = std::move(*sound);
  }
  return base::Done{};
}

roster::ChildId DeskVerbs::add(store::Act& act, const NewChild& entering) {
  const auto id = act.add(entering.child);
  const auto sealed = vault_->seal(book_.enteredAs(id.uuid()), entering.identity, world_.random);
  act.add(store::SealedIdentity{id, sealed.nonce, sealed.box});
  // The alerts first, so that no form lets the child to the chair before them.
  if (entering.alert) act.add(entering.alert(id));
  for (const auto& alert : entering.alerts)
    act.add(flagOf(alert, id));
  if (entering.form) act.add(entering.form(id));
  if (entering.background) act.add(entering.background(id));
  return id;
}

Result<std::vector<roster::ChildId>> DeskVerbs::enroll(Verb verb, By by,
                                                       std::vector<NewChild> children,
                                                       Confirmed schoolConfirmsAges,
                                                       Confirmed areOthers) {
  const auto may = admit(verb, by);
  if (!may) return may.error();
  if (!vault_) return refuse(ErrorCode::vaultLocked, "unlock the logbook to enter a student");
  if (const auto newest = sealsWithNewest(); !newest) return newest.error();
  if (const auto sound = makeSound(children, schoolConfirmsAges); !sound) return sound.error();
  if (areOthers == Confirmed::no)
    if (const auto others = areOtherChildren(*this, children, areOthers); !others)
      return others.error();
  return write(*may, {}, [&](store::Act& act) {
    std::vector<roster::ChildId> ids;
    for (const auto& entering : children)
      ids.push_back(add(act, entering));
    return ids;
  });
}

Result<base::Done> DeskVerbs::enterBackground(By by, const roster::Background& background) {
  const auto may = admit(Verb::enterBackground, by);
  if (!may) return may.error();
  if (const auto known = this->child(background.child); !known) return known.error();
  auto rows = book_.current<roster::Background>(store::rowsOf("child", background.child));
  if (!rows) return rows.error();
  return write(*may, background.child, [&](store::Act& act) {
    return replaceAll(act, *rows, background, "entered again");
  });
}

Result<base::Done> DeskVerbs::confirmProvisional(By by, roster::ChildId child,
                                                 const std::string& reason) {
  const auto may = admit(Verb::confirmProvisional, by, {.child = child, .reason = reason});
  if (!may) return may.error();
  auto old = this->child(child);
  if (!old) return old.error();
  if (!old->value.provisional)
    return refuse(ErrorCode::ruleReason, "the student is on the roster already");
  if (base::isBlank(reason))
    return refuse(ErrorCode::ruleReason, "say how the school confirmed it");
  auto confirmed = old->value;
  confirmed.provisional = false;
  return write(*may, child, [&](store::Act& act) {
    act.correct(*old, confirmed, reason);
    return base::Done{};
  });
}

Result<base::Done> DeskVerbs::moveChild(By by, roster::ChildId child, roster::SchoolId school,
                                        const std::string& grade, const std::string& room,
                                        const std::string& reason) {
  const auto may = admit(Verb::moveChild, by, {.child = child, .reason = reason});
  if (!may) return may.error();
  auto old = this->child(child);
  if (!old) return old.error();
  const auto known = roster::parseGrade(grade);
  if (!known) return known.error();
  auto to = only<roster::School>(store::subjectIs(school), "school");
  if (!to) return to.error();
  if (school != old->value.school)
    if (const auto works = worksAt(school, world_.clock.now().date()); !works) return works.error();
  if (base::isBlank(reason)) return refuse(ErrorCode::ruleReason, "say why the student moves");
  const auto& left = old->value.left;
  if (left && left->why == roster::LeftBecause::withdrawn)
    return refuse(ErrorCode::ruleReason, "student " + old->value.number +
                                             " was withdrawn by the family; record that the "
                                             "student came back first");
  auto moved = old->value;
  if (school != old->value.school) moved.left.reset(); // expected at the new one
  moved.school = school;
  moved.grade = *known;
  moved.room = room;
  return write(*may, child, [&](store::Act& act) {
    act.correct(*old, moved, reason);
    return base::Done{};
  });
}

Result<roster::ConsentId> DeskVerbs::enterConsent(By by, const roster::Consent& form,
                                                  const std::optional<roster::MedicalFlag>& alert,
                                                  Confirmed ofWhoLeft) {
  const auto may = admit(Verb::enterConsent, by);
  if (!may) return may.error();
  const auto sound = roster::checkForm(form, world_.clock.now().date());
  if (!sound) return sound.error();
  if (alert && alert->child != form.child)
    return refuse(ErrorCode::notFound, "the alert is about another student than the form");
  if (const auto here = isExpected(form.child, ofWhoLeft); !here) return here.error();
  return write(*may, form.child, [&](store::Act& act) {
    if (alert) act.add(*alert);
    return act.add(form);
  });
}

Result<std::vector<Recorded<roster::Consent>>> DeskVerbs::formsToWithdraw(roster::ChildId child,
                                                                          const std::string& how) {
  if (base::isBlank(how))
    return refuse(ErrorCode::ruleReason, "say how it was withdrawn and who recorded it");
  auto forms = consents(child);
  if (!forms) return forms.error();
  std::erase_if(*forms, [](const auto& form) {
    return form.value.state != roster::ConsentState::yes &&
           form.value.state != roster::ConsentState::yesWithLimits;
  });
  if (forms->empty()) return refuse(ErrorCode::notFound, "there is no consent to withdraw");
  return forms;
}

Result<base::Done> DeskVerbs::withdrawConsent(By by, roster::ChildId child,
                                              const std::string& how) {
  const auto may = admit(Verb::withdrawConsent, by, {.child = child, .reason = how});
  if (!may) return may.error();
  const auto forms = formsToWithdraw(child, how);
  if (!forms) return forms.error();
  return write(*may, child, [&](store::Act& act) {
    withdrawForms(act, *forms, how);
    return base::Done{};
  });
}

Result<base::Done> DeskVerbs::correctConsent(By by, const Recorded<roster::Consent>& old,
                                             const roster::Consent& form,
                                             const std::string& reason) {
  const auto may = admit(Verb::correctConsent, by, {.child = form.child, .reason = reason});
  if (!may) return may.error();
  if (base::isBlank(reason)) return refuse(ErrorCode::ruleReason, "a correction needs a reason");
  const auto sound = roster::checkForm(form, world_.clock.now().date());
  if (!sound) return sound.error();
  const auto now = asItStands(old);
  if (!now) return now.error();
  if (now->value.child != form.child)
    return refuse(
        ErrorCode::ruleIdentity,
        "a form stays with its student; enter it for the other one and withdraw this one");
  return write(*may, form.child, [&](store::Act& act) {
    act.correct(*now, form, reason);
    return base::Done{};
  });
}

Result<roster::OverrideId> DeskVerbs::overrideConsent(By by, const roster::ConsentOverride& taken,
                                                      const OwnPin& pin) {
  const auto may =
      admit(Verb::overrideConsent, by,
            {.child = taken.child, .reason = taken.reason, .on = taken.on, .pin = pin});
  if (!may) return may.error();
  if (base::isBlank(taken.reason))
    return refuse(ErrorCode::ruleReason, "an override needs a reason; every report shows it");
  if (by.author != taken.clinician)
    return refuse(ErrorCode::ruleCredential, "only that clinician can do this");
  if (const auto open = dateOpenForCare(taken.child, taken.on); !open) return open.error();
  return write(*may, taken.child, [&](store::Act& act) { return act.add(taken); });
}

Result<roster::FlagId> DeskVerbs::enterFlag(By by, const roster::MedicalFlag& flag) {
  const auto may = admit(Verb::enterFlag, by);
  if (!may) return may.error();
  return write(*may, flag.child, [&](store::Act& act) { return act.add(flag); });
}

Result<base::Done> DeskVerbs::resolveFlag(By by, const Recorded<roster::MedicalFlag>& flag,
                                          const std::string& decided, const OwnPin& pin) {
  const auto may =
      admit(Verb::resolveFlag, by, {.child = flag.value.child, .reason = decided, .pin = pin});
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
