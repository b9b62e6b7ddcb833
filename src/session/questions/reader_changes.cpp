#include "base/text/text.h"
#include "session/cards/card_fold.h"
#include "session/reader_held.h"
#include "session/session_write.h"

#include <algorithm>

// What a correction at the desk changes elsewhere, counted before it is made.
namespace gk::session {

using base::counted;
using store::everything;
using store::rowsOf;

namespace {

using Sentences = std::vector<std::string>;

/// School days, and how many of them are signed.
struct DayCount {
  std::size_t days = 0;
  std::size_t closed = 0;
};

/// `isMeant` chooses among all days that were not canceled: a program has some hundred.
template <class IsMeant>
Result<DayCount> countDays(store::Book& book, IsMeant isMeant) {
  const auto days = book.current<roster::ClinicDay>(everything());
  if (!days) return days.error();
  const auto closures = book.current<roster::DayClosure>(everything());
  if (!closures) return closures.error();
  DayCount count;
  for (const auto& day : *days) {
    if (day.value.canceled || !isMeant(day)) continue;
    ++count.days;
    if (std::ranges::any_of(*closures,
                            [&](const auto& closure) { return closure.value.day == day.id; }))
      ++count.closed;
  }
  return count;
}

void sayDays(Sentences& into, const DayCount& count) {
  if (count.closed > 0)
    into.push_back(counted(count.closed, "signed day stays", "signed days stay") + " signed.");
}

Result<std::size_t> countIssued(store::Book& book, const std::optional<roster::TermId>& term = {}) {
  const auto issued =
      book.current<followup::IssuedReport>(term ? rowsOf("term", *term) : everything());
  if (!issued) return issued.error();
  return issued->size();
}

void sayIssued(Sentences& into, std::size_t issued) {
  if (issued > 0)
    into.push_back(counted(issued, "issued report keeps", "issued reports keep") +
                   " its figures and words.");
}

Result<Sentences> withProgram(store::Book& book) {
  Sentences says{"Letters and reports made from now on use it; printed ones do not change."};
  const auto issued = countIssued(book);
  if (!issued) return issued.error();
  sayIssued(says, *issued);
  says.emplace_back("The chair follows changed times from the next step on.");
  return says;
}

Result<Sentences> withSchool(store::Book& book, roster::SchoolId school) {
  const auto children = book.current<roster::Child>(rowsOf("school", school));
  if (!children) return children.error();
  const auto days = countDays(book, [&](const auto& day) { return day.value.school == school; });
  if (!days) return days.error();
  Sentences says{counted(children->size(), "student", "students") + " and " +
                 counted(days->days, "school day", "school days") +
                 " show the new name from now on."};
  sayDays(says, *days);
  says.emplace_back("Printed letters and slips do not change.");
  return says;
}

Result<Sentences> withTerm(store::Book& book, roster::TermId term) {
  const auto days = countDays(book, [&](const auto& day) { return day.value.term == term; });
  if (!days) return days.error();
  Sentences says{"Reports of this term follow its dates; its " +
                 counted(days->days, "school day stays", "school days stay") + " in it."};
  sayDays(says, *days);
  const auto issued = countIssued(book, term);
  if (!issued) return issued.error();
  sayIssued(says, *issued);
  says.emplace_back("Consent forms without an end date run to its last day.");
  return says;
}

Result<Sentences> withMember(store::Book& book, base::MemberId who) {
  const auto closures = book.current<roster::DayClosure>(everything());
  if (!closures) return closures.error();
  const auto signedDays = std::ranges::count_if(*closures, [&](const auto& closure) {
    return closure.value.clinical == who || closure.value.coordinator == who;
  });
  Sentences says{"Rights and license count from now on; work already entered keeps its operator."};
  if (signedDays > 0)
    says.push_back(counted(signedDays, "signature stays", "signatures stay") + " valid.");
  return says;
}

Result<Sentences> withLight(store::Book& book, kit::LightId light) {
  const auto readings = book.current<kit::MeterReading>(rowsOf("light", light));
  if (!readings) return readings.error();
  return Sentences{readings->empty()
                       ? "No reading is entered yet; the first is compared with what is saved here."
                       : counted(readings->size(), "reading is", "readings are") +
                             " compared with the first reading saved here.",
                   "Cures already entered keep their light."};
}

Result<Sentences> withLot(store::Book& book, kit::LotId lot) {
  const auto counts = book.current<kit::LotCount>(rowsOf("lot", lot));
  if (!counts) return counts.error();
  Sentences says{"Sealants placed with this lot show the corrected name and date in reports from "
                 "now on."};
  if (!counts->empty())
    says.push_back(counted(counts->size(), "supply count stays", "supply counts stay") +
                   " with it.");
  return says;
}

Result<Sentences> withStudent(Reader& reader, store::Book& book, roster::ChildId child) {
  const auto letters = book.current<followup::Letter>(rowsOf("child", child));
  if (!letters) return letters.error();
  const auto days = daysSeen(book, child);
  if (!days) return days.error();
  std::size_t closed = 0;
  for (const auto& day : *days) {
    const auto isClosed = reader.isSigned(day);
    if (!isClosed) return isClosed.error();
    if (*isClosed) ++closed;
  }
  const auto referrals = book.current<followup::Referral>(rowsOf("child", child));
  if (!referrals) return referrals.error();
  const auto open = std::ranges::count_if(*referrals, [](const auto& referral) {
    return referral.value.state == followup::ReferralState::open;
  });
  const auto waiting = std::ranges::count_if(*letters, [](const auto& letter) {
    return letter.value.state == followup::LetterState::printed ||
           letter.value.state == followup::LetterState::queued;
  });
  Sentences says{"New letters, lists and calls use it. The earlier details stay in the history, "
                 "encrypted."};
  if (!letters->empty())
    says.push_back(
        counted(letters->size(), "letter already printed does", "letters already printed do") +
        " not change" +
        (waiting > 0 ? "; " + std::to_string(waiting) +
                           " not handed out yet: print again at close-out, and discard the old."
                     : std::string(".")));
  if (closed > 0)
    says.push_back(counted(closed, "signed day stays", "signed days stay") +
                   " signed; sheets already printed show the earlier details.");
  if (open > 0)
    says.push_back(counted(open, "open referral", "open referrals") +
                   ": the next call uses the corrected phone.");
  says.emplace_back("Slips and labels printed before show the earlier name; the number stays.");
  return says;
}

} // namespace

Result<Sentences> DeskVerbs::changesWith(Area area, const base::Uuid& thing) {
  switch (area) {
  case Area::program:
    return withProgram(book_);
  case Area::schools:
    return withSchool(book_, roster::SchoolId(thing));
  case Area::terms:
    return withTerm(book_, roster::TermId(thing));
  case Area::team:
    return withMember(book_, base::MemberId(thing));
  case Area::lights:
    return withLight(book_, kit::LightId(thing));
  case Area::lots:
    return withLot(book_, kit::LotId(thing));
  case Area::rosters:
    return withStudent(*this, book_, roster::ChildId(thing));
  case Area::years:
    return Sentences{"Reports for this year follow its dates. Issued reports do not change."};
  }
  return Sentences{};
}

} // namespace gk::session
