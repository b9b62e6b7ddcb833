#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>

#include "support/verdicts.h"
#include "ui/look/look.h"

#include <QApplication>

// Widgets need an application, and no test needs a screen.
int main(int argc, char** argv) {
  if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
  const QApplication application(argc, argv);
  gk::ui::dress();
  return Catch::Session().run(argc, argv);
}
