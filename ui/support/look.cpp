#include "ui/support/look.h"

#include "ui/support/style.h"
#include "ui/support/text.h"

#include <QApplication>
#include <QFont>
#include <QPalette>
#include <QStyleFactory>

namespace gk::ui {

void dress() {
  QApplication::setStyle(QStyleFactory::create(u"Fusion"_s));
  QPalette light;
  for (const auto role :
       {QPalette::Window, QPalette::Base, QPalette::Button, QPalette::ToolTipBase})
    light.setColor(role, style::paper);
  light.setColor(QPalette::AlternateBase, style::shade);
  for (const auto role :
       {QPalette::WindowText, QPalette::Text, QPalette::ButtonText, QPalette::ToolTipText})
    light.setColor(role, style::ink);
  light.setColor(QPalette::PlaceholderText, style::line);
  light.setColor(QPalette::Highlight, style::navy);
  light.setColor(QPalette::HighlightedText, style::paper);
  for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
    light.setColor(QPalette::Disabled, role, style::line);
  QApplication::setPalette(light);
  auto font = QApplication::font();
  font.setPixelSize(16);
  QApplication::setFont(font);
}

QString deskSheet() {
  return u"QWidget { background: white; color: #111111; font-size: 16px; }"
         "QLabel[look=\"title\"] { font-size: 22px; font-weight: bold; }"
         "QLabel[look=\"counts\"] { font-size: 20px; font-weight: bold; }"
         "QLabel[look=\"note\"] { font-size: 15px; }"
         "QPushButton { border: 2px solid #555555; border-radius: 5px; padding: 5px 9px;"
         " background: #ececE6; }"
         "QPushButton:disabled { color: #555555; border-style: dashed; background: white; }"
         "QPushButton:checked { background: #0b2545; color: white; border-color: #0b2545; }"
         "QPushButton:focus { border: 3px solid #a82a00; padding: 4px 8px; }"
         "QLineEdit, QComboBox, QSpinBox { border: 2px solid #555555; border-radius: 3px;"
         " padding: 4px; min-height: 24px; }"
         "QLineEdit:focus, QComboBox:focus, QSpinBox:focus, QTableView:focus, QListWidget:focus {"
         " border: 3px solid #a82a00; }"
         "QLineEdit:focus, QComboBox:focus, QSpinBox:focus { padding: 3px; }"
         "QLineEdit:disabled { background: #ececE6; }"
         "QCheckBox:focus { background: #ececE6; text-decoration: underline; }"
         "QTableView, QListWidget { border: 2px solid #555555; gridline-color: #999999; }"
         "QTableView::item:selected, QListWidget::item:selected {"
         " background: #0b2545; color: white; }"
         "QListWidget::item { padding: 7px 6px; }"
         "QHeaderView::section { background: #ececE6; color: #111111; padding: 4px;"
         " border: 1px solid #555555; font-size: 15px; font-weight: bold; }"_s;
}

} // namespace gk::ui
