#pragma once

#include <QColor>
#include <QString>

/// Colours that stay apart for colour-blind eyes and through an orange filter, on white. A colour
/// never says anything alone: a word or a shape says it too.
namespace gk::ui::style {

inline const QColor ink{0x11, 0x11, 0x11};
inline const QColor paper{0xff, 0xff, 0xff};
inline const QColor shade{0xec, 0xec, 0xe6};
inline const QColor navy{0x0b, 0x25, 0x45};
inline const QColor orange{0xe6, 0x9f, 0x00};
inline const QColor green{0x00, 0x5a, 0x43};
inline const QColor vermilion{0xa8, 0x2a, 0x00};
inline const QColor line{0x55, 0x55, 0x55};

/// Sizes in pixels, for reading at 80 to 120 cm.
inline constexpr int bodyText = 20;
inline constexpr int toothText = 24;
inline constexpr int headerText = 32;
inline constexpr int timerText = 112;
/// 15 mm at 96 dots an inch: a target for a gloved finger.
inline constexpr int touch = 57;

/// For a whole page.
QString sheet();
/// For a label that must be seen: white words on a dark ground.
QString banner(const QColor& ground);

} // namespace gk::ui::style
