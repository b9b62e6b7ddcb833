#pragma once

#include "support/clinic.h"

#include <algorithm>
#include <cctype>

namespace gk::test {

/// The number of entries that a merge asked about: "..., 57 entries, ...".
inline std::int64_t entriesAsked(const base::Error& asked) {
  const auto end = asked.detail.find(" entr");
  REQUIRE(end != std::string::npos);
  auto begin = end;
  while (begin > 0 && std::isdigit(static_cast<unsigned char>(asked.detail[begin - 1])) != 0)
    --begin;
  return std::stoll(asked.detail.substr(begin, end - begin));
}

inline std::string memberName(session::Session& book, base::MemberId who) {
  for (const auto& member : must(book.members()))
    if (member.id == who) return member.value.name;
  return {};
}

/// Merges and says yes to whatever is asked; with `merger` it leaves a note of that.
inline base::Result<store::Merged> absorbAll(session::Session& into, base::By by,
                                             const base::Path& other,
                                             const std::optional<base::By>& merger = {}) {
  session::Agreed agreed{.copies = true, .by = merger};
  auto merged = into.absorb(other, agreed);
  if (merged || merged.error().code != base::ErrorCode::storeErases) return merged;
  agreed.erasures = session::ErasureYes{by, entriesAsked(merged.error())};
  return into.absorb(other, agreed);
}

} // namespace gk::test
