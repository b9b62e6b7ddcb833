#pragma once

#include "session/cards/merge_rules.h"
#include "store/book.h"

#include <algorithm>
#include <functional>
#include <set>

namespace gk::session {

using base::Recorded;
using base::Result;

/// The edits that one answer about a merge makes: rows that are retracted, reinstated or moved to
/// another card, collected first and written inside one act. When something cannot be read,
/// `failure` says so, and then nothing may be written.
class MergeEdits {
 public:
  explicit MergeEdits(store::Book& book) : book_(book) {}

  /// What the act of this row did is what `reinstate` and `moveBack` undo.
  void undoing(base::EntryId entry, const char* why = reopened);

  template <class T, class Keep>
  void retractUnless(const store::Where& where, Keep keep) {
    forEach<T>(where, [&](const Recorded<T>& row) {
      if (!keep(row)) retracted_.push_back(row.stamp.entry);
    });
  }
  template <class T>
  void retractAll(const store::Where& where) {
    retractUnless<T>(where, [](const auto&) { return false; });
  }
  /// `change` makes of each value what it is on the other card.
  template <class T, class Change>
  void move(roster::ChildId from, roster::ChildId to, Change change, const std::string& why) {
    forEach<T>(store::rowsOf("child", from), [&](const Recorded<T>& row) {
      auto moved = row.value;
      change(moved);
      moved.child = to;
      if constexpr (requires { daysMoved_.insert(moved.day); }) daysMoved_.insert(moved.day);
      moves_.push_back([row, moved, why](store::Act& act) { act.correct(row, moved, why); });
    });
  }
  template <class T>
  void reinstate(const store::Where& where) {
    forEachRevision<T>(where, [&](const Recorded<T>& row) {
      if (wasRetracted_.contains(row.stamp.entry)) reinstate(row, row.value);
    });
  }
  /// Rows that the act moved to `to`: as they were before it, or as they were corrected since.
  template <class T>
  void moveBack(roster::ChildId from, roster::ChildId to) {
    std::set<typename T::Key> moved;
    forEachRevision<T>(store::rowsOf("child", to), [&](const Recorded<T>& row) {
      if (wasWritten_.contains(row.stamp.entry)) moved.insert(row.id);
    });
    forEach<T>(store::rowsOf("child", to), [&](const Recorded<T>& row) {
      if (!moved.contains(row.id)) return;
      auto back = row.value;
      if (wasWritten_.contains(row.stamp.entry))
        forEachRevision<T>(store::subjectIs(row.id), [&](const Recorded<T>& earlier) {
          if (earlier.stamp.entry == row.stamp.supersedes) back = earlier.value;
        });
      back.child = from;
      if constexpr (requires { daysMoved_.insert(back.day); }) daysMoved_.insert(back.day);
      reinstate(row, back);
    });
  }

  template <class T, class Take>
  void forEach(const store::Where& where, Take take) {
    if (!failure_) takeAll(book_.current<T>(where), take);
  }
  template <class T, class Take>
  void forEachRevision(const store::Where& where, Take take) {
    if (!failure_) takeAll(book_.history<T>(where), take);
  }
  /// Whose visit the row is of: of the laptop that first wrote it.
  template <class T>
  base::LaptopId firstLaptop(const Recorded<T>& row) {
    auto laptop = row.stamp.laptop;
    if (!row.stamp.supersedes) return laptop;
    forEachRevision<T>(store::subjectIs(row.id), [&](const Recorded<T>& revision) {
      if (revision.stamp.entry.uuid() == row.id.uuid()) laptop = revision.stamp.laptop;
    });
    return laptop;
  }

  void write(store::Act& act, const std::string& why);
  [[nodiscard]] const std::optional<base::Error>& failure() const { return failure_; }
  /// School days that have a row which `move` or `moveBack` moves.
  [[nodiscard]] const std::set<base::DayId>& daysMoved() const { return daysMoved_; }
  [[nodiscard]] bool isIdle() const { return moves_.empty() && retracted_.empty(); }

 private:
  using Write = std::function<void(store::Act&)>;

  template <class T>
  void reinstate(const Recorded<T>& old, const T& value) {
    reinstated_.emplace_back(old.stamp.entry, [old, value, why = why_](store::Act& act) {
      act.restate(old, value, why);
    });
  }
  template <class T, class Take>
  void takeAll(const Result<std::vector<Recorded<T>>>& rows, Take take) {
    if (!rows) {
      failure_ = rows.error();
      return;
    }
    for (const auto& row : *rows)
      take(row);
  }

 public:
  static constexpr auto reopened = "the laptop conflict was reopened";

 private:
  store::Book& book_;
  std::string why_ = reopened;
  std::set<base::EntryId> wasWritten_;
  std::set<base::EntryId> wasRetracted_;
  std::vector<std::pair<base::EntryId, Write>> reinstated_;
  std::vector<Write> moves_;
  std::set<base::DayId> daysMoved_;
  std::vector<base::EntryId> retracted_;
  std::optional<base::Error> failure_;
};

} // namespace gk::session
