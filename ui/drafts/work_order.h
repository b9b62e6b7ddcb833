#pragma once

#include "base/enum_names.h"

namespace gk::ui {

/// How teeth are grouped to be kept dry together, and in which order the groups come.
enum class WorkOrder { halves, arches, quadrants, singleTeeth };

} // namespace gk::ui

template <>
inline constexpr auto gk::base::enumNames<gk::ui::WorkOrder> =
    std::to_array<std::string_view>({"halves", "upper then lower", "quadrants", "single teeth"});

template <>
inline constexpr auto gk::base::displayNames<gk::ui::WorkOrder> = std::to_array<std::string_view>(
    {"right side, then left", "upper, then lower", "quadrants", "single teeth"});
