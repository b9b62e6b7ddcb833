#pragma once

#include "layout/checker.h"

#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace gk::layout {

/// The modules by floors, as a Mermaid flowchart: a module stands one floor above the highest that
/// it uses. An arrow that follows from two others is left out. Precondition: no circle.
std::string drawingOf(const Uses& uses);

/// The page with what stands between its two markers exchanged for this; nothing where a marker is
/// missing.
std::optional<std::string> withDrawing(std::string_view page, std::string_view drawing);

/// Modules without a line of their own, which begins with "| `name` |", and such lines of none.
Findings checkModuleLines(std::string_view page, const Uses& uses);

/// A file's text by its path from the top; nothing for one that is not there.
using TextOf = std::function<std::optional<std::string>(const std::string& path)>;

/// Relative links of a page in docs that lead to no file.
Findings checkLinks(std::string_view page, const TextOf& textOf);

/// In every numbered step of a page what stands in backticks is a file of the repository, or a name
/// that occurs in a file that the same step names. A command, which has a space, is not looked at.
Findings checkSteps(std::string_view page, const TextOf& textOf);

} // namespace gk::layout
