#include "ui/support/style.h"

#include "ui/support/text.h"

namespace gk::ui::style {

QString sheet() {
  return u"QWidget { background: white; color: #111111; font-size: 20px; }"
         "QPushButton { border: 2px solid #555555; border-radius: 6px; padding: 2px 8px;"
         " text-align: left; background: #ececE6; font-size: 17px; }"
         "QPushButton:disabled { color: #555555; border-style: dashed; background: white; }"
         "QPushButton[look=\"main\"] { background: #0b2545; color: white; font-weight: bold; }"
         "QPushButton[look=\"alarm\"] { border: 4px solid #a82a00; font-weight: bold; }"
         "QPushButton[look]:disabled { color: #555555; border: 2px dashed #555555;"
         " background: white; font-weight: normal; }"
         "QLineEdit { border: 3px solid #0b2545; padding: 4px; font-size: 24px; }"_s;
}

QString banner(const QColor& ground) {
  return u"background: %1; color: white; font-weight: bold; padding: 6px 12px; border: 4px solid "
         "#111111;"_s.arg(ground.name());
}

} // namespace gk::ui::style
