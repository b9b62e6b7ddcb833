#pragma once

#include "telling/story.h"

namespace gk::demo {

/// Cobble Lantern's line of fall 2026 without what the named children add to it.
SchoolTerm withoutNamed(SchoolTerm term);

/// In 2025, as a second grader.
session::NewChild wrenIn2025(Story& story);
/// In 2026, with their forms. A birth year typed wrong is refused on the way.
NamedChildren enrollNamed(Story& story, roster::ChildId wren, base::Date received);

} // namespace gk::demo
