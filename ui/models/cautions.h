#pragma once

#include <QStringList>

namespace gk::ui {

/// The cautions that the program shows on first use and at F1, each one sentence or two.
QStringList cautions();
/// How every card of them ends.
QString cautionsEnd();

} // namespace gk::ui
