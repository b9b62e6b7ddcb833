#pragma once

#include "ui/asking/habits.h"

class QKeyEvent;

namespace gk::ui {

/// The key as the chair reads it, whatever layout the computer is set to. Letters go by what is
/// printed on the cap, since the screen prints the same letter. Digits go by the place of the cap:
/// where the row above the letters gives signs unless shifted (French), and where the number pad's
/// lock is off, the digit is printed on the cap all the same. Keys with Ctrl, Alt or Meta are left
/// alone.
int chairKey(const QKeyEvent& event);

/// The same event with that key.
QKeyEvent asChairReads(const QKeyEvent& event);

/// Whether this is what the pedal was taught to be.
bool isPedal(const std::optional<TaughtKey>& pedal, const QKeyEvent& event);

/// Whether the chair, or the window, already does something else at this key, so that no pedal may
/// have it. Space is free: the pedal stands for it.
bool meansSomething(int key);

} // namespace gk::ui
