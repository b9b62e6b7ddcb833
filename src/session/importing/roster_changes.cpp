#include "session/importing/roster_changes.h"

#include "base/text/text.h"
#include "roster/child/digits.h"
#include "roster/list/roster_cells.h"
#include "roster/list/student_id.h"
#include "session/desk/importing.h"

#include <algorithm>

namespace gk::session {

using roster::RosterLine;

namespace {

bool isYes(roster::ConsentState state) {
  return state == roster::ConsentState::yes || state == roster::ConsentState::yesWithLimits;
}

Guardian guardianOf(const roster::RosterGuardian& from, const std::string& language) {
  return {from.name, from.relation, from.phone, language};
}

/// "(000) 555-0142" is "000.555.0142".
bool isSamePhone(const std::string& one, const std::string& other) {
  const auto digits = roster::digitsIn(one);
  return digits.empty() ? one == other : digits == roster::digitsIn(other);
}

/// Takes what a cell says, unless it is blank; whether that is new.
bool take(std::string& into, const std::string& said) {
  if (said.empty() || into == said) return false;
  into = said;
  return true;
}

class Changing {
 public:
  Changing(const KnownChild& known, const RosterLine& line)
      : line_(line), identity_(known.identity) {}

  void names(PlannedChange& change) {
    // Accents, hyphens and large letters alone are no other name, nor is a middle name that the
    // list leaves out.
    const auto isOther = [](const std::string& known, const std::string& said) {
      return !said.empty() && base::folded(known) != base::folded(said);
    };
    const auto words = [](const std::string& first, const std::string& middle,
                          const std::string& last) {
      const auto all = base::folded(first + " " + middle + " " + last);
      std::vector<std::string> each;
      for (const auto word : base::split(all, ' '))
        each.emplace_back(word);
      std::ranges::sort(each);
      return each;
    };
    // The same words in other columns.
    const bool isParted = words(identity_.first, identity_.middle, identity_.last) ==
                          words(line_.first, line_.middle, line_.last);
    if (!isParted) {
      for (const auto& [into, said] : {std::pair(&identity_.first, &line_.first),
                                       {&identity_.middle, &line_.middle},
                                       {&identity_.last, &line_.last}})
        if (isOther(*into, *said)) {
          *into = *said;
          change.what.add(RosterChange::name);
        }
    }
    if (isOther(identity_.nameUsed, line_.nameUsed) &&
        base::folded(line_.nameUsed) != base::folded(identity_.first)) {
      identity_.nameUsed = line_.nameUsed;
      change.what.add(RosterChange::name);
    }
    if (line_.birth != identity_.birth) {
      identity_.birth = line_.birth;
      change.what.add(RosterChange::birthDate);
    }
  }

  void place(PlannedChange& change) {
    if (take(identity_.room, line_.room)) change.what.add(RosterChange::room);
    if (take(identity_.teacher, line_.teacher)) change.what.add(RosterChange::other);
    // Zeros in front come and go as a spreadsheet is saved.
    const bool isSameId =
        roster::studentIdKey(identity_.studentId) == roster::studentIdKey(line_.studentId);
    if (!isSameId && take(identity_.studentId, line_.studentId))
      change.what.add(RosterChange::other);
  }

  void guardians(PlannedChange& change) {
    for (const auto* said : {&line_.guardian, &line_.secondGuardian}) {
      if (said->isBlank()) continue;
      if (said->name.empty())
        phoneAlone(*said, said == &line_.guardian ? 0 : 1, change);
      else
        named(*said, change);
    }
    if (line_.language.empty()) return;
    auto& all = identity_.guardians;
    // A language is an adult's; without one it waits for whoever is named first.
    if (all.empty()) all.push_back({});
    if (roster::readLanguage(all.front().language) != line_.language &&
        take(all.front().language, line_.language))
      change.what.add(RosterChange::other);
  }

  [[nodiscard]] const Identity& identity() const { return identity_; }

 private:
  void phoneAlone(const roster::RosterGuardian& said, std::size_t place, PlannedChange& change) {
    if (said.phone.empty()) return;
    auto& all = identity_.guardians;
    if (std::ranges::any_of(all,
                            [&](const auto& one) { return isSamePhone(one.phone, said.phone); }))
      return;
    if (place < all.size())
      all[place].phone = said.phone;
    else if (all.size() < vault::maxGuardians)
      all.push_back(guardianOf(said, line_.language));
    change.what.add(RosterChange::phone);
  }

  void named(const roster::RosterGuardian& said, PlannedChange& change) {
    auto& all = identity_.guardians;
    const auto known = std::ranges::find_if(
        all, [&](const auto& one) { return roster::sameName(one.name, said.name); });
    if (known == all.end()) {
      if (all.size() == 1 && all.front().name.empty() && all.front().phone.empty()) {
        // Of this one the language alone was known.
        const auto language = line_.language.empty() ? all.front().language : line_.language;
        all.front() = guardianOf(said, language);
        change.what.add(said.phone.empty() ? RosterChange::other : RosterChange::phone);
        return;
      }
      if (all.size() >= vault::maxGuardians) return;
      all.push_back(guardianOf(said, line_.language));
      change.what.add(RosterChange::other);
      if (!said.phone.empty()) change.what.add(RosterChange::phone);
      return;
    }
    if (!said.phone.empty() && !isSamePhone(known->phone, said.phone)) {
      known->phone = said.phone;
      change.what.add(RosterChange::phone);
    }
    if (!said.relation.empty() && base::folded(known->relation) != base::folded(said.relation)) {
      known->relation = said.relation;
      change.what.add(RosterChange::other);
    }
  }

