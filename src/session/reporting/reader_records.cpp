#include "followup/placements_confirmed.h"
#include "kit/twins.h"
#include "reports/day/close_out.h"
#include "session/cards/card_fold.h"
#include "session/part.h"
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
    if (!failure_) take(into, book_.current<T>(where));
  }
  template <class T>
  void readEver(std::vector<Recorded<T>>& into, const store::Where& where) {
    if (!failure_) take(into, book_.history<T>(where));
  }

  /// Of rows that are here in a later word.
  template <class T>
  void findFirstWords(std::map<base::EntryId, base::Stamp>& into,
                      const std::vector<Recorded<T>>& rows) {
    for (const auto& row : rows) {
      if (!row.stamp.supersedes) continue;
      std::vector<Recorded<T>> first;
      readEver(first, rowsOf("e.id", row.id));
      for (const auto& word : first)
        into.emplace(row.stamp.entry, word.stamp);
    }
  }

  [[nodiscard]] const std::optional<base::Error>& failure() const { return failure_; }

 private:
  template <class T>
  void take(std::vector<Recorded<T>>& into, List<T> rows) {
    if (!rows) {
      failure_ = rows.error();
      return;
    }
    for (auto& row : *rows)
      into.push_back(std::move(row));
  }

  store::Book& book_;
  std::optional<base::Error> failure_;
};

/// What the sheet tells of earlier days.
void lookBack(Gatherer& reader, reports::DayRecords& records) {
  const auto children = reports::childrenToLookBackOn(records);
  if (children.empty()) return;
  std::vector<Recorded<roster::ClinicDay>> days;
  reader.read(days, everything());
  for (const auto& day : days)
    if (day.value.date < records.day.date) records.earlierDays.emplace(day.id, day.value.date);
  const auto isNotEarlier = [&](const auto& row) {
    return !records.earlierDays.contains(row.value.day);
  };
  for (const auto& child : children) {
    reader.read(records.earlierScreenings, rowsOf("child", child));
    reader.read(records.earlierPlacements, rowsOf("child", child));
  }
  std::erase_if(records.earlierScreenings, isNotEarlier);
  std::erase_if(records.earlierPlacements, isNotEarlier);
}

} // namespace

namespace {

/// A closed day stays as it was signed: who came back since was not expected on it.
Result<base::Done> leftAsClosed(store::Book& book, Recorded<roster::Child>& child,
                                base::Instant closed) {
  if (child.stamp.at.at <= closed || !child.stamp.supersedes) return base::Done{};
  auto words = book.history<roster::Child>(subjectIs(child.id));
  if (!words) return words.error();
  for (const auto& word : *words)
    if (word.stamp.at.at <= closed) child.value.left = word.value.left;
  return base::Done{};
}

} // namespace

