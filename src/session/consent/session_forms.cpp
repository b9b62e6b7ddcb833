#include "base/text/text.h"
#include "session/part.h"
#include "session/reader_held.h"
#include "session/session_write.h"

#include <algorithm>
#include <map>
#include <set>

// The form desk: what came back on paper, and what went out.
namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

/// The same paper typed twice; remarks and the day on which it was typed may differ.
bool isSameForm(const roster::Consent& one, roster::Consent other) {
  other.note = one.note;
  other.receivedOn = one.receivedOn;
  other.version = one.version;
  other.language = one.language;
  return one == other;
}

Error twice(const roster::Consent& form) {
  return {ErrorCode::ruleConsentForm,
          "this form is in the logbook already" +
              (form.signedOn ? ", signed " + form.signedOn->words() : std::string()) +
              "; correct that one, or confirm that a second form came back"};
}

} // namespace

Result<bool> FormVerbs::isEntered(const roster::Consent& form) {
  const auto before = consents(form.child);
  if (!before) return before.error();
  return std::ranges::any_of(*before, [&](const auto& one) { return isSameForm(form, one.value); });
}

Result<std::vector<roster::MedicalFlag>> FormVerbs::newAlerts(const FormEntry& entry) {
  const auto known = flags(entry.form.child);
  if (!known) return known.error();
  std::vector<roster::MedicalFlag> alerts;
  for (const auto& alert : entry.alerts) {
    if (alert.child != entry.form.child)
      return Error{ErrorCode::notFound, "the alert is about another student than the form"};
    const auto isIt = [&](const roster::MedicalFlag& one) {
      return !one.resolved && one.kind == alert.kind && one.action == alert.action &&
             one.detail == alert.detail;
    };
    if (std::ranges::none_of(*known, [&](const auto& row) { return isIt(row.value); }) &&
        std::ranges::none_of(alerts, isIt))
      alerts.push_back(alert);
  }
  return alerts;
}

Result<roster::ConsentId> FormVerbs::enterForm(By by, const FormEntry& entry,
                                               const FormConfirmed& confirmed) {
  const auto may = admit(Verb::enterConsent, by);
  if (!may) return may.error();
  const auto& form = entry.form;
  if (const auto sound = roster::checkForm(form, world_.clock.now().date()); !sound)
    return sound.error();
  if (const auto here = isExpected(form.child, confirmed.ofWhoLeft); !here) return here.error();
  const auto alerts = newAlerts(entry);
  if (!alerts) return alerts.error();
  const auto isTwice = isEntered(form);
  if (!isTwice) return isTwice.error();
  if (*isTwice && confirmed.isSecond == Confirmed::no) return twice(form);
  std::optional<Identity> told;
  std::vector<Recorded<store::SealedIdentity>> boxes;
  if (entry.guardians) {
    if (!vault_) return Error{ErrorCode::vaultLocked, "unlock the logbook to enter who is told"};
    if (const auto newest = sealsWithNewest(); !newest) return newest.error();
    const auto known = identity(form.child);
    if (!known) return known.error();
    auto now = *known;
    const auto kept = std::min(entry.guardians->size(), now.guardians.size());
    now.guardians.erase(now.guardians.begin(),
                        now.guardians.begin() + static_cast<std::ptrdiff_t>(kept));
    now.guardians.insert(now.guardians.begin(), entry.guardians->begin(), entry.guardians->end());
    if (const auto sound = vault::checkIdentity(now); !sound) return sound.error();
    if (now != *known) {
      auto rows = book_.current<store::SealedIdentity>(store::rowsOf("child", form.child));
      if (!rows) return rows.error();
      boxes = std::move(*rows);
      told = std::move(now);
    }
  }
  return write(*may, form.child, [&](store::Act& act) {
    // The alerts first, so that no form lets the child to the chair before them.
    for (const auto& alert : *alerts)
      act.add(alert);
    if (told) {
      const auto sealed = vault_->seal(book_.enteredAs(form.child.uuid()), *told, world_.random);
      replaceAll(act, boxes, store::SealedIdentity{form.child, sealed.nonce, sealed.box},
                 "as on the consent form");
    }
    return act.add(form);
  });
}

Result<roster::HandoutId> FormVerbs::enterHandout(By by, const roster::FormHandout& handout) {
  const auto may = admit(Verb::enterHandout, by);
  if (!may) return may.error();
  if (const auto sound = roster::checkHandout(handout, world_.clock.now().date()); !sound)
    return sound.error();
  if (handout.copies == 0)
    return Error{ErrorCode::numberMalformed, "say how many forms were handed out"};
  if (const auto works = worksAt(handout.school, handout.on); !works) return works.error();
  return write(*may, {}, [&](store::Act& act) { return act.add(handout); });
}

