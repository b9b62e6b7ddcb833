#pragma once

#include <QString>

#include <utility>
#include <vector>

class QWidget;

namespace gk::ui {

/// Keys that a widget reads by itself and no button or shortcut shows, for the list of the keys of
/// the page: "Enter" and what it does.
using ToldKeys = std::vector<std::pair<QString, QString>>;

void tellKeys(QWidget& widget, const ToldKeys& keys);
ToldKeys keysTold(const QWidget& widget);

} // namespace gk::ui
