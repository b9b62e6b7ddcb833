#include "session/importing/roster_plan.h"

#include "base/text/text.h"
#include "roster/child/digits.h"
#include "roster/child/grade_now.h"
#include "session/importing/roster_changes.h"

#include <algorithm>
#include <map>
#include <set>

namespace gk::session {

using base::Result;
using roster::RosterLine;

namespace {

/// The numbers of the book and of the file, and those that no one has.
class Numbers {
 public:
  Numbers(const std::vector<std::string>& taken, const std::vector<RosterLine>& lines) {
    for (const auto& number : taken) {
      taken_.insert(number);
      digits_.insert(roster::digitsIn(number));
      reach(number);
    }
    for (const auto& line : lines)
      reach(line.number);
  }

  [[nodiscard]] bool isTaken(const std::string& number) const { return taken_.contains(number); }

  /// Whether roster::areLikeNumbers with one of the book.
  [[nodiscard]] bool isLikeOne(const std::string& number) const {
    auto digits = roster::digitsIn(number);
    if (digits.size() < 2) return false;
    if (digits_.contains(digits.substr(0, digits.size() - 1))) return true;
    for (char last = '0'; last <= '9'; ++last) {
      if (digits_.contains(digits + last)) return true;
      auto other = digits;
      other.back() = last;
      if (other != digits && digits_.contains(other)) return true;
    }
    return false;
  }

  /// One more than the highest, from 1001 on.
  std::string next() { return roster::withCheckDigit(std::to_string(++highest_)); }

 private:
  void reach(const std::string& number) {
    if (const auto digits = base::parseInt(number.substr(0, number.find('-'))))
      highest_ = std::max(highest_, *digits);
  }

  std::set<std::string> taken_{};
  std::set<std::string> digits_{};
  std::int64_t highest_ = 1000;
};

Sought soughtFor(const std::vector<RosterLine>& lines, const std::vector<Identity>& identities,
                 roster::SchoolId school) {
  Sought sought{school};
  for (std::size_t i = 0; i < lines.size(); ++i) {
    sought.months.emplace(lines[i].birth.year(), lines[i].birth.month());
    sought.called.insert(personOf(identities[i]).called);
    if (!lines[i].number.empty()) sought.numbers.insert(lines[i].number);
  }
  sought.called.erase("");
  return sought;
}

class Planning {
 public:
  Planning(Session& session, const roster::RosterReading& reading, const RosterAim& aim)
      : session_(session), lines_(reading.lines), aim_(aim) {
    plan_.held = reading.held;
    plan_.onlyRoom = reading.onlyRoom;
    for (const auto& line : lines_)
      identities_.push_back(identityOf(line));
  }

  Result<RosterPlan> run(const base::Progress& progress) {
    const auto taken = session_.numbers();
    if (!taken) return taken.error();
    Numbers numbers(*taken, lines_);
    auto known = session_.known(soughtFor(lines_, identities_, aim_.school));
    if (!known) return known.error();
    known_ = std::move(*known);
    if (progress.isStopped()) return stopped();
    auto matches = matchRoster(lines_, identities_, known_, aim_.answers);
    if (aim_.othersConfirmed) sayOthers(matches);
    for (const auto& pair : matches.pairs)
      addPair(pair);
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      if (i % rowsBetweenAsking == 0) {
        progress.at(base::Stage::counting, static_cast<std::int64_t>(i), std::ssize(lines_));
        if (progress.isStopped()) return stopped();
      }
      if (auto done = planRow(i, matches.rows[i], numbers); !done) return done.error();
    }
    findMissing(matches);
    std::ranges::stable_sort(plan_.held, {}, &roster::HeldRow::line);
    for (const auto& match : matches.rows)
      if (match.known) plan_.matched.insert(known_[*match.known].card.id);
    return std::move(plan_);
  }

 private:
  static constexpr std::size_t rowsBetweenAsking = 128;
  static base::Error stopped() {
    return {base::ErrorCode::workCanceled, "the list was not looked through to its end"};
  }

  void hold(const RosterLine& line, const std::string& where, const std::string& what) {
    if (!plan_.held.empty() && plan_.held.back().row == line.row)
      plan_.held.back().problems.push_back({where, what});
    else
      plan_.held.push_back({line.line, line.row, {{where, what}}});
  }

  /// Every unsure pair was answered at once: they are other children.
  static void sayOthers(RosterMatches& matches) {
    for (auto& row : matches.rows)
      if (row.where == "name" && !row.known) row.problem.clear();
    matches.pairs.clear();
  }

