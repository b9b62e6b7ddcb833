#include "session/session_write.h"

#include <algorithm>
#include <set>

namespace gk::session {

using store::everything;
using store::rowsOf;
using store::subjectIs;

namespace {

/// Reads one family into its place; the first failure is kept and stops the rest.
class Gatherer {
 public:
  explicit Gatherer(store::Book& book) : book_(book) {}

  template <class T>
  void read(std::vector<Recorded<T>>& into, const store::Where& where) {
    if (failure_) return;
    auto rows = book_.current<T>(where);
    if (!rows) {
      failure_ = rows.error();
      return;
    }
    for (auto& row : *rows)
      into.push_back(std::move(row));
  }

  [[nodiscard]] const std::optional<base::Error>& failure() const { return failure_; }

 private:
  store::Book& book_;
  std::optional<base::Error> failure_;
};

} // namespace

Result<reports::DayRecords> Reader::dayRecords(roster::DayId id) {
  auto day = this->day(id);
  if (!day) return day.error();
  auto school = only<roster::School>(subjectIs(day->value.school), "school");
  if (!school) return school.error();
  auto program = this->program();
  if (!program) return program.error();
  reports::DayRecords records{
      .id = id, .day = day->value, .school = school->value, .notation = program->value.notation};
  Gatherer reader(book_);
  const auto today = rowsOf("day", id);
  reader.read(records.seatings, today);
  reader.read(records.screenings, today);
  reader.read(records.placements, today);
  reader.read(records.varnishes, today);
  reader.read(records.outcomes, today);
  reader.read(records.checks, today);
  reader.read(records.fields, today);
  reader.read(records.referrals, today);
  reader.read(records.contacts, today);
  reader.read(records.letters, today);
  reader.read(records.closures, today);
  for (const auto& field : records.fields) {
    reader.read(records.steps, rowsOf("field", field.id));
    reader.read(records.wets, rowsOf("field", field.id));
  }
  reader.read(records.lots, everything());
  reader.read(records.lights, everything());
  reader.read(records.readings, everything());
  reader.read(records.members, everything());
  reader.read(records.children, rowsOf("school", day->value.school));

  std::set<roster::ChildId> known;
  for (const auto& child : records.children)
    known.insert(child.id);
  const auto alsoChild = [&](roster::ChildId child) {
    if (known.insert(child).second) reader.read(records.children, subjectIs(child));
  };
  for (const auto& seating : records.seatings)
    alsoChild(seating.value.child);
  for (const auto& outcome : records.outcomes)
    alsoChild(outcome.value.child);
  for (const auto child : known) {
    reader.read(records.consents, rowsOf("child", child));
    reader.read(records.flags, rowsOf("child", child));
    reader.read(records.overrides, rowsOf("child", child));
  }

  std::vector<Recorded<roster::ClinicDay>> days;
  reader.read(days, rowsOf("term", day->value.term));
  std::vector<Recorded<chairside::Seating>> seen;
  std::vector<Recorded<chairside::DayOutcome>> ended;
  records.lastDayHere = true;
  for (const auto& other : days) {
    if (other.id == id) continue;
    reader.read(seen, rowsOf("day", other.id));
    reader.read(ended, rowsOf("day", other.id));
    if (other.value.school == day->value.school && other.value.date > day->value.date &&
        !other.value.cancelled)
      records.lastDayHere = false;
  }
  std::set<roster::ChildId> elsewhere;
  for (const auto& seating : seen)
    elsewhere.insert(seating.value.child);
  for (const auto& outcome : ended)
    elsewhere.insert(outcome.value.child);
  records.seenOnOtherDays.assign(elsewhere.begin(), elsewhere.end());
  if (reader.failure()) return *reader.failure();
  return records;
}

Result<reports::TermRecords> Reader::termRecords(roster::TermId id, base::Date asOf) {
  auto term = only<roster::Term>(subjectIs(id), "term");
  if (!term) return term.error();
  auto program = this->program();
  if (!program) return program.error();
  reports::TermRecords records{.id = id,
                               .term = term->value,
                               .asOf = std::min(asOf, term->value.end),
                               .notation = program->value.notation};
  Gatherer reader(book_);
  reader.read(records.schools, everything());
  reader.read(records.enrolments, rowsOf("term", id));
  reader.read(records.days, everything());
  reader.read(records.children, everything());
  reader.read(records.consents, everything());
  reader.read(records.overrides, everything());
  for (const auto& day : records.days) {
    if (day.value.term != id) continue;
    const auto then = rowsOf("day", day.id);
    reader.read(records.seatings, then);
    reader.read(records.screenings, then);
    reader.read(records.varnishes, then);
    reader.read(records.outcomes, then);
    reader.read(records.referrals, then);
  }
  reader.read(records.placements, everything());
  reader.read(records.checks, everything());
  reader.read(records.closures, everything());
  reader.read(records.lots, everything());
  reader.read(records.lights, everything());
  reader.read(records.readings, everything());
  reader.read(records.members, everything());
  if (reader.failure()) return *reader.failure();
  return records;
}

} // namespace gk::session
