#include "base/text/text.h"
#include "roster/display_names.h"
#include "session/session_write.h"

#include <set>

// Students who are expected no more: who moved away, finished the last grade, was withdrawn.
namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

/// Who leaves with the school year is entered by then; a later date is a slip.
constexpr int monthsAhead = 12;

/// The last date on which the child was in the chair; none who never was.
Result<std::optional<base::Date>>
lastInChair(Reader& book, const std::vector<Recorded<chairside::Seating>>& seatings) {
  std::optional<base::Date> last;
  for (const auto& seating : seatings) {
    const auto day = book.day(seating.value.day);
    if (!day) return day.error();
    if (!last || day->value.date > *last) last = day->value.date;
  }
  return last;
}

} // namespace

Result<base::Done> DeskVerbs::leaveProgram(By by, const std::vector<roster::ChildId>& children,
                                           const roster::Leaving& left, const std::string& words) {
  const auto may = admit(Verb::leaveProgram, by);
  if (!may) return may.error();
  if (left.why == roster::LeftBecause::other && base::isBlank(words))
    return Error{ErrorCode::ruleReason,
                 "\"other\" says nothing by itself: say why, in a few words"};
  if (left.from > world_.clock.now().date().plusMonths(monthsAhead))
    return Error{ErrorCode::ruleDate, left.from.words() + " is more than a year ahead"};
  std::vector<Recorded<roster::Child>> cards;
  const std::set<roster::ChildId> each(children.begin(), children.end());
  for (const auto& id : each) {
    auto card = this->child(id);
    if (!card) return card.error();
    const auto seatings = book_.current<chairside::Seating>(store::rowsOf("child", id));
    if (!seatings) return seatings.error();
    const auto seen = lastInChair(*this, *seatings);
    if (!seen) return seen.error();
    if (*seen && **seen >= left.from)
      return Error{ErrorCode::ruleDate, "student " + card->value.number + " was in the chair on " +
                                            (*seen)->words() + "; choose a later date"};
    if (left.from.year() <= card->value.birth.year)
      return Error{ErrorCode::ruleDate, left.from.words() +
                                            " is not after the year of birth of student " +
                                            card->value.number};
    if (card->value.left != left) cards.push_back(std::move(*card));
  }
  if (cards.empty())
    return Error{ErrorCode::notFound,
                 each.empty() ? "no student is selected" : "this is recorded already"};
  // Locked, no name can be told from any other word; the command line is.
  if (vault_ && !base::isBlank(words))
    if (const auto quiet = namesNeither(words, {each.begin(), each.end()}); !quiet)
      return quiet.error();
  std::string reason(base::displayName(left.why));
  if (!base::isBlank(words)) reason += ": " + std::string(base::trim(words));
  return write(*may, cards.size() == 1 ? std::optional(cards.front().id) : std::nullopt,
               [&](store::Act& act) {
                 for (const auto& card : cards) {
                   auto gone = card.value;
                   gone.left = left;
                   act.correct(card, gone, reason);
                 }
                 return base::Done{};
               });
}

Result<std::string> FormVerbs::leftQuestion(roster::ChildId id) {
  const auto card = this->child(id);
  if (!card) return card.error();
  if (!roster::hasLeft(card->value, world_.clock.now().date())) return std::string();
  const auto& left = *card->value.left;
  return "student " + card->value.number + " left the program on " + left.from.words() + " (" +
         std::string(base::displayName(left.why)) +
         "). The form would be kept, but the student stays off every day's list until recorded as "
         "back (Desk, Students, Came back)";
}

Result<base::Done> FormVerbs::isExpected(roster::ChildId child, Confirmed ofWhoLeft) {
  const auto question = leftQuestion(child);
  if (!question) return question.error();
  if (!question->empty() && ofWhoLeft == Confirmed::no)
    return Error{ErrorCode::ruleConsentForm,
                 *question + ". Confirm that the form is to be entered"};
  return base::Done{};
}

Result<base::Done> DeskVerbs::comeBack(By by, roster::ChildId id, const std::string& reason) {
  const auto may = admit(Verb::comeBack, by, {.child = id, .reason = reason});
  if (!may) return may.error();
  const auto card = this->child(id);
  if (!card) return card.error();
  if (!card->value.left)
    return Error{ErrorCode::notFound,
                 "student " + card->value.number + " is not recorded as having left"};
  auto here = card->value;
  here.left.reset();
  return write(*may, id, [&](store::Act& act) {
    act.correct(*card, here, reason);
    return base::Done{};
  });
}

} // namespace gk::session