  void addPair(const UnsurePair& pair) {
    const auto line = std::ranges::find(lines_, pair.row, &RosterLine::row);
    const auto& known = known_[pair.known];
    const auto place = static_cast<std::size_t>(line - lines_.begin());
    plan_.pairs.push_back({pair, known.card.id, known.card.value.number, identities_[place],
                           known.identity, cardOf(*line, {}), known.card.value});
  }

  [[nodiscard]] roster::Child cardOf(const RosterLine& line, std::string number) const {
    return {.number = std::move(number),
            .birth = {line.birth.year(), line.birth.month()},
            .sex = line.sex,
            .school = aim_.school,
            .grade = line.grade,
            .room = line.room,
            .note = ""};
  }

  /// An alert is in every export's reach, so it may name no one.
  bool holdNames(const RosterLine& line, const Identity& identity) {
    const bool names = std::ranges::any_of(line.alerts, [&](const auto& alert) {
      return namesSomebody(alert.detail, identity, identity);
    });
    if (names)
      hold(line, "health", "has a name in it; an alert is kept without names, so shorten it");
    return names;
  }

  Result<base::Done> planRow(std::size_t place, const RosterMatches::Match& match,
                             Numbers& numbers) {
    const auto& line = lines_[place];
    const auto& identity = identities_[place];
    if (!match.problem.empty()) {
      hold(line, match.where, match.problem);
      return base::Done{};
    }
    if (const auto sound = vault::checkIdentity(identity); !sound) {
      hold(line, "row", sound.error().detail);
      return base::Done{};
    }
    if (holdNames(line, identity)) return base::Done{};
    if (match.known) return planChange(line, known_[*match.known]);
    planNew(line, identity, match, numbers);
    return base::Done{};
  }

  Result<base::Done> planChange(const RosterLine& line, const KnownChild& known) {
    auto change = changeOf(session_, known, line, aim_);
    if (!change) return change.error();
    if (change->what.has(RosterChange::birthDate) && isUnusual(line)) return holdAge(line);
    // A list brings no withdrawn student back, so its form would lie with one who is not expected.
    if (change->form && roster::hasLeft(change->card, aim_.today)) {
      hold(line, "consent",
           "a new form of a student whom the family withdrew; ask the family, then record that the "
           "student came back, or clear the consent on this row");
      return base::Done{};
    }
    if (change->what == RosterChanges())
      ++plan_.unchanged;
    else
      plan_.changed.push_back(std::move(*change));
    return base::Done{};
  }

  [[nodiscard]] bool isUnusual(const RosterLine& line) const {
    return line.birthVerdict == roster::BirthVerdict::askUnusualForGrade && !aim_.agesConfirmed;
  }
  base::Done holdAge(const RosterLine& line) {
    hold(line, "birth date",
         "unusual for grade " + line.grade + "; ask the school, then confirm the ages");
    return {};
  }

  void planNew(const RosterLine& line, const Identity& identity, const RosterMatches::Match& match,
               Numbers& numbers) {
    const bool wasHeld = !plan_.held.empty() && plan_.held.back().row == line.row;
    if (!line.number.empty() && numbers.isTaken(line.number))
      hold(line, "number", "is another student's in the logbook");
    else if (!line.number.empty() && !aim_.othersConfirmed && match.others.empty() &&
             numbers.isLikeOne(line.number))
      hold(line, "number", "is almost the number of a student of the logbook; look at the slip");
    if (!aim_.othersConfirmed)
      if (const auto earlier = alikeInList(identity)) hold(line, "name", *earlier);
    if (isUnusual(line)) holdAge(line);
    people_[line.birth].emplace_back(personOf(identity), line.line);
    if (!wasHeld && !plan_.held.empty() && plan_.held.back().row == line.row) return;
    PlannedChild planned{
        line.line, cardOf(line, line.number.empty() ? numbers.next() : line.number), identity};
    planned.groups = line.groups;
    planned.payer = line.payer;
    planned.alerts = line.alerts;
    planned.others = match.others;
    planned.form = formOf(line, aim_, planned.incompleteBecause);
    plan_.entering.push_back(std::move(planned));
  }

  /// What of the list stands before it and may be the same child.
  [[nodiscard]] std::optional<std::string> alikeInList(const Identity& identity) const {
    const auto person = personOf(identity);
    const auto born = people_.find(person.birth); // the too alike have one birth date
    if (born == people_.end()) return std::nullopt;
    for (const auto& [earlier, at] : born->second)
      if (const auto why = roster::likeness(person, earlier); why && roster::isTooAlike(*why))
        return "may be the student on line " + std::to_string(at) + " (" +
               std::string(roster::words(*why)) +
               "); remove one of the two, or confirm that they are different students";
    return std::nullopt;
  }

