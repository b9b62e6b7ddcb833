#pragma once

#include "session/session.h"

namespace gk::session {

template <class Work>
auto Session::write(By by, std::optional<roster::ChildId> child, Work work)
    -> Result<std::invoke_result_t<Work, store::Act&>> {
  std::optional<std::invoke_result_t<Work, store::Act&>> made;
  auto written = book_.act(by, world_.clock.now(), world_.random,
                           [&](store::Act& act) { made.emplace(work(act)); });
  if (!written) return written.error();
  changed_.emit(Change{child});
  return std::move(*made);
}

/// The one current row that `where` means; `notFound` with `what` when there is none.
template <class T>
Result<Recorded<T>> Reader::only(const store::Where& where, std::string_view what) {
  auto rows = book_.current<T>(where);
  if (!rows) return rows.error();
  if (rows->empty()) return base::Error{base::ErrorCode::notFound, "no such " + std::string(what)};
  return std::move(rows->back());
}

} // namespace gk::session
