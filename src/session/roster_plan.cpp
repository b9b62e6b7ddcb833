#include "session/roster_plan.h"

#include "base/text.h"
#include "reports/records/inputs.h"

#include <algorithm>
#include <set>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using base::Result;
using roster::RosterLine;

namespace {

class Problems {
 public:
  void add(std::size_t line, std::string_view column, const std::string& what) {
    constexpr std::size_t most = 5;
    if (++count_ <= most)
      text_.push_back("line " + std::to_string(line) + ", " + std::string(column) + ": " + what);
  }

  [[nodiscard]] std::optional<Error> error() const {
    if (count_ == 0) return std::nullopt;
    const auto rest = count_ - text_.size();
    return Error{ErrorCode::csvMalformed,
                 std::to_string(count_) + (count_ == 1 ? " problem" : " problems") +
                     " in the roster, nothing was imported: " + base::join(text_, "; ") +
                     (rest > 0 ? "; and " + std::to_string(rest) + " more" : "")};
  }

 private:
  std::size_t count_ = 0;
  std::vector<std::string> text_;
};

Identity identityOf(const RosterLine& line) {
  Identity identity{.first = line.first,
                    .middle = line.middle,
                    .last = line.last,
                    .nameUsed = line.nameUsed,
                    .birth = line.birth,
                    .room = line.room,
                    .teacher = line.teacher};
  if (!line.guardian.empty() || !line.phone.empty())
    identity.guardians.push_back({line.guardian, line.relation, line.phone, line.language});
  return identity;
}

/// Who and which numbers the book and the file have.
class Known {
 public:
  static Result<Known> of(Session& session, const std::vector<RosterLine>& lines,
                          const RosterAim& aim) {
    // The term's records hold every child of the book.
    const auto records = session.termRecords(aim.term.id, aim.today);
    if (!records) return records.error();
    Known known;
    for (const auto& row : records->children)
      known.numbers_.insert(row.value.number);
    const auto erased = session.erasures(); // whose paper is still about
    if (!erased) return erased.error();
    for (const auto& one : *erased)
      known.numbers_.insert(one.record.value.number);
    for (const auto& line : lines)
      if (!line.number.empty()) known.asked_.insert(line.number);
    return known;
  }

  [[nodiscard]] bool hasNumber(const std::string& number) const {
    return numbers_.contains(number);
  }

  /// Who may be this child, by numbers of the book and lines of the file, and why.
  Result<std::vector<std::string>> meet(Session& session, const std::string& number,
                                        const Identity& identity, std::size_t line) {
    std::vector<std::string> alike;
    const auto add = [&](const std::string& whom, roster::Likeness why) {
      if (roster::isTooAlike(why))
        alike.push_back(whom + " (" + std::string(roster::words(why)) + ")");
    };
    const auto near = session.nearMatches(number, identity);
    if (!near) return near.error();
    for (const auto& one : *near)
      add("number " + one.child.number + " of the logbook", one.why);
    const auto person = personOf(identity);
    for (const auto& [earlier, at] : people_)
      if (const auto why = roster::likeness(person, earlier))
        add("line " + std::to_string(at), *why);
    people_.emplace_back(person, line);
    return alike;
  }

  /// One more than the highest number in the book and the file, from 1001 on.
  std::string nextNumber() {
    if (next_ == 0) {
      next_ = 1001;
      for (const auto* numbers : {&numbers_, &asked_})
        for (const auto& number : *numbers)
          if (const auto digits = base::parseInt(number.substr(0, number.find('-'))))
            next_ = std::max(next_, *digits + 1);
    }
    return roster::withCheckDigit(std::to_string(next_++));
  }