Result<reports::DayRecords> Reader::dayRecords(roster::DayId id) {
  auto day = this->day(id);
  if (!day) return day.error();
  if (const auto has = hasSchool(*this, day->value.school); !has) return has.error();
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
  reader.readEver(records.signatures, today);
  reader.readEver(records.daySignatures, today);
  reader.read(records.reopenings, today);
  reader.read(records.addenda, today);
  reader.read(records.agreementOverrides, today);
  reader.read(records.readiness, today);
  reader.read(records.lightPasses, today);
  reader.read(records.papers, today);
  reader.read(records.efforts, today);
  reader.read(records.costs, today);
  reader.read(records.backups, today);
  reader.read(records.lotCounts, today);
  reader.read(records.mergeAnswers, everything());
  auto incidents = this->incidents(id);
  if (!incidents) return incidents.error();
  records.incidents = std::move(*incidents);
  auto said = book_.current<followup::PlacementsConfirmed>(today);
  if (!said) return said.error();
  if (!said->empty()) {
    const auto ever = book_.history<chairside::Placement>(today);
    if (!ever) return ever.error();
    records.confirmed = followup::confirmedRows(*ever, *said);
  }
  for (const auto& check : records.checks)
    reader.read(records.checkedPlacements, subjectIs(check.value.placement));
  for (const auto& field : records.fields) {
    reader.read(records.steps, rowsOf("field", field.id));
    reader.read(records.wets, rowsOf("field", field.id));
  }
  auto rivals = rivalWords(id);
  if (!rivals) return rivals.error();
  records.rivals = std::move(*rivals);
  auto late = session::lateOnCards(book_);
  if (!late) return late.error();
  records.lateOnCards = std::move(*late);
  reader.read(records.lots, everything());
  reader.read(records.lights, everything());
  reader.read(records.readings, everything());
  reader.read(records.members, everything());

  auto expecting = book_.childrenToExpect(day->value.school, day->value.date);
  if (!expecting) return expecting.error();
  std::set<roster::ChildId> known(expecting->begin(), expecting->end());
  const auto alsoOf = [&](const auto& rows) {
    for (const auto& row : rows)
      known.insert(row.value.child);
  };
  alsoOf(records.seatings);
  alsoOf(records.screenings);
  alsoOf(records.placements);
  alsoOf(records.varnishes);
  alsoOf(records.outcomes);
  alsoOf(records.checks);
  alsoOf(records.letters);
  for (const auto& row : records.incidents)
    if (row.value.child) known.insert(*row.value.child);
  for (const auto& row : records.addenda)
    if (row.value.child) known.insert(*row.value.child);
  for (const auto child : known) {
    reader.read(records.children, subjectIs(child));
    reader.read(records.consents, rowsOf("child", child));
    reader.read(records.flags, rowsOf("child", child));
    reader.read(records.overrides, rowsOf("child", child));
  }

  std::vector<Recorded<roster::ClinicDay>> days;
  reader.read(days, rowsOf("term", day->value.term));
  std::set<roster::DayId> otherDays;
  records.lastDayHere = true;
  for (const auto& other : days) {
    if (other.id == id) continue;
    otherDays.insert(other.id);
    if (other.value.school != day->value.school || other.value.date <= day->value.date ||
        other.value.canceled)
      continue;
    records.lastDayHere = false;
    records.nextDayHere =
        std::min(records.nextDayHere.value_or(other.value.date), other.value.date);
  }
  const auto isElsewhere = [&](const auto& row) { return otherDays.contains(row.value.day); };
  for (const auto child : known) {
    std::vector<Recorded<chairside::Seating>> seen;
    std::vector<Recorded<chairside::DayOutcome>> ended;
    reader.read(seen, rowsOf("child", child));
    reader.read(ended, rowsOf("child", child));
    if (std::ranges::any_of(seen, isElsewhere) || std::ranges::any_of(ended, isElsewhere))
      records.seenOnOtherDays.push_back(child);
  }
  if (!records.closures.empty())
    for (auto& child : records.children)
      if (const auto then = leftAsClosed(book_, child, records.closures.back().stamp.at.at); !then)
        return then.error();
  reader.findFirstWords(records.firstWords, records.children);
  reader.findFirstWords(records.firstWords, records.seatings);
  reader.findFirstWords(records.firstWords, records.screenings);
  reader.findFirstWords(records.firstWords, records.placements);
  reader.findFirstWords(records.firstWords, records.varnishes);
  reader.findFirstWords(records.firstWords, records.outcomes);
  reader.findFirstWords(records.firstWords, records.checks);
  lookBack(reader, records);
  records.sheetCodes = sheetCodes(book_, records.signatures, records.daySignatures);
  if (reader.failure()) return *reader.failure();
  kit::agree(records.lots);
  kit::agree(records.lights);
  return records;
}

