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
         "QLabel[look=\"big\"] { font-size: 20px; }"
         "QLabel[look=\"note\"], QTextEdit { font-size: 15px; border: none; }"
         "QPushButton { border: 2px solid #555555; border-radius: 5px; padding: 4px 6px;"
         " background: #ececE6; }"
         "QPushButton:disabled { color: #555555; border-style: dashed; background: white; }"
         "QPushButton:checked { background: #0b2545; color: white; border-color: #0b2545; }"
         "QPushButton:focus { border: 3px solid #a82a00; padding: 3px 5px; }"
         "QLineEdit, QComboBox, QSpinBox { border: 2px solid #555555; border-radius: 3px;"
         " padding: 4px; min-height: 24px; }"
         "QLineEdit:focus, QComboBox:focus, QSpinBox:focus, QTableView:focus, QListWidget:focus {"
         " border: 3px solid #a82a00; }"
         "QLineEdit:focus, QComboBox:focus, QSpinBox:focus { padding: 3px; }"
         "QLineEdit:disabled { background: #ececE6; }"
         "QCheckBox::indicator { width: 18px; height: 18px; border: 2px solid #555555; }"
         "QCheckBox::indicator:checked { background: #0b2545; border-color: #0b2545; }"
         "QCheckBox:focus { background: #ececE6; text-decoration: underline; }"
         "QTableView, QListWidget { border: 2px solid #555555; gridline-color: #999999; }"
         "QTableView::item:selected, QListWidget::item:selected {"
         " background: #0b2545; color: white; }"
         "QTableView { font-size: 15px; }"
         "QListWidget { padding: 2px; }"
         "QListWidget::item { padding: 7px 6px; background: white; }"
         "QHeaderView::section { background: #ececE6; color: #111111; padding: 3px;"
         " border: 1px solid #555555; font-size: 14px; font-weight: bold; }"_s;
}

} // namespace gk::ui
