#include "base/text/text.h"
#include "followup/display_names.h"
#include "roster/display_names.h"
#include "session/reader_held.h"
#include "session/session_write.h"
#include "session/values/roll.h"

#include <algorithm>
#include <set>
#include <tuple>

namespace gk::session {

using chairside::DayEnd;
using roster::Service;
using store::rowsOf;

namespace {

bool isAway(DayEnd end) {
  return end == DayEnd::absent || end == DayEnd::declined || end == DayEnd::leftSchool ||
         end == DayEnd::withdrawn || end == DayEnd::onHold || end == DayEnd::notReached;
}

/// Two of the same name on one board are the mix-up that identifiers guard against.
void markSameNames(std::vector<BoardLine>& lines) {
  std::map<std::string, int> called;
  for (const auto& line : lines)
    ++called[base::folded(line.name)];
  for (auto& line : lines) {
    const auto name = base::folded(line.name);
    line.sameName = !name.empty() && called[name] > 1;
  }
}

/// What is planned for the child: the teeth of the day's findings, before that what may be done.
std::string planWords(const chairside::Screening* screening,
                      const std::vector<Recorded<roster::Consent>>& forms, base::Date on) {
  if (screening) {
    const auto teeth = std::ranges::count_if(
        screening->teeth, [](const auto& tooth) { return chairside::isTreatment(tooth.decision); });
    return teeth == 0 ? "none to treat" : base::counted(teeth, "tooth", "teeth") + " to treat";
  }
  std::vector<std::string> words;
  for (const auto& [service, word] : {std::pair(Service::screening, "screen"),
                                      {Service::sealants, "seal"},
                                      {Service::varnish, "varnish"},
                                      {Service::recheckAndReplace, "recheck"}})
    if (roster::standing(forms, service, on).allows) words.emplace_back(word);
  return base::join(words, ", ");
}

/// Where the child is, by the day's seatings and by the child's own end of the day.
Place placeBy(const std::vector<Recorded<chairside::Seating>>& seatings,
              const chairside::DayOutcome* ended, roster::ChildId child) {
  if (ended) return isAway(ended->end) ? Place::absent : Place::done;
  if (seatings.empty() || std::ranges::none_of(seatings, [&](const auto& seating) {
        return seating.value.child == child;
      }))
    return Place::waiting;
  return seatings.back().value.child == child ? Place::inChair : Place::parked;
}

/// Whoever takes a child to the chair that is expected no more is told so where the school stands.
std::string schoolWords(const std::string& school, const roster::Child& child, base::Date on) {
  if (!roster::hasLeft(child, on)) return school;
  return school + " (LEFT THE PROGRAM " + child.left->from.shortWords() + ": " +
         std::string(base::displayName(child.left->why)) + ")";
}

} // namespace

std::string findingsWords(const chairside::Screening* screening) {
  if (!screening) return "not received";
  const auto chosen = std::ranges::count_if(
      screening->teeth, [](const auto& tooth) { return chairside::isTreatment(tooth.decision); });
  return "received, " + std::to_string(chosen) + (chosen == 1 ? " tooth" : " teeth") + " to treat";
}

Result<std::vector<BoardLine>> Reader::board(roster::DayId id) {
  auto day = this->day(id);
  if (!day) return day.error();
  const auto on = day->value.date;
  auto seatings = book_.current<chairside::Seating>(rowsOf("day", id));
  if (!seatings) return seatings.error();
  auto outcomes = book_.current<chairside::DayOutcome>(rowsOf("day", id));
  if (!outcomes) return outcomes.error();
  auto program = this->program();
  if (!program) return program.error();
  const bool waits = chairside::waitsForDentist(program->value);
  auto sheets = paperSheets(id);
  if (!sheets) return sheets.error();
  auto expecting = book_.childrenToExpect(day->value.school, on);
  if (!expecting) return expecting.error();
  auto screenings = book_.current<chairside::Screening>(rowsOf("day", id));
  if (!screenings) return screenings.error();
  std::map<roster::ChildId, const chairside::Screening*> screened;
  for (const auto& screening : *screenings)
    screened.insert_or_assign(screening.value.child, &screening.value);
  std::map<roster::ChildId, const Recorded<chairside::DayOutcome>*> ends;
  for (const auto& outcome : *outcomes)
    ends.insert_or_assign(outcome.value.child, &outcome);
  std::map<roster::ChildId, base::LocalInstant> seated; // first
  for (const auto& seating : *seatings)
    seated.emplace(seating.value.child, seating.stamp.at);
  std::set<roster::ChildId> here;
  for (const auto& [child, at] : seated)
    here.insert(child);
  for (const auto& [child, outcome] : ends)
    here.insert(child);
  auto asked = here;
  asked.insert(expecting->begin(), expecting->end());

  std::vector<BoardLine> lines;
  for (const auto child : asked) {
    const auto past = book_.childPast(child, id, day->value.term);
    if (!past) return past.error();
    if (!here.contains(child) && past->seenThisTerm) continue;
    const auto forms = consents(child);
    if (!forms) return forms.error();
    const auto allows = [&](Service service) {
      return roster::standing(*forms, service, on).allows;
    };
    if (!here.contains(child) && !allows(Service::screening) &&
        !(past->placedEarlier && allows(Service::recheckAndReplace)))
      continue;
    auto line = boardLine(child, *day);
    if (!line) return line.error();
    const auto found = screened.find(child);
    line->plan = planWords(found == screened.end() ? nullptr : found->second, *forms, on);
    if (const auto at = seated.find(child); at != seated.end()) line->seatedAt = at->second;
    line->recheckDue = past->placedEarlier;
    if (waits) {
      const auto named = authorizations(child);
      if (!named) return named.error();
      line->waitsForDentist = chairside::authorizedTeeth(*named, on).empty();
    }
    const auto ended = ends.find(child);
    const auto* end = ended == ends.end() ? nullptr : &ended->second->value;
    if (end) line->outcome = base::displayName(end->end);
    if (end) line->endedAt = ended->second->stamp.at;
    for (const auto& sheet : *sheets)
      if (sheet.value.child == child) line->paper = sheet.value.number;
    line->place = placeBy(*seatings, end, child);
    lines.push_back(std::move(*line));
  }
  markSameNames(lines);
  std::ranges::stable_sort(lines, {}, [](const BoardLine& line) {
    return std::tuple(line.place, base::numberedPlace(line.room), line.name);
  });
  return lines;
}

Result<BoardLine> Reader::boardLine(roster::ChildId id, const Recorded<roster::ClinicDay>& day) {
  auto child = this->child(id);
  if (!child) return child.error();
  auto flagged = flags(id);
  if (!flagged) return flagged.error();
  const auto& value = child->value;
  BoardLine line{id, value.number, value.number, value.room, value.grade, Place::waiting};
  if (isUnlocked()) {
    const auto known = identity(id);
    if (!known && !hasNoName(known.error())) return known.error();
    if (known && !known->shownName().empty()) line.name = known->shownName();
    if (known) line.age = base::ageInYears(known->birth, day.value.date);
  }
  for (const auto& flag : *flagged) {
    if (flag.value.resolved) continue;
    line.stopFlag = line.stopFlag || flag.value.action == roster::FlagAction::stop;
    line.askFlag = line.askFlag || flag.value.action == roster::FlagAction::ask;
    if (flag.value.action != roster::FlagAction::note) line.flags.push_back(flag.value);
  }
  const auto seen = book_.current<chairside::Seating>(rowsOf("child", id));
  if (!seen) return seen.error();
  for (const auto& seating : *seen)
    if (seating.value.day != day.id) line.lastSeen = seating.stamp.at.date().shortWords();
  return line;
}

Result<Place> Reader::place(roster::ChildId child, roster::DayId day) {
  auto seatings = book_.current<chairside::Seating>(rowsOf("day", day));
  if (!seatings) return seatings.error();
  auto outcomes = book_.current<chairside::DayOutcome>(rowsOf("child", child, "day", day));
  if (!outcomes) return outcomes.error();
  return placeBy(*seatings, outcomes->empty() ? nullptr : &outcomes->back().value, child);
}

Result<std::optional<roster::ChildId>> Reader::childInChair(roster::DayId day) {
  auto seatings = book_.current<chairside::Seating>(rowsOf("day", day));
  if (!seatings) return seatings.error();
  if (seatings->empty()) return std::optional<roster::ChildId>{};
  const auto newest = seatings->back().value.child;
  const auto where = place(newest, day);
  if (!where) return where.error();
  return *where == Place::inChair ? std::optional(newest) : std::nullopt;
}

Result<base::Done> Reader::addNames(IdentityCard& card, const Identity& identity) {
  for (const auto& guardian : identity.guardians)
    card.guardianInitials +=
        (card.guardianInitials.empty() ? "" : ", ") + vault::initials(guardian.name);
  const auto all = roll();
  if (!all) return all.error();
  for (const auto other : (*all)->called(card.name)) {
    if (other == card.child) continue;
    auto namesake = this->child(other);
    if (!namesake) return namesake.error();
    auto theirs = this->identity(other);
    if (!theirs && !hasNoName(theirs.error())) return theirs.error();
    if (!theirs) continue; // it lost its name since the roll was read
    card.sameNameOthers.push_back(namesake->value.number + ", born " + theirs->birth.words());
  }
  return base::Done{};
}

Result<IdentityCard> Reader::identityCard(roster::ChildId id, roster::DayId dayId) {
  auto child = this->child(id);
  if (!child) return child.error();
  auto day = this->day(dayId);
  if (!day) return day.error();
  std::optional<Identity> identity;
  std::string unreadable;
  if (isUnlocked()) {
    auto known = this->identity(id);
    if (!known && (known.error().code == base::ErrorCode::notFound || !hasNoName(known.error())))
      return known.error();
    if (known) identity = std::move(*known);
    const auto unread = unreadableName(book_, id, [&](const crypto::Sealed& box) {
      const auto opened = reveal(id, box);
      return opened || opened.error().code != base::ErrorCode::vaultDamaged;
    });
    if (!unread) return unread.error();
    if (*unread)
      unreadable = "THE NEWEST NAME CANNOT BE READ: " + (*unread)->how + "; " + (*unread)->doNow;
  }
  auto school = only<roster::School>(store::subjectIs(child->value.school), "school");
  if (!school) return school.error();
  auto forms = consents(id);
  if (!forms) return forms.error();
  auto flagged = flags(id);
  if (!flagged) return flagged.error();
  const auto on = day->value.date;
  auto overrides = book_.current<roster::ConsentOverride>(rowsOf("child", id));
  if (!overrides) return overrides.error();
  std::erase_if(*overrides, [&](const auto& taken) { return taken.value.on != on; });
  const auto stand = [&](Service service) {
    auto standing = roster::standing(*forms, service, on);
    if (!standing.allows && !overrides->empty()) {
      standing.allows = true;
      standing.why = "on a clinician's override: " + overrides->back().value.reason;
    }
    return standing;
  };
  IdentityCard card{id,
                    child->value.number,
                    identity ? identity->shownName() : child->value.number,
                    identity ? identity->headerName() : std::string(),
                    identity ? identity->birth.words() + ", age " +
                                   std::to_string(base::ageInYears(identity->birth, on))
                             : std::string(),
                    child->value.room,
                    child->value.grade,
                    schoolWords(school->value.name, child->value, on),
                    {},
                    stand(Service::screening),
                    stand(Service::sealants),
                    stand(Service::varnish),
                    stand(Service::recheckAndReplace)};
  if (!unreadable.empty()) card.birth += (card.birth.empty() ? "" : ". ") + unreadable;
  for (auto& flag : *flagged)
    if (!flag.value.resolved) card.flags.push_back(std::move(flag));
  if (identity)
    if (const auto named = addNames(card, *identity); !named) return named.error();
  auto seen = book_.current<chairside::Seating>(rowsOf("child", id));
  if (!seen) return seen.error();
  for (const auto& seating : *seen)
    if (seating.value.day != dayId) card.lastSeen = seating.stamp.at.date().words();
  auto screened = book_.current<chairside::Screening>(rowsOf("child", id, "day", dayId));
  if (!screened) return screened.error();
  card.findings = findingsWords(screened->empty() ? nullptr : &screened->back().value);
  auto dentist = dentistWords(id, on);
  if (!dentist) return dentist.error();
  card.dentist = std::move(*dentist);
  return card;
}

} // namespace gk::session
