#pragma once

namespace gk::reports {

/// Shown where there is no number, so that no blank passes for a zero.
inline constexpr const char* nothing = "–";

/// A share of fewer than these is marked unstable.
inline constexpr int fewest = 30;

} // namespace gk::reports
