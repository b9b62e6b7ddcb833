#include "session/desk/siblings.h"

#include "base/text/text.h"
#include "roster/child/digits.h"

#include <algorithm>

namespace gk::session {

namespace {

bool isReachedAt(const Guardian& guardian, const NewPhone& phone) {
  const auto digits = roster::digitsIn(phone.from);
  return !digits.empty() && roster::digitsIn(guardian.phone) == digits &&
         base::folded(guardian.name) == base::folded(phone.guardian);
}

} // namespace

std::vector<NewPhone> newPhones(const Identity& before, const Identity& after) {
  std::vector<NewPhone> phones;
  for (const auto& old : before.guardians) {
    if (old.name.empty() || roster::digitsIn(old.phone).empty()) continue;
    const auto now = std::ranges::find_if(after.guardians, [&](const Guardian& one) {
      return base::folded(one.name) == base::folded(old.name);
    });
    if (now == after.guardians.end() || now->phone.empty()) continue;
    if (roster::digitsIn(now->phone) != roster::digitsIn(old.phone))
      phones.push_back({old.name, old.phone, now->phone});
  }
  return phones;
}

Result<std::vector<KnownChild>> alsoReachedAt(Session& session, roster::ChildId but,
                                              std::span<const NewPhone> phones) {
  std::vector<KnownChild> found;
  if (phones.empty()) return found;
  const auto schools = session.schools();
  if (!schools) return schools.error();
  for (const auto& school : *schools) {
    auto known = session.known({.school = school.id});
    if (!known) return known.error();
    for (auto& child : *known) {
      const bool isOne = std::ranges::any_of(child.identity.guardians, [&](const Guardian& one) {
        return std::ranges::any_of(phones,
                                   [&](const NewPhone& phone) { return isReachedAt(one, phone); });
      });
      if (isOne && child.card.id != but) found.push_back(std::move(child));
    }
  }
  return found;
}

Result<base::Done> correctPhone(Session& session, By by, const KnownChild& child,
                                std::span<const NewPhone> phones, const std::string& reason) {
  auto identity = child.identity;
  for (auto& guardian : identity.guardians)
    for (const auto& phone : phones)
      if (isReachedAt(guardian, phone)) {
        guardian.phone = phone.to;
        break;
      }
  // What was asked of birth date and name when the student was entered does not change.
  return session.correctStudent(by, child.card.id, {std::move(identity), child.card.value.sex},
                                reason, Confirmed::yes, Confirmed::yes);
}

} // namespace gk::session
