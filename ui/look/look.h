#pragma once

#include "base/enum_names.h"

namespace gk::ui {

/// Light by default: bright rooms ask for it.
enum class Scheme { light, dark, highContrast };

/// How the program looks: its colors, and its letters in percent of their usual size.
struct Look {
  Scheme scheme = Scheme::light;
  int percent = 100;
  bool operator==(const Look&) const = default;
};

/// Dresses every window that there is and every one to come, on any desktop, also where the
/// desktop's own colors are others; may be called again at any time. A percent under 100 counts
/// as 100 and one over 200 as 200. Precondition: there is a QApplication, which keeps the look.
void dress(const Look& look = {});

/// As last dressed.
Look lookNow();

} // namespace gk::ui

template <>
inline constexpr auto gk::base::enumNames<gk::ui::Scheme> =
    std::to_array<std::string_view>({"light", "dark", "high contrast"});

template <>
inline constexpr auto gk::base::displayNames<gk::ui::Scheme> =
    std::to_array<std::string_view>({"light", "dark", "high contrast"});
