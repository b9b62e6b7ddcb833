#pragma once

#include "chairside/authorization.h"
#include "kit/light.h"
#include "kit/material.h"
#include "roster/consent/consent.h"
#include "roster/keys/keys.h"
#include "roster/team/team.h"

#include <algorithm>
#include <tuple>

namespace gk::store {

/// How careful a word is, of several that two laptops said of one thing while apart: of the most
/// careful no question is asked. 0 where none of them guards anybody.
template <class T>
int caution(const T&) {
  return 0;
}
inline int caution(const kit::Lot& lot) {
  return lot.quarantined ? 1 : 0;
}
inline int caution(const kit::Light& light) {
  return light.inService ? 0 : 1;
}
inline int caution(const roster::PersonalKey& key) {
  return key.revoked ? 1 : 0;
}
inline int caution(const roster::RecoveryCode& code) {
  return code.withdrawn ? 1 : 0;
}
inline int caution(const chairside::Authorization& word) {
  return word.withdrawn ? 1 : 0;
}
inline int caution(const roster::MedicalFlag& flag) {
  if (flag.resolved) return 0;
  return flag.action == roster::FlagAction::stop ? 2 : 1;
}
/// What a family decided is not undone by another laptop's correction of a room.
inline int caution(const roster::Child& child) {
  return child.left && child.left->why == roster::LeftBecause::withdrawn ? 1 : 0;
}
/// Who left the team has not come back because another laptop renewed a license.
inline int caution(const roster::Member& member) {
  return member.may.isEmpty() ? 1 : 0;
}
inline int caution(const roster::Consent& form) {
  switch (form.state) {
  case roster::ConsentState::yes:
  case roster::ConsentState::yesWithLimits:
    return 0; // allowOnlyWhat has the limits of each
  case roster::ConsentState::no:
  case roster::ConsentState::notReturned:
  case roster::ConsentState::incomplete:
  case roster::ConsentState::onHold:
    return 2;
  case roster::ConsentState::withdrawn:
    return 3;
  }
  base::fail("no such state of a form");
}

/// Whether what one laptop took back and another corrected is out until a person says which is
/// kept: so is what lets a child be treated. Of all else the corrected word counts meanwhile, an
/// allergy's above all.
template <class T>
inline constexpr bool isOutMeanwhile = false;
template <>
inline constexpr bool isOutMeanwhile<roster::Consent> = true;
template <>
inline constexpr bool isOutMeanwhile<chairside::Authorization> = true;

/// Whether of equally careful words the one that counts meanwhile allows only what each of them
/// does.
template <class T>
inline constexpr bool isNarrowedMeanwhile = false;
template <>
inline constexpr bool isNarrowedMeanwhile<roster::Member> = true;
template <>
inline constexpr bool isNarrowedMeanwhile<roster::Consent> = true;

template <class E>
base::EnumSet<E> inBoth(base::EnumSet<E> one, base::EnumSet<E> other) {
  return one.without(one.without(other));
}

/// Narrows the word that counts by one of the others.
template <class T>
void allowOnlyWhat(const T&, T&) {
  static_assert(!isNarrowedMeanwhile<T>, "say how it is narrowed");
}
inline void allowOnlyWhat(const roster::Member& other, roster::Member& counting) {
  counting.may = inBoth(counting.may, other.may);
}
inline void allowOnlyWhat(const roster::Consent& other, roster::Consent& counting) {
  using roster::ConsentState;
  if (caution(counting) > 0) return; // a refusal lasts as long as it says
  if (other.state == ConsentState::yesWithLimits) {
    if (counting.state == ConsentState::yesWithLimits && counting.note != other.note &&
        !other.note.empty())
      counting.note += (counting.note.empty() ? "" : "; ") + other.note;
    if (counting.state == ConsentState::yes) {
      counting.state = ConsentState::yesWithLimits;
      counting.note = other.note;
    }
  }
  counting.allowed = inBoth(counting.allowed, other.allowed);
  if (other.validFrom && counting.validFrom < other.validFrom) counting.validFrom = other.validFrom;
  if (other.validUntil && (!counting.validUntil || *other.validUntil < *counting.validUntil))
    counting.validUntil = other.validUntil;
}

/// Leaves the most careful words: only between those is there anything to ask.
template <class T>
void keepMostCareful(std::vector<base::Recorded<T>>& words) {
  int most = 0;
  for (const auto& one : words)
    most = std::max(most, caution(one.value));
  std::erase_if(words, [&](const auto& one) { return caution(one.value) < most; });
}

/// Whether `one` counts before `other`: the more careful, else the later, else the one with the
/// greater identity, so that every laptop says the same.
template <class T>
bool outranks(const base::Recorded<T>& one, const base::Recorded<T>& other) {
  const auto rank = [](const base::Recorded<T>& row) {
    return std::tuple(caution(row.value), row.stamp.at.at, row.stamp.entry);
  };
  return rank(one) > rank(other);
}

} // namespace gk::store
