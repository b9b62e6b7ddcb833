#include "session/cards/card_fold.h"
#include "session/session_write.h"

#include "base/text/text.h"
#include "followup/visit_findings.h"
#include "reports/day/close_out.h"

#include <algorithm>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using followup::MergeAnswer;
using followup::MergeVerdict;

namespace {

template <class Visit>
void forEachStep(Visit visit) {
  store::forEachRecord([&]<class T>() {
    if constexpr (StepOfField<T>) visit.template operator()<T>();
  });
}

store::Where hereOf(const MergeAnswer& answer) {
  return store::rowsOf("child", answer.child, "day", answer.day);
}

/// All that other laptops wrote of the child's mouth on the day.
void dropOtherVisits(MergeEdits& edits, const MergeAnswer& answer) {
  const auto here = hereOf(answer);
  const auto isKept = [&](const auto& row) { return edits.firstLaptop(row) == answer.kept; };
  edits.forEach<chairside::Field>(here, [&](const Recorded<chairside::Field>& field) {
    if (isKept(field)) return;
    forEachStep([&]<class T>() { edits.retractAll<T>(store::rowsOf("field", field.id)); });
  });
  forEachAboutChild<ofVisit>([&]<class T>() { edits.retractUnless<T>(here, isKept); });
}

/// The dropped visits, as they were.
void bringVisitsBack(MergeEdits& edits, const MergeAnswer& answer) {
  const auto here = hereOf(answer);
  std::set<chairside::FieldId> fields;
  edits.forEachRevision<chairside::Field>(here,
                                          [&](const auto& field) { fields.insert(field.id); });
  for (const auto& field : fields)
    forEachStep([&]<class T>() { edits.reinstate<T>(store::rowsOf("field", field)); });
  forEachAboutChild<ofVisit>([&]<class T>() { edits.reinstate<T>(here); });
}

/// Of the kept visit and of all others, what must not be lost unseen.
struct Findings {
  followup::VisitFindings kept;
  followup::VisitFindings dropped;
};

Findings findingsOf(MergeEdits& edits, const MergeAnswer& answer) {
  Findings found;
  const auto here = hereOf(answer);
  const auto side = [&](const auto& row) -> followup::VisitFindings& {
    return edits.firstLaptop(row) == answer.kept ? found.kept : found.dropped;
  };
  edits.forEach<chairside::Seating>(here, [&](const auto& row) { side(row).add(row.value); });
  edits.forEach<chairside::Screening>(here, [&](const auto& row) { side(row).add(row.value); });
  edits.forEach<followup::RetentionCheck>(here, [&](const auto& row) {
    edits.forEach<chairside::Placement>(
        store::subjectIs(row.value.placement),
        [&](const auto& placement) { side(row).add(row.value, placement.value.tooth); });
  });
  return found;
}

} // namespace

Result<base::Done> DayVerbs::reopenMerge(By by, const Recorded<MergeAnswer>& old,
                                         const std::string& reason) {
  const auto may = admit(Verb::reopenMerge, by, {.day = old.value.day, .reason = reason});
  if (!may) return may.error();
  const auto stands = asItStands(old);
  if (!stands) return stands.error();
  const auto& answer = stands->value;
  if (base::trim(reason).empty())
    return Error{ErrorCode::ruleReason, "say why the question is reopened"};
  MergeEdits edits(book_);
  edits.undoing(old.stamp.entry);
  if (answer.verdict == MergeVerdict::keptOne) {
    if (answer.other)
      unfoldCards(edits, *answer.other, answer.child);
    else
      bringVisitsBack(edits, answer);
  }
  if (edits.failure()) return *edits.failure();
  return write(*may, answer.child, [&](store::Act& act) {
    edits.write(act, MergeEdits::reopened);
    act.retract(old.stamp.entry, reason);
    return base::Done{};
  });
}

/// Only what the close-out asks now is answered: an answer drops a visit or a card.
Result<base::Done> DayVerbs::isAsked(const MergeAnswer& answer) {
  auto records = dayRecords(answer.day);
  if (!records) return records.error();
  const auto known = names(*records);
  if (!known) return known.error();
  for (const auto& question : reports::closeOut(*records, *known).questions) {
    if (question.sides.front().word) continue; // of a thing; settleWords answers it
    const bool isOfVisits = !answer.other && !question.other && answer.child == question.child;
    const bool isOfCards =
        answer.other && question.other &&
        std::minmax(answer.child, *answer.other) == std::minmax(*question.child, *question.other);
    if (isOfCards) return base::Done{};
    if (!isOfVisits) continue;
    if (answer.verdict == MergeVerdict::bothStand || !answer.kept) return base::Done{};
    if (std::ranges::find(question.sides, answer.kept, &reports::MergeSide::laptop) !=
        question.sides.end())
      return base::Done{};
    return Error{ErrorCode::notFound, "that laptop has no visit of this child to keep"};
  }
  return Error{ErrorCode::notFound,
               "the close-out does not ask this, or it was answered already; reopen that answer to "
               "change it"};
}

Result<base::Done> DayVerbs::answerMerge(By by, const MergeAnswer& given, Confirmed dropsSerious) {
  const auto may = admit(Verb::answerMerge, by, {.day = given.day});
  if (!may) return may.error();
  auto answer = given;
  if (answer.other == answer.child)
    return Error{ErrorCode::notFound, "one card cannot be another child's"};
  if (const auto known = child(answer.child); !known) return known.error();
  if (const auto asked = isAsked(answer); !asked) return asked.error();
  MergeEdits edits(book_);
  if (answer.other) {
    if (answer.verdict == MergeVerdict::keptOne) foldCards(edits, *answer.other, answer.child);
  } else if (answer.verdict == MergeVerdict::keptOne) {
    if (!answer.kept) return Error{ErrorCode::ruleReason, "say which visit is kept"};
    dropOtherVisits(edits, answer);
    if (!edits.failure() && edits.isIdle())
      return Error{ErrorCode::notFound, "only one laptop has a visit of this child"};
    const auto found = findingsOf(edits, answer);
    if (edits.failure()) return *edits.failure();
    auto program = this->program();
    if (!program) return program.error();
    const auto lost =
        base::join(followup::moreSerious(found.dropped, found.kept, program->value.notation), "; ");
    if (!lost.empty() && dropsSerious == Confirmed::no)
      return Error{ErrorCode::ruleSeriousFinding,
                   "the visit that would be dropped found more: " + lost +
                       ". Keep that visit, answer that both happened, or confirm that it is "
                       "dropped"};
    if (!lost.empty()) answer.note += (answer.note.empty() ? "" : ", ") + ("dropped: " + lost);
  }
  if (edits.failure()) return *edits.failure();
  // What was signed for does not change unseen: the sheet of that day prints it.
  std::vector<base::DayId> signedDays;
  for (const auto& day : edits.daysMoved()) {
    const auto closed = isSigned(day);
    if (!closed) return closed.error();
    if (*closed) signedDays.push_back(day);
  }
  return write(*may, answer.child, [&](store::Act& act) {
    act.add(answer);
    for (const auto& day : signedDays)
      act.add(roster::Addendum{
          day, answer.child,
          "two cards were one student: the other card's records of this day are on this one"});
    edits.write(act, answer.other ? sameChild : "the other laptop's visit was kept");
    return base::Done{};
  });
}

} // namespace gk::session
