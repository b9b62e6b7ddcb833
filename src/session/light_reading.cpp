#include "session/light_reading.h"

#include "kit/twins.h"
#include "session/reader.h"

#include <algorithm>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using base::Result;

Result<bool> readsRed(Reader& book, kit::LightId light, base::Date on) {
  const auto all = book.lights();
  if (!all) return all.error();
  const auto found = std::ranges::find(*all, light, &Recorded<kit::Light>::id);
  if (found == all->end()) return Error{ErrorCode::notFound, "no such light"};
  for (const auto& row : *all) {
    if (!kit::areTwins(row.value, found->value)) continue;
    const auto read = book.readings(row.id);
    if (!read) return read.error();
    if (kit::gradeOn(row.value, *read, on) == kit::LightGrade::red) return true;
  }
  return false;
}

} // namespace gk::session
