#include "ui/lists/plot_view.h"

#include "ui/fixtures/desk_fixture.h"
#include "ui/look/look.h"
#include "ui/look/style.h"

#include <QImage>

using namespace gk;
using namespace gk::test;
using ui::Scheme;

TEST_CASE("A report's picture is in the look that is worn, also when another is put on") {
  ui::dress();
  ui::PlotView view;
  view.resize(640, 300);
  const reports::Plot plot{"Two points.",
                           {"Teeth", 0, 100},
                           {"%", 0, 100},
                           {{"", reports::PlotMark::dots, {{20, 60}, {80, 90}}}}};
  view.show(plot);
  for (const auto scheme : {Scheme::light, Scheme::dark, Scheme::highContrast}) {
    ui::dress({scheme, 100});
    QCoreApplication::processEvents();
    const auto picture = view.grab().toImage();
    const auto& worn = ui::style::colors(scheme);
    CHECK(picture.pixelColor(picture.width() - 1, 0) == worn.card);
    int points = 0;
    for (int y = 0; y < picture.height(); ++y)
      for (int x = 0; x < picture.width(); ++x)
        if (picture.pixelColor(x, y) == worn.chart) ++points;
    CHECK(points > 20);
  }
  ui::dress();
}