 private:
  std::set<std::string> numbers_;
  std::set<std::string> asked_;
  std::vector<std::pair<roster::Person, std::size_t>> people_;
  std::int64_t next_ = 0;
};

void checkDates(const RosterLine& line, Problems& problems) {
  const auto& form = line.consent;
  if (form.signedOn && form.receivedOn && *form.receivedOn < *form.signedOn)
    problems.add(line.line, "received_on", "before the day it was signed");
  if (form.signedOn && form.validUntil && *form.validUntil < *form.signedOn)
    problems.add(line.line, "valid_until", "before the day it was signed");
}

bool isYes(roster::ConsentState state) {
  return state == roster::ConsentState::yes || state == roster::ConsentState::yesWithLimits;
}

void planForm(const RosterLine& line, const RosterAim& aim, PlannedChild& planned) {
  const auto& from = line.consent;
  if (from.state == roster::ConsentState::notReturned) return;
  PlannedForm form{aim.term.id, from.state, from, line.signer, from.validUntil, ""};
  const roster::ChildId anyone(base::Uuid{}); // the rules of a form do not ask whose it is
  if (isYes(from.state)) {
    if (!form.validUntil) form.validUntil = aim.term.value.end;
    if (const auto sound = roster::checkForm(form.of(anyone), aim.today); !sound) {
      const auto& why = sound.error().detail;
      planned.incompleteBecause = why.substr(0, why.find(';'));
      form.state = roster::ConsentState::incomplete;
      form.validUntil = from.validUntil;
      form.note = "from the roster: " + planned.incompleteBecause;
    }
  }
  planned.form = form;
}

} // namespace

roster::Consent PlannedForm::of(roster::ChildId child) const {
  return {.child = child,
          .term = term,
          .state = state,
          .allowed = from.services,
          .signer = signer,
          .signedOn = from.signedOn,
          .receivedOn = from.receivedOn,
          .validFrom = from.signedOn,
          .validUntil = validUntil,
          .history = from.history,
          .note = note};
}

Result<std::vector<PlannedChild>> planRoster(Session& session, const std::vector<RosterLine>& lines,
                                             const RosterAim& aim) {
  auto known = Known::of(session, lines, aim);
  if (!known) return known.error();
  Problems problems;
  std::vector<PlannedChild> plan;
  for (const auto& line : lines) {
    const auto identity = identityOf(line);
    if (const auto sound = checkIdentity(identity); !sound)
      problems.add(line.line, "first", sound.error().detail);
    if (!line.number.empty() && known->hasNumber(line.number))
      problems.add(line.line, "number", "is another child's in the logbook");
    const auto alike = known->meet(session, line.number, identity, line.line);
    if (!alike) return alike.error();
    if (!alike->empty() && !aim.othersConfirmed)
      problems.add(line.line, "first",
                   "may be the child of " + base::join(*alike, ", ") +
                       "; remove one of the two, or confirm that they are different children");
    if (line.birthVerdict == roster::BirthVerdict::askUnusualForGrade && !aim.agesConfirmed)
      problems.add(line.line, "birth_date",
                   "unusual for grade " + line.grade + "; ask the school, then confirm the ages");
    checkDates(line, problems);
    PlannedChild planned{line.line,
                         {.number = line.number.empty() ? known->nextNumber() : line.number,
                          .birth = {line.birth.year(), line.birth.month()},
                          .sex = line.sex,
                          .school = aim.school,
                          .grade = line.grade,
                          .room = line.room,
                          .note = ""},
                         identity,
                         {},
                         line.groups,
                         line.payer,
                         ""};
    planForm(line, aim, planned);
    plan.push_back(std::move(planned));
  }
  if (const auto error = problems.error()) return *error;
  return plan;
}

std::vector<NewChild> newChildren(const std::vector<PlannedChild>& plan) {
  std::vector<NewChild> children;
  for (const auto& planned : plan) {
    NewChild entering{planned.child, planned.identity};
    if (planned.form)
      entering.form = [form = *planned.form](roster::ChildId child) { return form.of(child); };
    if (planned.groups != roster::EthnicitySet() || planned.payer != roster::Payer::unknown)
      entering.background = [groups = planned.groups,
                             payer = planned.payer](roster::ChildId child) {
        return roster::Background{child, groups, payer};
      };
    children.push_back(std::move(entering));
  }
  return children;
}

} // namespace gk::session
