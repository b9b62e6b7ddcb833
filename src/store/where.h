#pragma once

#include "base/id.h"

#include <optional>
#include <string_view>

namespace gk::store {

/// Which rows of a record's table are meant. `column` is one of its own columns, or `e.subject`.
struct Where {
  std::string_view column{};
  std::optional<base::Uuid> id{};
  std::string_view andColumn{};
  std::optional<base::Uuid> andId{};
};

inline Where everything() {
  return {};
}

template <class Tag>
Where subjectIs(base::Id<Tag> id) {
  return {"e.subject", id.uuid(), {}, {}};
}

template <class Tag>
Where rowsOf(std::string_view column, base::Id<Tag> id) {
  return {column, id.uuid(), {}, {}};
}

template <class Tag, class OtherTag>
Where rowsOf(std::string_view column, base::Id<Tag> id, std::string_view andColumn,
             base::Id<OtherTag> andId) {
  return {column, id.uuid(), andColumn, andId.uuid()};
}

} // namespace gk::store
