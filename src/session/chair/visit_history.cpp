#include "session/chair/visit_history.h"

#include "base/text/text.h"
#include "reports/display_names.h"

#include <algorithm>
#include <map>
#include <set>

namespace gk::session {

namespace {

using chairside::Attempt;

/// What was found and done on one day.
struct Visit {
  const chairside::Screening* screening = nullptr;
  const chairside::DayOutcome* outcome = nullptr;
  std::vector<std::string> sealed{};
  std::vector<std::string> stopped{};
  std::map<std::string, int> checked{}; ///< by what was found
  bool varnished = false;
  std::set<std::string> who{};
};

std::string doneWords(const Visit& visit) {
  std::vector<std::string> parts;
  if (visit.screening) parts.emplace_back("screened");
  const auto teeth = [&](const char* words, const std::vector<std::string>& named) {
    if (!named.empty())
      parts.push_back(std::string(words) + " " + std::to_string(named.size()) + ": " +
                      base::join(named, ", "));
  };
  teeth("sealed", visit.sealed);
  teeth("stopped", visit.stopped);
  for (const auto& [found, count] : visit.checked)
    parts.push_back(std::to_string(count) + " " + found);
  if (visit.varnished) parts.emplace_back("varnish");
  return base::join(parts, "; ");
}

std::string initialsOf(const std::vector<Recorded<roster::Member>>& members,
                       const std::optional<base::MemberId>& who) {
  const auto found = std::ranges::find_if(members, [&](const auto& one) { return one.id == who; });
  return found == members.end() ? std::string() : found->value.initials;
}

} // namespace

Result<std::vector<PastVisit>> pastVisits(Reader& book, roster::ChildId child) {
  const auto screenings = book.screenings(child);
  if (!screenings) return screenings.error();
  const auto placements = book.placements(child);
  if (!placements) return placements.error();
  const auto varnishes = book.varnishes(child);
  if (!varnishes) return varnishes.error();
  const auto checks = book.checks(child);
  if (!checks) return checks.error();
  const auto outcomes = book.outcomes(child);
  if (!outcomes) return outcomes.error();
  const auto members = book.members();
  if (!members) return members.error();
  const auto program = book.program();
  if (!program) return program.error();
  std::map<roster::DayId, Visit> visits;
  const auto by = [&](const base::Stamp& stamp) { return initialsOf(*members, stamp.by.author); };
  for (const auto& row : *screenings) {
    auto& visit = visits[row.value.day];
    visit.screening = &row.value;
    visit.who.insert(by(row.stamp));
  }
  for (const auto& row : *placements) {
    auto& visit = visits[row.value.day];
    (row.value.attempt == Attempt::complete ? visit.sealed : visit.stopped)
        .push_back(row.value.tooth.number(program->value.notation));
    visit.who.insert(initialsOf(*members, row.value.placedBy));
  }
  for (const auto& row : *varnishes)
    visits[row.value.day].varnished = true;
  for (const auto& row : *checks) {
    auto& visit = visits[row.value.day];
    ++visit.checked[std::string(base::displayName(row.value.tooth()))];
    visit.who.insert(by(row.stamp));
  }
  for (const auto& row : *outcomes)
    visits[row.value.day].outcome = &row.value;

  const auto schools = book.schools();
  if (!schools) return schools.error();
  std::vector<PastVisit> past;
  for (const auto& [id, visit] : visits) {
    const auto day = book.day(id);
    if (!day) return day.error();
    const auto school = std::ranges::find_if(
        *schools, [&](const auto& one) { return one.id == day->value.school; });
    auto who = visit.who;
    who.erase("");
    past.push_back(
        {id, day->value.date,
         school == schools->end() ? std::string() : roster::shownAmong(school->value, *schools),
         visit.outcome ? std::string(base::displayName(visit.outcome->end)) : std::string(),
         doneWords(visit), base::join({who.begin(), who.end()}, ", ")});
  }
  std::ranges::stable_sort(past, std::greater(), &PastVisit::on);
  return past;
}

Result<reports::Table> visitCard(Reader& book, roster::ChildId id) {
  const auto child = book.child(id);
  if (!child) return child.error();
  const auto visits = pastVisits(book, id);
  if (!visits) return visits.error();
  auto title = "Visits of " + child->value.number;
  if (book.isUnlocked())
    if (const auto known = book.identity(id)) title = "Visits of " + known->shownName();
  reports::Table table{title,
                       {{"Date", reports::Kind::date}, {"School"}, {"Outcome"}, {"Done"}, {"By"}}};
  for (const auto& visit : *visits)
    table.rows.push_back({visit.on, visit.school,
                          visit.outcome.empty() ? "not ended" : visit.outcome, visit.done,
                          visit.who});
  table.notes = {"Room " + child->value.room + ", grade " + child->value.grade + "; number " +
                 child->value.number + "."};
  if (visits->empty()) table.notes.insert(table.notes.begin(), "Not seen yet.");
  return table;
}

} // namespace gk::session
