#pragma once

#include <QStringList>

namespace gk::ui {

/// The ways to say a tile's word, the whole first and each shorter than the one before: letters
/// under 18 px are not read at arm's length, so that in a narrow tile the words give way.
QStringList waysToSay(const QString& word);

/// The same of the line below it, whose parts stand between commas, the first of them first.
QStringList waysToSayStrip(const QString& strip);

} // namespace gk::ui
