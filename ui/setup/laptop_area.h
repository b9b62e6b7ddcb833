#pragma once

#include "ui/forms/area.h"

class QObject;

namespace gk::ui {

/// Where long work says what came of it.
struct Telling {
  QObject* owner;
  std::function<void(const Result<QString>&)> tell;
};

/// A closed year is archived.
AreaForm archivingYear(Context& context, const Telling& telling);

} // namespace gk::ui
