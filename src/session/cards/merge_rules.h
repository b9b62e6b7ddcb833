#pragma once

#include "store/records/record_list.h"

#include <concepts>
#include <optional>

namespace gk::session {

/// What becomes of a record about a child when two cards are said to be one child's.
enum class OnFold {
  move,    ///< it is the kept child's from now on
  combine, ///< it is moved, with what the kept card says of the same thing
  retract, ///< it is of the card itself, and stays in the history
  stay     ///< it is about the merge, and tells what was answered then
};

/// What becomes of a record of a visit that is not kept.
enum class OnDrop { retract, stay };

template <class T>
concept AboutChild = std::same_as<decltype(T::child), roster::ChildId> ||
    std::same_as<decltype(T::child), std::optional<roster::ChildId>>;

/// A step of isolated teeth, which goes wherever its field goes.
template <class T>
concept StepOfField = !AboutChild<T> && std::same_as<decltype(T::field), chairside::FieldId>;

template <class T>
inline constexpr bool isUndecided = true;

/// What a merge does with a record about a child. Every such type must say so here: one that does
/// not would be lost when two cards become one, so it does not compile.
template <class T>
struct MergeRule {
  static_assert(
      !isUndecided<T>,
      "a record about a child: say in session/cards/merge_rules.h what a merge does with it");
};

template <OnFold Fold, OnDrop Drop>
struct MergeDoes {
  static constexpr OnFold fold = Fold;
  static constexpr OnDrop drop = Drop;
};

// What is known of the child, whoever saw it.
using KnownOfChild = MergeDoes<OnFold::move, OnDrop::stay>;
template <>
struct MergeRule<roster::Consent> : KnownOfChild {};
template <>
struct MergeRule<roster::ConsentOverride> : KnownOfChild {};
template <>
struct MergeRule<roster::MedicalFlag> : KnownOfChild {};
template <>
struct MergeRule<roster::Background> : MergeDoes<OnFold::combine, OnDrop::stay> {};
template <>
struct MergeRule<chairside::Authorization> : KnownOfChild {};
// Calls, referrals and letters were made, whichever visit is kept.
template <>
struct MergeRule<followup::Referral> : KnownOfChild {};
template <>
struct MergeRule<followup::ContactAttempt> : KnownOfChild {};
template <>
struct MergeRule<followup::Letter> : KnownOfChild {};
template <>
struct MergeRule<followup::Incident> : KnownOfChild {};
template <>
struct MergeRule<roster::Addendum> : KnownOfChild {};

// What one laptop wrote of the child's mouth on the day.
using DoneAtVisit = MergeDoes<OnFold::move, OnDrop::retract>;
template <>
struct MergeRule<chairside::PaperSheet> : DoneAtVisit {};
template <>
struct MergeRule<chairside::Seating> : DoneAtVisit {};
template <>
struct MergeRule<chairside::Screening> : DoneAtVisit {};
template <>
struct MergeRule<chairside::Field> : DoneAtVisit {};
template <>
struct MergeRule<chairside::Placement> : DoneAtVisit {};
template <>
struct MergeRule<chairside::AfterCure> : DoneAtVisit {};
template <>
struct MergeRule<chairside::Varnish> : DoneAtVisit {};
template <>
struct MergeRule<chairside::DayOutcome> : DoneAtVisit {};
template <>
struct MergeRule<followup::RetentionCheck> : DoneAtVisit {};

template <>
struct MergeRule<store::SealedIdentity> : MergeDoes<OnFold::retract, OnDrop::stay> {};
template <>
struct MergeRule<roster::CardJoin> : MergeDoes<OnFold::stay, OnDrop::stay> {};
template <>
struct MergeRule<followup::MergeAnswer> : MergeDoes<OnFold::stay, OnDrop::stay> {};

/// Walks a list of types; one about a child without its rule does not compile.
template <class List = store::RecordTypes>
consteval int countOfMerged() {
  int count = 0;
  store::forEachRecord(List{}, [&]<class T>() {
    if constexpr (AboutChild<T>) {
      count += MergeRule<T>::fold == OnFold::move || MergeRule<T>::fold == OnFold::combine ? 1 : 0;
      static_assert(
          MergeRule<T>::drop == OnDrop::stay || requires(T one) { one.day; },
          "what is dropped with a visit is of a day");
    }
  });
  return count;
}
static_assert(countOfMerged() > 0);

} // namespace gk::session
