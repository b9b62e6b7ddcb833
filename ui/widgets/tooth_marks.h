#pragma once

#include "ui/models/tile_face.h"

#include <QRectF>

class QPainter;

namespace gk::ui {

/// The outline of a tile, which already tells most marks apart.
void paintOutline(QPainter& painter, const QRectF& tile, Mark mark);

/// The square of the chewing surface with a tab on the cheek side (buccal) or the tongue side
/// (lingual): chosen surfaces have a thick edge, covered ones are filled, and the mark lies over
/// it. On upper teeth the cheek side is up, on lower teeth down.
void paintSurfaces(QPainter& painter, const QRectF& area, const TileFace& face);

} // namespace gk::ui
