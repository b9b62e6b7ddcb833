#pragma once

#include "base/error.h"

#include <QString>

namespace gk::ui {

/// What a person is told when something fails: three answers, in this order.
struct Message {
  QString happened;
  QString lost;           ///< is anything lost
  QString now;            ///< what to do
  QString detail{};       ///< the core's own sentence
  bool bookMoved = false; ///< the open file is gone: what it holds must be saved elsewhere

  bool operator==(const Message&) const = default;
};

Message describe(const base::Error& error);

/// The four parts as one paragraph.
QString inOneLine(const Message& message);

} // namespace gk::ui
