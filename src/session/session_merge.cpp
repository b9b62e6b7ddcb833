#include "session/session_write.h"

#include "base/text.h"
#include "store/identity_row.h"

#include <algorithm>
#include <set>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using followup::MergeAnswer;
using followup::MergeVerdict;

namespace {

constexpr auto sameChild = "two cards of one child";
constexpr auto askedAnew = "the question of the merge is asked anew";

/// Takes rows back, says them again, or moves them to another card, inside one act. What cannot be
/// read is told by `failure`, and then nothing may be written.
class Mender {
 public:
  explicit Mender(store::Book& book) : book_(book) {}

  /// What the act of this row did is what `sayAgain` and `moveBack` undo.
  void undoing(base::EntryId entry) {
    const auto lines = book_.actOf(entry);
    if (!lines) {
      failure_ = lines.error();
      return;
    }
    for (const auto& line : *lines) {
      if (line.kind == "retraction")
        tookBack_.insert(*line.stamp.supersedes);
      else
        wrote_.insert(line.stamp.entry);
    }
  }

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
  template <class T>
  void sayAgain(const store::Where& where) {
    eachEver<T>(where, [&](const Recorded<T>& row) {
      if (tookBack_.contains(row.stamp.entry)) sayAgain(row, row.value);
    });
  }
  /// Rows that the act moved to `to`, in whatever word they are now.
  template <class T>
  void moveBack(roster::ChildId from, roster::ChildId to) {
    std::set<typename T::Key> moved;
    eachEver<T>(store::rowsOf("child", to), [&](const Recorded<T>& row) {
      if (wrote_.contains(row.stamp.entry)) moved.insert(row.id);
    });
    each<T>(store::rowsOf("child", to), [&](const Recorded<T>& row) {
      if (!moved.contains(row.id)) return;
      auto back = row.value;
      back.child = from;
      sayAgain(row, back);
    });
  }

  template <class T, class Take>
  void each(const store::Where& where, Take take) {
    if (!failure_) forAll(book_.current<T>(where), take);
  }
  template <class T, class Take>
  void eachEver(const store::Where& where, Take take) {
    if (!failure_) forAll(book_.history<T>(where), take);
  }
  /// Whose visit the row is of: of the laptop that first wrote it.
  template <class T>
  base::LaptopId firstHand(const Recorded<T>& row) {
    auto laptop = row.stamp.laptop;
    if (!row.stamp.supersedes) return laptop;
    eachEver<T>(store::subjectIs(row.id), [&](const Recorded<T>& word) {
      if (word.stamp.entry.uuid() == row.id.uuid()) laptop = word.stamp.laptop;
    });
    return laptop;
  }

  void write(store::Act& act, const std::string& why) {
    for (const auto& move : moves_)
      move(act);
    // In the order in which they were first entered, as the steps of a field count on.
    std::ranges::stable_sort(again_, {}, [](const auto& one) { return one.first; });
    for (const auto& one : again_)
      one.second(act);
    for (const auto& entry : gone_)
      act.retract(entry, why);
  }
  [[nodiscard]] const std::optional<Error>& failure() const { return failure_; }
  [[nodiscard]] bool isIdle() const { return moves_.empty() && gone_.empty(); }

 private:
  using Write = std::function<void(store::Act&)>;

  template <class T>
  void sayAgain(const Recorded<T>& old, const T& value) {
    again_.emplace_back(old.stamp.entry,
                        [old, value](store::Act& act) { act.sayAgain(old, value, askedAnew); });
  }
  template <class T, class Take>
  void forAll(const Result<std::vector<Recorded<T>>>& rows, Take take) {
    if (!rows) {
      failure_ = rows.error();
      return;
    }
    for (const auto& row : *rows)
      take(row);
  }

