#pragma once

#include <QFontMetricsF>
#include <QPainter>
#include <QString>

namespace gk::ui {

/// Digits each in a place as wide as a zero, so that numbers below each other stand in columns and
/// none moves as another changes. The fonts' own such digits are out of reach before Qt 6.7.
double evenWidth(const QString& text, const QFontMetricsF& letters);

/// One line, in the painter's font and pen.
void drawEven(QPainter& painter, const QRectF& box, Qt::Alignment how, const QString& text);

/// Whether this is a number, a range, a date or a time: digits and signs without words.
bool isFigure(const QString& text);

} // namespace gk::ui
