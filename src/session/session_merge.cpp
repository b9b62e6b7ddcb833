#include "session/session_write.h"

#include "store/identity_row.h"

#include <algorithm>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using followup::MergeAnswer;
using followup::MergeVerdict;

namespace {

constexpr auto sameChild = "two cards of one child";

/// Takes rows back, or moves them to another card, inside one act. What cannot be read is told by
/// `failure`, and then nothing may be written.
class Mender {
 public:
  explicit Mender(store::Book& book) : book_(book) {}

  template <class T, class Keep>
  void takeBack(const store::Where& where, Keep keep) {
    each<T>(where, [&](const Recorded<T>& row) {
      if (!keep(row)) gone_.push_back(row.stamp.entry);
    });
  }
  template <class T>
  void move(roster::ChildId from, roster::ChildId to) {
    each<T>(store::rowsOf("child", from), [&](const Recorded<T>& row) {
      moves_.push_back([row, to](store::Act& act) {
        auto moved = row.value;
        moved.child = to;
        act.correct(row, moved, sameChild);
      });
    });
  }
  template <class T, class Take>
  void each(const store::Where& where, Take take) {
    if (failure_) return;
    auto rows = book_.current<T>(where);
    if (!rows) {
      failure_ = rows.error();
      return;
    }
    for (const auto& row : *rows)
      take(row);
  }

  void write(store::Act& act, const std::string& why) const {
    for (const auto& move : moves_)
      move(act);
    for (const auto& entry : gone_)
      act.retract(entry, why);
  }
  [[nodiscard]] const std::optional<Error>& failure() const { return failure_; }
  [[nodiscard]] bool isIdle() const { return moves_.empty() && gone_.empty(); }

 private:
  store::Book& book_;
  std::vector<std::function<void(store::Act&)>> moves_;
  std::vector<base::EntryId> gone_;
  std::optional<Error> failure_;
};

/// All that other laptops wrote of the child's mouth on the day; calls, referrals and letters were
/// made and stay.
void dropOtherVisits(Mender& mender, const MergeAnswer& answer) {
  const auto here = store::rowsOf("child", answer.child, "day", answer.day);
  const auto isKept = [&](const auto& row) { return row.stamp.laptop == answer.kept; };
  mender.each<chairside::Field>(here, [&](const Recorded<chairside::Field>& field) {
    if (isKept(field)) return;
    const auto of = store::rowsOf("field", field.id);
    const auto none = [](const auto&) { return false; };
    mender.takeBack<chairside::TimerStart>(of, none);
    mender.takeBack<chairside::StepRun>(of, none);
    mender.takeBack<chairside::Wet>(of, none);
  });
  mender.takeBack<chairside::Field>(here, isKept);
  mender.takeBack<chairside::PaperSheet>(here, isKept);
  mender.takeBack<chairside::Seating>(here, isKept);
  mender.takeBack<chairside::Screening>(here, isKept);
  mender.takeBack<chairside::Placement>(here, isKept);
  mender.takeBack<chairside::Varnish>(here, isKept);
  mender.takeBack<chairside::DayOutcome>(here, isKept);
  mender.takeBack<followup::RetentionCheck>(here, isKept);
}

/// Everything about the other card is said of the kept one, and the other is taken back.
void foldCards(Mender& mender, roster::ChildId from, roster::ChildId to) {
  mender.move<roster::Consent>(from, to);
  mender.move<roster::ConsentOverride>(from, to);
  mender.move<roster::MedicalFlag>(from, to);
  mender.move<chairside::Authorization>(from, to);
  mender.move<chairside::PaperSheet>(from, to);
  mender.move<chairside::Seating>(from, to);
  mender.move<chairside::Screening>(from, to);
  mender.move<chairside::Field>(from, to);
  mender.move<chairside::Placement>(from, to);
  mender.move<chairside::Varnish>(from, to);
  mender.move<chairside::DayOutcome>(from, to);
  mender.move<followup::RetentionCheck>(from, to);
  mender.move<followup::Referral>(from, to);
  mender.move<followup::ContactAttempt>(from, to);
  mender.move<followup::Letter>(from, to);
  mender.move<followup::Incident>(from, to);
  const auto none = [](const auto&) { return false; };
  mender.takeBack<store::SealedIdentity>(store::rowsOf("child", from), none);
  mender.takeBack<roster::Child>(store::subjectIs(from), none);
}

} // namespace

Result<base::Done> Session::answerMerge(By by, const MergeAnswer& answer) {
  if (!by.author)
    return Error{ErrorCode::ruleCredential, "say who does this: no team member is chosen"};
  if (const auto day = dayOpenForCare(answer.day); !day) return day.error();
  if (answer.other == answer.child)
    return Error{ErrorCode::notFound, "one card cannot be another child's"};
  if (const auto known = child(answer.child); !known) return known.error();
  Mender mender(book_);
  if (answer.other) {
    if (const auto known = child(*answer.other); !known) return known.error();
    if (answer.verdict == MergeVerdict::keptOne) foldCards(mender, *answer.other, answer.child);
  } else if (answer.verdict == MergeVerdict::keptOne) {
    if (!answer.kept) return Error{ErrorCode::ruleReason, "say which visit is kept"};
    dropOtherVisits(mender, answer);
    if (!mender.failure() && mender.isIdle())
      return Error{ErrorCode::notFound, "only one laptop has a visit of this child"};
  }
  if (mender.failure()) return *mender.failure();
  return write(by, answer.child, [&](store::Act& act) {
    act.add(answer);
    mender.write(act, answer.other ? sameChild : "the other laptop's visit was kept");
    return base::Done{};
  });
}

} // namespace gk::session
