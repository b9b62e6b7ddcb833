#pragma once

#include "base/enum_names.h"

#include <QLocale>
#include <QPageLayout>
#include <QSizeF>

namespace gk::ui {

/// What this laptop prints on.
enum class PaperSize { letter, a4 };

/// An upright sheet of it, in points.
QSizeF sizeOf(PaperSize paper);

/// The whole sheet, without margins of the device's own.
QPageLayout pageOf(PaperSize paper, QPageLayout::Orientation orientation = QPageLayout::Portrait);

/// What is sold where the locale is; Letter where it names no country.
PaperSize usualPaper(const QLocale& locale = QLocale());

} // namespace gk::ui

template <>
inline constexpr auto
    gk::base::enumNames<gk::ui::PaperSize> = std::to_array<std::string_view>({"letter", "A4"});

template <>
inline constexpr auto
    gk::base::displayNames<gk::ui::PaperSize> = std::to_array<std::string_view>({"letter", "A4"});
