#include "exchange/extract/extract.h"
#include "exchange/extract/fhir.h"
#include "reports/records/inputs.h"
#include "session/reader_held.h"
#include "session/session_write.h"

#include <algorithm>
#include <set>

namespace gk::session {

using store::everything;
using store::rowsOf;
using store::subjectIs;

namespace {

exchange::Records inScope(const roster::Program& program, roster::TermId id,
                          const roster::Term& term) {
  return {.program = program.name, .county = program.county, .termId = id, .term = term};
}

template <class T>
void addChildren(std::set<roster::ChildId>& into, const exchange::Rows<T>& rows) {
  for (const auto& row : rows)
    into.insert(row.value.child);
}

/// Of these children, that hold on a day of the export, withdrawn ones too.
Result<base::Done> addAuthorizations(store::Book& book, exchange::Records& out) {
  for (const auto& child : out.children) {
    auto rows = book.current<chairside::Authorization>(rowsOf("child", child.id));
    if (!rows) return rows.error();
    for (auto& row : *rows) {
      const bool counts = std::ranges::any_of(out.days, [&](const auto& day) {
        return row.value.on <= day.value.date && day.value.date <= row.value.until;
      });
      if (counts) out.authorizations.push_back(std::move(row));
    }
  }
  return base::Done{};
}

} // namespace

Result<exchange::Records> Reader::exportOfDay(roster::DayId id) {
  auto day = this->day(id);
  if (!day) return day.error();
  auto program = this->program();
  if (!program) return program.error();
  auto term = only<roster::Term>(subjectIs(day->value.term), "term");
  if (!term) return term.error();
  auto records = dayRecords(id);
  if (!records) return records.error();
  auto out = inScope(program->value, term->id, term->value);
  out.days = {*day};
  out.screenings = std::move(records->screenings);
  out.placements = std::move(records->placements);
  out.varnishes = std::move(records->varnishes);
  out.outcomes = std::move(records->outcomes);
  out.checks = std::move(records->checks);
  out.referrals = std::move(records->referrals);
  out.lots = std::move(records->lots);
  out.lights = std::move(records->lights);
  out.members = std::move(records->members);

  std::set<roster::ChildId> here;
  addChildren(here, out.screenings);
  addChildren(here, out.placements);
  addChildren(here, out.outcomes);
  addChildren(here, out.checks);
  out.children = std::move(records->children);
  std::erase_if(out.children, [&](const auto& row) { return !here.contains(row.id); });
  out.consents = std::move(records->consents);
  std::erase_if(out.consents, [&](const auto& row) { return !here.contains(row.value.child); });

  std::set<roster::ChildId> checked;
  addChildren(checked, out.checks);
  for (const auto& child : checked) {
    auto earlier = book_.current<chairside::Placement>(rowsOf("child", child));
    if (!earlier) return earlier.error();
    for (auto& row : *earlier)
      if (row.value.day != id) out.placements.push_back(std::move(row));
  }
  auto schools = this->schools();
  if (!schools) return schools.error();
  out.schools = std::move(*schools);
  auto days = book_.current<roster::ClinicDay>(everything());
  if (!days) return days.error();
  out.earlierDays = std::move(*days);
  if (const auto added = addAuthorizations(book_, out); !added) return added.error();
  return out;
}

Result<exchange::Records> Reader::exportOfTerm(roster::TermId id, base::Date asOf) {
  auto program = this->program();
  if (!program) return program.error();
  auto records = termRecords(id, asOf);
  if (!records) return records.error();
  auto out = inScope(program->value, id, records->term);
  out.schools = std::move(records->schools);
  out.earlierDays = records->days;
  out.days = std::move(records->days);
  std::erase_if(out.days, [&](const auto& day) {
    return day.value.term != id || day.value.date > records->asOf;
  });
  out.children = std::move(records->children);
  out.consents = std::move(records->consents);
  out.screenings = std::move(records->screenings);
  out.placements = std::move(records->placements);
  out.varnishes = std::move(records->varnishes);
  out.outcomes = std::move(records->outcomes);
  out.checks = std::move(records->checks);
  out.referrals = std::move(records->referrals);
  out.lots = std::move(records->lots);
  out.lights = std::move(records->lights);
  out.members = std::move(records->members);
  if (const auto added = addAuthorizations(book_, out); !added) return added.error();
  return out;
}

Result<base::Done> Reader::extractDay(roster::DayId day, std::ostream& out) {
  const auto records = exportOfDay(day);
  if (!records) return records.error();
  exchange::writeExtract(*records, exchange::Scope::day, world_.random, out);
  return base::Done{};
}

Result<base::Done> Reader::extractTerm(roster::TermId term, base::Date asOf, std::ostream& out) {
  const auto records = exportOfTerm(term, asOf);
  if (!records) return records.error();
  exchange::writeExtract(*records, exchange::Scope::term, world_.random, out);
  return base::Done{};
}

Result<base::Done> Reader::writeFhir(roster::DayId day, std::ostream& out) {
  const auto records = exportOfDay(day);
  if (!records) return records.error();
  exchange::People people;
  for (const auto& child : records->children) {
    if (!vault_) break;
    const auto known = identity(child.id);
    if (!known && !hasNoName(known.error())) return known.error();
    if (known) people.emplace(child.id, exchange::Person{known->first, known->last, known->birth});
  }
  exchange::writeFhir(*records, people, world_.clock.now(), out);
  return base::Done{};
}

} // namespace gk::session
