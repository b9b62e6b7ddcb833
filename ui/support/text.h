#pragma once

#include "base/text/text.h"

#include <QString>

#include <string>
#include <string_view>

namespace gk::ui {

using namespace Qt::Literals::StringLiterals;

/// The core's text is UTF-8 on every machine, whatever the locale.
inline QString toQt(std::string_view utf8) {
  return QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size()));
}

inline std::string toStd(const QString& text) {
  return text.toUtf8().toStdString();
}

/// "1 letter", "4 letters".
inline QString counted(qsizetype count, std::string_view one, std::string_view many) {
  return toQt(base::counted(count, one, many));
}

/// "upper right" -> "Upper right".
inline QString capital(const QString& text) {
  return text.left(1).toUpper() + text.mid(1);
}

} // namespace gk::ui
