#include "ui/asking/pedal.h"

#include <QKeyEvent>

#include <algorithm>
#include <array>

namespace gk::ui {

namespace {

/// Places of the row 1 to 9, 0 above the letters, as X11 and Wayland number them (evdev's KEY_1 to
/// KEY_0 plus 8).
constexpr unsigned firstOfRow = 10;
constexpr unsigned lastOfRow = 19;

/// The same row of the French layout without Shift, 1 to 9, 0: for events that carry no place.
constexpr std::array<int, 10> frenchRow{
    Qt::Key_Ampersand, Qt::Key_Eacute, Qt::Key_QuoteDbl,   Qt::Key_Apostrophe, Qt::Key_ParenLeft,
    Qt::Key_Minus,     Qt::Key_Egrave, Qt::Key_Underscore, Qt::Key_Ccedilla,   Qt::Key_Agrave};

/// The number pad without its lock: the caps 0 to 9.
constexpr std::array<int, 10> padCaps{
    Qt::Key_Insert, Qt::Key_End,   Qt::Key_Down, Qt::Key_PageDown, Qt::Key_Left,
    Qt::Key_Clear,  Qt::Key_Right, Qt::Key_Home, Qt::Key_Up,       Qt::Key_PageUp};

int digit(std::size_t value) {
  return Qt::Key_0 + static_cast<int>(value);
}

} // namespace

int chairKey(const QKeyEvent& event) {
  const auto held = event.modifiers();
  if (held & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier)) return event.key();
  if (held & Qt::KeypadModifier) {
    const auto cap = std::ranges::find(padCaps, event.key());
    return cap == padCaps.end() ? event.key()
                                : digit(static_cast<std::size_t>(cap - padCaps.begin()));
  }
  const auto place = event.nativeScanCode();
  if (place >= firstOfRow && place <= lastOfRow) return digit((place - firstOfRow + 1) % 10);
  if (place != 0) return event.key();
  const auto sign = std::ranges::find(frenchRow, event.key());
  return sign == frenchRow.end()
             ? event.key()
             : digit(static_cast<std::size_t>(sign - frenchRow.begin() + 1) % 10);
}

QKeyEvent asChairReads(const QKeyEvent& event) {
  return {event.type(), chairKey(event), event.modifiers(), event.text(), event.isAutoRepeat()};
}

bool isPedal(const std::optional<TaughtKey>& pedal, const QKeyEvent& event) {
  if (!pedal) return false;
  const bool isNamed = pedal->key != 0 && pedal->key != Qt::Key_unknown;
  return isNamed ? event.key() == pedal->key
                 : pedal->scanCode != 0 && event.nativeScanCode() == pedal->scanCode;
}

bool meansSomething(int key) {
  const bool isLetterOrDigit =
      (key >= Qt::Key_0 && key <= Qt::Key_9) || (key >= Qt::Key_A && key <= Qt::Key_Z);
  const bool isPage = key >= Qt::Key_F1 && key <= Qt::Key_F12;
  // Signs of a row that is read by its places are digits there.
  const bool isSign = std::ranges::find(frenchRow, key) != frenchRow.end();
  constexpr std::array others{Qt::Key_Delete,   Qt::Key_Backspace, Qt::Key_Return,   Qt::Key_Enter,
                              Qt::Key_Escape,   Qt::Key_Tab,       Qt::Key_Backtab,  Qt::Key_Left,
                              Qt::Key_Right,    Qt::Key_Up,        Qt::Key_Down,     Qt::Key_Home,
                              Qt::Key_End,      Qt::Key_PageUp,    Qt::Key_PageDown, Qt::Key_Shift,
                              Qt::Key_Control,  Qt::Key_Alt,       Qt::Key_AltGr,    Qt::Key_Meta,
                              Qt::Key_CapsLock, Qt::Key_NumLock};
  return isLetterOrDigit || isPage || isSign ||
         std::ranges::find(others, static_cast<Qt::Key>(key)) != others.end();
}

} // namespace gk::ui
