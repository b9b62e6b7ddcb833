#pragma once

#include "ui/drafts/tile_face.h"

#include <QRectF>

class QPainter;

namespace gk::ui {

/// The outline of a tile, which already tells most marks apart.
void paintOutline(QPainter& painter, const QRectF& tile, const TileFace& face);

/// The mark of the tooth in the square of its chewing surface, as big as the square.
void paintSymbol(QPainter& painter, const QRectF& square, Mark mark, bool isCovered = false);

/// Four bold corners about what the cursor stands on.
void paintCorners(QPainter& painter, const QRectF& box);

} // namespace gk::ui