Result<reports::TermRecords> Reader::termRecords(roster::TermId id, base::Date asOf, Reach reach) {
  if (const auto whole = needsWhole(*this, "totals are counted"); !whole) return whole.error();
  auto term = only<roster::Term>(subjectIs(id), "term");
  if (!term) return term.error();
  auto program = this->program();
  if (!program) return program.error();
  reports::TermRecords records{.id = id,
                               .term = term->value,
                               .asOf = std::min(asOf, term->value.end),
                               .notation = program->value.notation,
                               .benchmarks = program->value.benchmarks};
  const auto terms = this->terms();
  if (!terms) return terms.error();
  for (const auto& other : *terms)
    if (other.value.end < term->value.start)
      records.earlierTermsEnd =
          std::max(records.earlierTermsEnd.value_or(other.value.end), other.value.end);
  Gatherer reader(book_);
  reader.read(records.schools, everything());
  reader.read(records.enrollments, rowsOf("term", id));
  reader.read(records.eligibility, rowsOf("term", id));
  reader.read(records.days, everything());
  const followup::Window window;
  const auto counted =
      reach == Reach::program
          ? Result<store::ChildList>(store::ChildList{})
          : book_.childrenOf({base::EntryId(id.uuid()),
                              term->value.start.plusMonths(-window.untilMonths), records.asOf});
  if (!counted) return counted.error();
  const auto of = [&](std::string_view column) {
    return reach == Reach::program ? everything() : store::rowsAmong(column, *counted);
  };
  reader.read(records.children, of("e.subject"));
  reader.read(records.consents, of("t.child"));
  reader.read(records.backgrounds, of("t.child"));
  reader.read(records.overrides, of("t.child"));
  // All that ever were: whether a child is new to the program is a question to every term.
  reader.read(records.screenings, of("t.child"));
  std::set<roster::DayId> daysToCome;
  for (const auto& day : records.days) {
    const auto then = rowsOf("day", day.id);
    if (day.value.date > records.asOf) daysToCome.insert(day.id);
    if (day.value.term != id) continue;
    reader.read(records.seatings, then);
    reader.read(records.varnishes, then);
    reader.read(records.outcomes, then);
    reader.read(records.referrals, then);
    reader.read(records.incidents, then);
    reader.read(records.readiness, then);
    reader.read(records.efforts, then);
    reader.read(records.costs, then);
  }
  std::erase_if(records.screenings,
                [&](const auto& row) { return daysToCome.contains(row.value.day); });
  reader.read(records.contacts, of("t.child"));
  reader.read(records.placements, of("t.child"));
  reader.read(records.fields, of("t.child"));
  reader.read(records.wets,
              reach == Reach::program ? everything() : store::rowsOfFieldsAmong(*counted));
  reader.read(records.checks, of("t.child"));
  reader.read(records.closures, everything());
  reader.read(records.lots, everything());
  reader.read(records.lights, everything());
  reader.read(records.readings, everything());
  reader.read(records.members, everything());
  // Two cards of one student, and two laptops that each erased one, list the same number.
  std::vector<Recorded<roster::Erasure>> erasures;
  reader.readEver(erasures, everything());
  std::set<std::string> erased;
  for (const auto& one : erasures)
    erased.insert(one.value.number);
  records.erased = static_cast<int>(erased.size());
  if (reader.failure()) return *reader.failure();
  kit::agree(records.lots);
  kit::agree(records.lights);
  for (auto& child : records.children)
    if (const auto then = asOfThen(child, records.asOf); !then) return then.error();
  return records;
}

/// A child who moved, left or changed grade since is told of as it was: grade goes by school year.
Result<base::Done> Reader::asOfThen(Recorded<roster::Child>& child, base::Date asOf) {
  if (child.stamp.at.date() <= asOf || !child.stamp.supersedes) return base::Done{};
  auto words = book_.history<roster::Child>(subjectIs(child.id));
  if (!words) return words.error();
  const roster::Child* then = nullptr;
  for (const auto& word : *words)
    if (!then || word.stamp.at.date() <= asOf) then = &word.value;
  if (!then) return base::Done{};
  child.value.school = then->school;
  child.value.grade = then->grade;
  child.value.room = then->room;
  child.value.left = then->left;
  return base::Done{};
}

List<followup::IssuedReport> Reader::issuedReports(roster::TermId term) {
  return book_.history<followup::IssuedReport>(rowsOf("term", term));
}

} // namespace gk::session
