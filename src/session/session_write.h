#pragma once

#include "crypto/derive.h"
#include "crypto/sealed.h"
#include "session/session.h"
#include "store/book.h"
#include "vault/wrapping.h"

#include <functional>
#include <optional>
#include <string>

namespace gk::session {

template <class Work>
auto Door::writeAs(const Admission& may, std::string_view name,
                   std::optional<roster::ChildId> child, Work work)
    -> Result<std::invoke_result_t<Work, store::Act&>> {
  std::optional<std::invoke_result_t<Work, store::Act&>> made;
  auto written = book_.act(
      may.by(), world_.clock.now(), [&](store::Act& act) { made.emplace(work(act)); }, name);
  if (!written) return written.error();
  if (may.usesPin()) keyboard_.use();
  changed_.emit(Change{child});
  return std::move(*made);
}

template <class Work>
auto Door::write(const Admission& may, std::optional<roster::ChildId> child, Work work)
    -> Result<std::invoke_result_t<Work, store::Act&>> {
  return writeAs(may, ruleOf(may.verb()).name, child, std::move(work));
}

/// The one current row that `where` means; `notFound` with `what` when there is none.
template <class T>
Result<Recorded<T>> Reader::only(const store::Where& where, std::string_view what) {
  auto rows = book_.current<T>(where);
  if (!rows) return rows.error();
  if (rows->empty()) return base::Error{base::ErrorCode::notFound, "no such " + std::string(what)};
  return std::move(rows->back());
}

/// A child's newest sealed name that does not open: how it came, and what to do. No name.
struct UnreadableName {
  base::Stamp stamp;
  std::string how;
  std::string doNow;
};
/// None where the newest opens, or there is none. `opens` tells of one box.
Result<std::optional<UnreadableName>>
unreadableName(store::Book& book, roster::ChildId child,
               const std::function<bool(const crypto::Sealed&)>& opens);

/// As `lots` has it: with what its twins say. `notFound` when there is none.
Result<Recorded<kit::Lot>> lotWithTwins(Reader& book, kit::LotId id);

template <class T>
Result<Recorded<T>> Door::asItStands(const Recorded<T>& old) {
  auto rows = book_.current<T>(store::rowsOf("e.id", old.stamp.entry));
  if (!rows) return rows.error();
  if (rows->empty() || rows->front().value != old.value || rows->front().id != old.id)
    return base::Error{base::ErrorCode::recordChanged,
                       "this was corrected or undone since; review the current entry"};
  return std::move(rows->front());
}

template <class... Kinds>
Result<bool> Door::isAny(const store::Where& where) {
  bool found = false;
  std::optional<base::Error> failure;
  const auto look = [&]<class T>() {
    if (found || failure) return;
    auto rows = book_.current<T>(where);
    if (rows)
      found = !rows->empty();
    else
      failure = rows.error();
  };
  (look.template operator()<Kinds>(), ...);
  if (failure) return *failure;
  return found;
}

inline crypto::KdfCost costOf(BookKind kind) {
  return kind == BookKind::real ? crypto::KdfCost::interactive() : crypto::KdfCost::cheapest();
}

inline vault::WrappedKey wrappedOf(const store::KeyRow& row) {
  return {row.salt, row.passes, row.memoryBytes, row.nonce, row.box};
}

inline store::KeyRow keyRowOf(const vault::WrappedKey& wrapped, const base::Uuid& name = {}) {
  return {wrapped.salt, wrapped.opsLimit, wrapped.memoryBytes, wrapped.nonce, wrapped.box, name};
}

/// The consent that a field's teeth ask for.
inline roster::Service serviceFor(kit::MaterialKind material) {
  return material == kit::MaterialKind::glassIonomer ? roster::Service::interimMaterial
                                                     : roster::Service::sealants;
}

/// `value` takes the place of all of `rows`, such as what each of two laptops had; the first of
/// them when there is none. The rows stay in the history.
template <class T>
base::Done replaceAll(store::Act& act, std::vector<Recorded<T>> rows, const T& value,
                      const std::string& reason) {
  if (rows.empty()) {
    act.add(value);
    return {};
  }
  act.correct(rows.back(), value, reason);
  rows.pop_back();
  for (const auto& row : rows)
    act.retract(row.stamp.entry, "entered together");
  return {};
}

/// The forms say from now on that the consent was withdrawn, and how.
inline void withdrawForms(store::Act& act, const std::vector<Recorded<roster::Consent>>& forms,
                          const std::string& how) {
  for (const auto& form : forms) {
    auto withdrawn = form.value;
    withdrawn.state = roster::ConsentState::withdrawn;
    withdrawn.note = how;
    act.correct(form, withdrawn, "withdrawn");
  }
}

} // namespace gk::session