Result<base::Done> FormVerbs::correctHandout(By by, roster::HandoutId id,
                                             const roster::FormHandout& handout,
                                             const std::string& reason) {
  const auto may = admit(Verb::correctHandout, by, {.reason = reason});
  if (!may) return may.error();
  if (const auto sound = roster::checkHandout(handout, world_.clock.now().date()); !sound)
    return sound.error();
  auto old = only<roster::FormHandout>(store::subjectIs(id), "line of forms handed out");
  if (!old) return old.error();
  for (const auto school : {old->value.school, handout.school})
    if (const auto has = hasSchool(*this, school); !has) return has.error();
  return write(*may, {}, [&](store::Act& act) {
    act.correct(*old, handout, reason);
    return base::Done{};
  });
}

List<roster::FormHandout> FormVerbs::handouts(roster::TermId term) {
  auto lines = book_.current<roster::FormHandout>(store::rowsOf("term", term));
  const auto part = oneSchool();
  if (!part) return part.error();
  if (lines && *part)
    std::erase_if(*lines, [&](const auto& line) { return line.value.school != (*part)->school; });
  return lines;
}

List<roster::Consent> FormVerbs::formRevisions(roster::ConsentId form) {
  return book_.history<roster::Consent>(store::subjectIs(form));
}

Result<std::vector<FormLine>> FormVerbs::formLines(roster::TermId term, base::Date on,
                                                   std::optional<roster::SchoolId> school,
                                                   bool withPeople) {
  auto lines = formLinesEver(term, on, school, withPeople);
  if (lines) std::erase_if(*lines, [](const FormLine& line) { return line.of.hasLeft; });
  return lines;
}

Result<std::vector<FormLine>> FormVerbs::formLinesEver(roster::TermId term, base::Date on,
                                                       std::optional<roster::SchoolId> school,
                                                       bool withPeople) {
  if (school)
    if (const auto has = hasSchool(*this, *school); !has) return has.error();
  const auto children =
      book_.current<roster::Child>(school ? store::rowsOf("school", *school) : store::everything());
  if (!children) return children.error();
  const auto worked = openSchools(on);
  if (!worked) return worked.error();
  std::map<roster::ChildId, std::vector<Recorded<roster::Consent>>> forms;
  auto rows = book_.current<roster::Consent>(store::everything());
  if (!rows) return rows.error();
  for (auto& row : *rows)
    forms[row.value.child].push_back(std::move(row));
  std::vector<FormLine> lines;
  for (const auto& child : *children) {
    const auto& own = forms[child.id];
    const bool hasLeft = roster::hasLeft(child.value, on);
    if (hasLeft &&
        std::ranges::none_of(own, [&](const auto& form) { return form.value.term == term; }))
      continue;
    // No one chases the form of a school that is closed, unless it is asked for by name.
    if (!school && std::ranges::none_of(
                       *worked, [&](const auto& one) { return one.id == child.value.school; }))
      continue;
    FormLine line{
        {child.id, child.value.school, child.value.room, roster::formState(own, term, on), hasLeft},
        child.value.number,
        child.value.number,
        child.value.grade};
    if (vault_) {
      const auto identity = this->identity(child.id);
      if (!identity && !hasNoName(identity.error())) return identity.error();
      if (identity) {
        line.name = identity->shownName();
        if (withPeople && !identity->guardians.empty()) {
          const auto& first = identity->guardians.front();
          line.guardian = first.name;
          line.phone = first.phone;
          line.language = first.language;
        }
      }
    }
    lines.push_back(std::move(line));
  }
  std::ranges::sort(lines, {}, [](const FormLine& line) {
    return std::tuple(line.of.school, base::numberedPlace(line.of.room), base::folded(line.name),
                      line.number);
  });
  return lines;
}

Result<std::vector<roster::FormCount>> FormVerbs::formCounts(roster::TermId term, base::Date on,
                                                             std::optional<roster::SchoolId> of) {
  const auto all = this->schools();
  const auto lines = formLinesEver(term, on, of, false);
  const auto worked = openSchools(on);
  auto out = handouts(term);
  if (!all) return all.error();
  if (!lines) return lines.error();
  if (!worked) return worked.error();
  if (!out) return out.error();
  // What went to a school counts where what came back from it does.
  std::erase_if(*out, [&](const auto& row) {
    return of ? row.value.school != *of : std::ranges::none_of(*worked, [&](const auto& one) {
      return one.id == row.value.school;
    });
  });
  std::vector<roster::SchoolId> order;
  for (const auto& school : *all)
    order.push_back(school.id);
  std::vector<roster::FormOfChild> children;
  for (const auto& line : *lines)
    children.push_back(line.of);
  return roster::countForms(children, *out, order);
}

} // namespace gk::session
