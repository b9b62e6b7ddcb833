#include "roster/list/list_columns.h"
#include "session/cards/card_fold.h"
#include "session/reader_held.h"
#include "session/session_write.h"

#include <algorithm>
#include <map>

// What the desk asks: how a thing came to be as it is, and what is missing for a first day.
namespace gk::session {

using store::rowsOf;

List<roster::Enrollment> Reader::enrollments(roster::TermId term) {
  return book_.current<roster::Enrollment>(rowsOf("term", term));
}

List<roster::MealEligibility> Reader::eligibilities(roster::TermId term) {
  return book_.current<roster::MealEligibility>(rowsOf("term", term));
}

List<roster::ProgramYear> Reader::years() {
  auto years = book_.current<roster::ProgramYear>(store::everything());
  if (years)
    std::ranges::stable_sort(*years, {}, [](const auto& year) { return year.value.start; });
  return years;
}

Result<std::string> Reader::listColumns(roster::SchoolId school) {
  const auto rows = book_.current<roster::ListColumns>(rowsOf("school", school));
  if (!rows) return rows.error();
  return rows->empty() ? std::string() : rows->back().value.columns;
}

template <class T>
List<T> Reader::revisions(typename T::Key id) {
  return book_.history<T>(store::subjectIs(id));
}

template List<roster::Program> Reader::revisions<roster::Program>(roster::ProgramId);
template List<roster::School> Reader::revisions<roster::School>(roster::SchoolId);
template List<roster::Term> Reader::revisions<roster::Term>(roster::TermId);
template List<roster::ProgramYear> Reader::revisions<roster::ProgramYear>(roster::YearId);
template List<roster::Member> Reader::revisions<roster::Member>(base::MemberId);
template List<roster::Child> Reader::revisions<roster::Child>(roster::ChildId);
template List<roster::FormHandout> Reader::revisions<roster::FormHandout>(roster::HandoutId);
template List<kit::Light> Reader::revisions<kit::Light>(kit::LightId);
template List<kit::Lot> Reader::revisions<kit::Lot>(kit::LotId);

Result<std::vector<IdentityRevision>> Reader::identityRevisions(roster::ChildId child) {
  if (!vault_)
    return base::Error{base::ErrorCode::vaultLocked, "unlock the logbook to read who it is"};
  auto boxes = book_.history<store::SealedIdentity>(rowsOf("child", child));
  if (!boxes) return boxes.error();
  std::vector<IdentityRevision> revisions;
  for (const auto& box : *boxes) {
    auto identity = reveal(child, {box.value.nonce, box.value.box});
    if (!identity && identity.error().code == base::ErrorCode::vaultDamaged) continue; // a finding
    if (!identity) return identity.error();
    revisions.push_back({box.stamp, std::move(*identity)});
  }
  return revisions;
}

namespace {

/// All that the check lists are made from.
Result<SetupRecords> setupRecords(Reader& book, store::Book& all, base::Date on) {
  SetupRecords records{.on = on};
  auto program = book.program();
  if (program)
    records.program = std::move(program->value);
  else if (program.error().code != base::ErrorCode::notFound)
    return program.error();
  auto schools = book.schools();
  auto terms = book.terms();
  auto members = book.members();
  auto lights = book.lights();
  auto times = book.cureTimes();
  auto lots = book.lots();
  auto years = book.years();
  // One child is enough to know that there are some: a book may hold a hundred thousand.
  const auto anyone = all.current<roster::Child>(store::pageAfter(base::EntryId(base::Uuid{}), 1));
  for (const auto& trouble : {schools ? std::optional<base::Error>() : schools.error(),
                              terms ? std::optional<base::Error>() : terms.error(),
                              members ? std::optional<base::Error>() : members.error(),
                              lights ? std::optional<base::Error>() : lights.error(),
                              times ? std::optional<base::Error>() : times.error(),
                              lots ? std::optional<base::Error>() : lots.error(),
                              years ? std::optional<base::Error>() : years.error(),
                              anyone ? std::optional<base::Error>() : anyone.error()})
    if (trouble) return *trouble;
  records.hasStudents = !anyone->empty();
  const auto late = lateOnCards(all);
  if (!late) return late.error();
  for (const auto& one : *late)
    records.lateOnCards.push_back(one.words());
  for (const auto& school : *schools) {
    const auto expected = all.childrenToExpect(school.id, on);
    if (!expected) return expected.error();
    records.withForm += expected->size();
  }
  if (const auto* term = termFor(*terms, on)) {
    auto counts = book.enrollments(term->id);
    if (!counts) return counts.error();
    records.enrollments = std::move(*counts);
    auto days = book.days(term->id);
    if (!days) return days.error();
    records.days = std::move(*days);
  }
  records.schools = std::move(*schools);
  records.terms = std::move(*terms);
  records.members = std::move(*members);
  records.lights = std::move(*lights);
  records.cureTimes = std::move(*times);
  records.lots = std::move(*lots);
  records.years = std::move(*years);
  return records;
}

} // namespace

Result<std::vector<AreaState>> Reader::setup(base::Date on) {
  const auto records = setupRecords(*this, book_, on);
  if (!records) return records.error();
  return setupOf(*records);
}

Result<std::vector<FirstDayState>> DeskVerbs::firstDay(base::Date on, bool hasBackupPlace) {
  auto setup = setupRecords(*this, book_, on);
  if (!setup) return setup.error();
  const auto pins = book_.current<roster::MemberPin>(store::everything());
  if (!pins) return pins.error();
  const auto code = book_.recovery();
  if (!code) return code.error();
  std::map<base::MemberId, bool> hasPin; // by the newest word of it
  for (const auto& pin : *pins)
    hasPin[pin.value.member] = !pin.value.isReset();
  FirstDayRecords records{.setup = std::move(*setup), .hasBackupPlace = hasBackupPlace};
  for (const auto& member : records.setup.members) {
    if (member.value.may.isEmpty()) continue;
    ++records.mayWork;
    if (hasPin[member.id]) ++records.withPin;
  }
  records.hasRecoveryCode = code->has_value();
  return firstDayOf(records);
}

} // namespace gk::session