  store::Book& book_;
  std::set<base::EntryId> wrote_;
  std::set<base::EntryId> tookBack_;
  std::vector<std::pair<base::EntryId, Write>> again_;
  std::vector<Write> moves_;
  std::vector<base::EntryId> gone_;
  std::optional<Error> failure_;
};

/// All that other laptops wrote of the child's mouth on the day; calls, referrals and letters were
/// made and stay.
void dropOtherVisits(Mender& mender, const MergeAnswer& answer) {
  const auto here = store::rowsOf("child", answer.child, "day", answer.day);
  const auto isKept = [&](const auto& row) { return mender.firstHand(row) == answer.kept; };
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

/// The dropped visits, as they were.
void bringVisitsBack(Mender& mender, const MergeAnswer& answer) {
  const auto here = store::rowsOf("child", answer.child, "day", answer.day);
  std::set<chairside::FieldId> fields;
  mender.eachEver<chairside::Field>(here, [&](const auto& field) { fields.insert(field.id); });
  for (const auto& field : fields) {
    const auto of = store::rowsOf("field", field);
    mender.sayAgain<chairside::TimerStart>(of);
    mender.sayAgain<chairside::StepRun>(of);
    mender.sayAgain<chairside::Wet>(of);
  }
  mender.sayAgain<chairside::Field>(here);
  mender.sayAgain<chairside::PaperSheet>(here);
  mender.sayAgain<chairside::Seating>(here);
  mender.sayAgain<chairside::Screening>(here);
  mender.sayAgain<chairside::Placement>(here);
  mender.sayAgain<chairside::Varnish>(here);
  mender.sayAgain<chairside::DayOutcome>(here);
  mender.sayAgain<followup::RetentionCheck>(here);
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

/// The other card and what was said of it.
void unfoldCards(Mender& mender, roster::ChildId from, roster::ChildId to) {
  mender.sayAgain<store::SealedIdentity>(store::rowsOf("child", from));
  mender.sayAgain<roster::Child>(store::subjectIs(from));
  mender.moveBack<roster::Consent>(from, to);
  mender.moveBack<roster::ConsentOverride>(from, to);
  mender.moveBack<roster::MedicalFlag>(from, to);
  mender.moveBack<chairside::Authorization>(from, to);
  mender.moveBack<chairside::PaperSheet>(from, to);
  mender.moveBack<chairside::Seating>(from, to);
  mender.moveBack<chairside::Screening>(from, to);
  mender.moveBack<chairside::Field>(from, to);
  mender.moveBack<chairside::Placement>(from, to);
  mender.moveBack<chairside::Varnish>(from, to);
  mender.moveBack<chairside::DayOutcome>(from, to);
  mender.moveBack<followup::RetentionCheck>(from, to);
  mender.moveBack<followup::Referral>(from, to);
  mender.moveBack<followup::ContactAttempt>(from, to);
  mender.moveBack<followup::Letter>(from, to);
  mender.moveBack<followup::Incident>(from, to);
}

} // namespace

Result<base::Done> Session::reopenMerge(By by, const Recorded<MergeAnswer>& old,
                                        const std::string& reason) {
  const auto may = admit(Verb::reopenMerge, by, {.day = old.value.day, .reason = reason});
  if (!may) return may.error();
  const auto& answer = old.value;
  if (base::trim(reason).empty())
    return Error{ErrorCode::ruleReason, "say why the question is asked anew"};
  Mender mender(book_);
  mender.undoing(old.stamp.entry);
  if (answer.verdict == MergeVerdict::keptOne) {
    if (answer.other)
      unfoldCards(mender, *answer.other, answer.child);
    else
      bringVisitsBack(mender, answer);
  }
  if (mender.failure()) return *mender.failure();
  return write(*may, answer.child, [&](store::Act& act) {
    mender.write(act, askedAnew);
    act.retract(old.stamp.entry, reason);
    return base::Done{};
  });
}

Result<base::Done> Session::answerMerge(By by, const MergeAnswer& answer) {
  const auto may = admit(Verb::answerMerge, by, {.day = answer.day});
  if (!may) return may.error();
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
  return write(*may, answer.child, [&](store::Act& act) {
    act.add(answer);
    mender.write(act, answer.other ? sameChild : "the other laptop's visit was kept");
    return base::Done{};
  });
}

} // namespace gk::session