  const RosterLine& line_;
  Identity identity_;
};

void changeCard(const RosterLine& line, const RosterAim& aim, PlannedChange& change) {
  auto& card = change.card;
  const auto set = [&](auto& into, const auto& said, RosterChange what) {
    if (into == said) return;
    into = said;
    change.what.add(what);
  };
  set(card.school, aim.school, RosterChange::school);
  set(card.grade, line.grade, RosterChange::grade);
  if (!line.room.empty()) set(card.room, line.room, RosterChange::room);
  if (line.sex != dentition::Sex::notStated) set(card.sex, line.sex, RosterChange::other);
  // Back at the school. What a family decided, no school's list changes.
  if (roster::hasLeft(card, aim.today) && card.left->why != roster::LeftBecause::withdrawn)
    set(card.left, std::optional<roster::Leaving>(), RosterChange::back);
  // The school has the child on its list now.
  set(card.provisional, false, RosterChange::other);
  card.birth = {line.birth.year(), line.birth.month()};
}

/// Whether the book has this form already, or a later word on it.
bool isKnownForm(const std::vector<base::Recorded<roster::Consent>>& forms,
                 const roster::Consent& form) {
  return std::ranges::any_of(forms, [&](const auto& row) {
    const auto& known = row.value;
    return known.term == form.term && known.signedOn == form.signedOn &&
           (known == form || known.state == form.state ||
            known.state == roster::ConsentState::withdrawn);
  });
}

} // namespace

Identity identityOf(const RosterLine& line) {
  Identity identity{.first = line.first,
                    .middle = line.middle,
                    .last = line.last,
                    .nameUsed = line.nameUsed,
                    .birth = line.birth,
                    .room = line.room,
                    .teacher = line.teacher};
  identity.studentId = line.studentId;
  for (const auto* guardian : {&line.guardian, &line.secondGuardian})
    if (!guardian->name.empty() || !guardian->phone.empty())
      identity.guardians.push_back(guardianOf(*guardian, line.language));
  // The form goes out in it, whoever the guardian turns out to be.
  if (identity.guardians.empty() && !line.language.empty())
    identity.guardians.push_back({.language = line.language});
  return identity;
}

std::optional<PlannedForm> formOf(const RosterLine& line, const RosterAim& aim,
                                  std::string& incomplete) {
  const auto& from = line.consent;
  if (from.state == roster::ConsentState::notReturned) return std::nullopt;
  PlannedForm form{aim.term.id, from.state, from, line.signer, from.validUntil, ""};
  const roster::ChildId anyone(base::Uuid{}); // the rules of a form do not ask whose it is
  if (!isYes(from.state)) return form;
  if (!form.validUntil) form.validUntil = aim.term.value.end;
  if (const auto sound = roster::checkForm(form.of(anyone), aim.today); !sound) {
    const auto& why = sound.error().detail;
    incomplete = why.substr(0, why.find(';'));
    form.state = roster::ConsentState::incomplete;
    form.validUntil = from.validUntil;
    form.note = "from the roster: " + incomplete;
  }
  return form;
}

Result<PlannedChange> changeOf(Session& session, const KnownChild& known, const RosterLine& line,
                               const RosterAim& aim) {
  PlannedChange change{line.line, known.card, known.card.value, known.identity};
  changeCard(line, aim, change);
  Changing changing(known, line);
  changing.names(change);
  changing.place(change);
  changing.guardians(change);
  if (changing.identity() != known.identity) change.identity = changing.identity();

  const auto child = known.card.id;
  if (auto form = formOf(line, aim, change.incompleteBecause)) {
    const auto forms = session.consents(child);
    if (!forms) return forms.error();
    if (!isKnownForm(*forms, form->of(child))) {
      change.form = std::move(form);
      change.what.add(RosterChange::form);
    } else {
      change.incompleteBecause.clear();
    }
  }
  if (!line.alerts.empty()) {
    const auto flags = session.flags(child);
    if (!flags) return flags.error();
    for (const auto& alert : line.alerts) {
      // One that was resolved, or said otherwise by the family, is not asked again each year.
      const auto flag = flagOf(alert, child);
      const bool isKnown = std::ranges::any_of(*flags, [&](const auto& row) {
        return row.value.kind == flag.kind &&
               (row.value.detail == flag.detail || flag.kind != roster::FlagKind::other);
      });
      if (!isKnown) change.alerts.push_back(alert);
    }
    if (!change.alerts.empty()) change.what.add(RosterChange::health);
  }
  if (line.groups != roster::EthnicitySet() || line.payer != roster::Payer::unknown) {
    const auto before = session.background(child);
    if (!before) return before.error();
    roster::Background now{child, line.groups, line.payer};
    if (*before && line.groups == roster::EthnicitySet()) now.groups = (*before)->groups;
    if (*before && line.payer == roster::Payer::unknown) now.payer = (*before)->payer;
    if (!*before || **before != now) {
      change.background = now;
      change.what.add(RosterChange::other);
    }
  }
  return change;
}

} // namespace gk::session
