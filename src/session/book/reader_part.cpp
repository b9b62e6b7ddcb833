#include "roster/child/card_join.h"
#include "session/part.h"
#include "session/reader_held.h"
#include "session/session_write.h"
#include "store/part.h"

#include <algorithm>
#include <set>

// A logbook that was made of another for one school's day.
namespace gk::session {

using base::Error;
using base::ErrorCode;

Result<std::optional<OneSchool>> Reader::oneSchool() {
  const auto part = store::Parting::of(book_);
  if (!part) return part.error();
  if (!*part) return std::optional<OneSchool>();
  const auto school = only<roster::School>(store::subjectIs((*part)->school), "school");
  if (!school) return school.error();
  return std::optional(OneSchool{school->id, school->value.name, (*part)->highestNumber});
}

std::string partNotice(Reader& book) {
  const auto one = book.oneSchool();
  if (!one || !*one) return {}; // trouble with the file comes again, where something is asked of it
  return "This logbook has only " + (*one)->name +
         "'s students. At the end of the day, seal it and merge it into the whole logbook.";
}

Result<base::Done> needsWhole(Reader& book, std::string_view what) {
  const auto one = book.oneSchool();
  if (!one) return one.error();
  if (!*one) return base::Done{};
  return Error{ErrorCode::storePart, "this logbook has only " + (*one)->name + "'s students; " +
                                         std::string(what) +
                                         " in the whole logbook, on the laptop that sealed it"};
}

Result<base::Done> hasSchool(Reader& book, roster::SchoolId school) {
  const auto one = book.oneSchool();
  if (!one) return one.error();
  if (!*one || (*one)->school == school) return base::Done{};
  return needsWhole(book, "other schools' students are");
}

Result<std::vector<roster::ChildId>> DayVerbs::childrenBut(roster::SchoolId school) {
  // A sheet of an earlier day there tells of a student who has moved since.
  const auto ever = book_.history<roster::Child>(store::everything());
  if (!ever) return ever.error();
  std::set<roster::ChildId> all;
  std::set<roster::ChildId> kept;
  for (const auto& card : *ever) {
    all.insert(card.id);
    if (card.value.school == school) kept.insert(card.id);
  }
  const auto seated = book_.history<chairside::Seating>(store::everything());
  if (!seated) return seated.error();
  const auto days = book_.history<roster::ClinicDay>(store::rowsOf("school", school));
  if (!days) return days.error();
  std::set<roster::DayId> there;
  for (const auto& day : *days)
    there.insert(day.id);
  for (const auto& seating : *seated)
    if (there.contains(seating.value.day)) kept.insert(seating.value.child);
  // Two cards of one student go together, and so does what was joined to either.
  const auto joins = book_.history<roster::CardJoin>(store::everything());
  if (!joins) return joins.error();
  for (bool grew = true; grew;) {
    grew = false;
    for (const auto& join : *joins)
      for (const auto& [one, other] : {std::pair(join.value.child, join.value.other),
                                       std::pair(join.value.other, join.value.child)})
        if (kept.contains(one)) grew = kept.insert(other).second || grew;
  }
  std::vector<roster::ChildId> others;
  std::ranges::set_difference(all, kept, std::back_inserter(others));
  return others;
}

} // namespace gk::session