  /// Those of the school in a grade that the list has, whom no row is. A row that waits may be one
  /// of them. A card says the grade of the school year in which it was entered.
  void findMissing(const RosterMatches& matches) {
    std::set<std::string> grades;
    for (const auto& line : lines_)
      grades.insert(line.grade);
    std::set<std::size_t> found;
    for (const auto& match : matches.rows)
      if (match.known) found.insert(*match.known);
    for (const auto& pair : matches.pairs)
      found.insert(pair.known);
    for (std::size_t i = 0; i < known_.size(); ++i) {
      const auto& card = known_[i].card.value;
      if (card.school != aim_.school || found.contains(i) || roster::hasLeft(card, aim_.today))
        continue;
      const auto grade = roster::gradeNow(card.grade, known_[i].card.stamp.at.date(), aim_.today);
      // One class's list says nothing of the other classes of its grade.
      const bool isTold =
          grades.contains(grade) &&
          (plan_.onlyRoom.empty() || base::folded(card.room) == base::folded(plan_.onlyRoom));
      auto& kind = isTold ? plan_.missing : plan_.outside;
      kind.push_back({known_[i].card.id, card.number, grade});
    }
  }

  Session& session_;
  const std::vector<RosterLine>& lines_;
  const RosterAim& aim_;
  std::vector<Identity> identities_{};
  std::vector<KnownChild> known_{};
  /// Of the list, by birth date, with their lines.
  std::map<base::Date, std::vector<std::pair<roster::Person, std::size_t>>> people_{};
  RosterPlan plan_{};
};

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

std::size_t RosterPlan::count(RosterChange change) const {
  return static_cast<std::size_t>(std::ranges::count_if(
      changed, [&](const PlannedChange& one) { return one.what.has(change); }));
}

std::size_t RosterPlan::forms() const {
  const auto has = [](const auto& one) { return one.form.has_value(); };
  return static_cast<std::size_t>(std::ranges::count_if(entering, has) +
                                  std::ranges::count_if(changed, has));
}

RosterImport RosterPlan::import(const RosterAim& aim, std::string columns) const {
  RosterImport made{.school = aim.school,
                    .matched = matched,
                    .columns = std::move(columns),
                    .agesConfirmed = aim.agesConfirmed,
                    .othersConfirmed = aim.othersConfirmed};
  const auto waiting = [](const std::optional<PlannedForm>& form) {
    std::function<roster::Consent(roster::ChildId)> later;
    if (form) later = [kept = *form](roster::ChildId child) { return kept.of(child); };
    return later;
  };
  for (const auto& one : entering) {
    NewChild child{one.child, one.identity, waiting(one.form)};
    if (one.groups != roster::EthnicitySet() || one.payer != roster::Payer::unknown)
      child.background = [groups = one.groups, payer = one.payer](roster::ChildId id) {
        return roster::Background{id, groups, payer};
      };
    child.alerts = one.alerts;
    child.others = one.others;
    made.entering.push_back(std::move(child));
  }
  for (const auto& one : changed) {
    ChangedChild child{one.was, one.card, one.identity, waiting(one.form)};
    if (one.background)
      child.background = [kept = *one.background](roster::ChildId) { return kept; };
    child.alerts = one.alerts;
    made.changed.push_back(std::move(child));
  }
  return made;
}

std::string countsOf(const RosterPlan& plan) {
  std::vector<std::string> kinds;
  for (std::size_t i = 0; i < base::enumCount<RosterChange>; ++i) {
    const auto change = static_cast<RosterChange>(i);
    if (const auto count = plan.count(change); count > 0)
      kinds.push_back(std::string(base::displayName(change)) + " " + std::to_string(count));
  }
  return std::to_string(plan.entering.size()) + " new, " + std::to_string(plan.changed.size()) +
         " changed" + (kinds.empty() ? "" : " (" + base::join(kinds, ", ") + ")") + ", " +
         std::to_string(plan.unchanged) + " unchanged, " + std::to_string(plan.missing.size()) +
         " not on this list" +
         (plan.outside.empty() ? ""
                               : ", " + std::to_string(plan.outside.size()) +
                                     (plan.onlyRoom.empty() ? " outside its grades"
                                                            : " outside its grade and room"));
}

Result<RosterPlan> planRoster(Session& session, const roster::RosterReading& reading,
                              const RosterAim& aim, const base::Progress& progress) {
  return Planning(session, reading, aim).run(progress);
}

} // namespace gk::session
