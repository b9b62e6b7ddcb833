#include "ui/support/sheet.h"

#include "ui/support/style.h"
#include "ui/support/text.h"

#include <QRegularExpression>

namespace gk::ui {

namespace {

// @name is a colour of style.h; ~n are pixels that grow with the letters, ^n
// those that grow half as fast: big from the start, and they must leave room for the teeth.
QString deskPart() {
  return u"QWidget { background: @paper; color: @ink; font-size: ~16px; }"
         "QLabel[look=\"title\"] { font-size: ~22px; font-weight: bold; }"
         "QLabel[look=\"counts\"] { font-size: ~20px; font-weight: bold; }"
         "QLabel[look=\"big\"] { font-size: ~20px; }"
         "QLabel[look=\"note\"], QTextEdit { font-size: ~15px; border: none; }"
         "QLabel[look=\"field\"] { font-weight: bold; }"
         "QLabel[look=\"wrong\"] { font-size: ~15px; font-weight: bold; color: @alarm; }"
         "QPushButton[look=\"main\"] { background: @strong; color: @onStrong; font-weight: bold;"
         " border-color: @strong; padding: ~6px ~14px; }"
         "QLineEdit[wrong=\"true\"], QComboBox[wrong=\"true\"] { border: 4px solid @alarm; }"
         "QLabel[look=\"numerals\"] { font-size: 112px; font-weight: bold; }"
         "QPushButton { border: 2px solid @edge; border-radius: 5px; padding: ~4px ~6px;"
         " background: @shade; }"
         "QPushButton:disabled { color: @edge; border-style: dashed; background: @paper; }"
         "QPushButton:checked { background: @strong; color: @onStrong; border-color: @strong; }"
         "QPushButton:focus { border: 3px solid @alarm; }"
         "QLineEdit, QComboBox, QSpinBox, QPlainTextEdit { border: 2px solid @edge;"
         " border-radius: 3px; padding: ~4px; min-height: ~24px; }"
         "QLineEdit:focus, QComboBox:focus, QSpinBox:focus, QPlainTextEdit:focus,"
         " QTableView:focus, QListWidget:focus { border: 3px solid @alarm; }"
         "QLineEdit:disabled, QComboBox:disabled, QSpinBox:disabled { background: @shade;"
         " border-style: dashed; }"
         "QComboBox QAbstractItemView { border: 2px solid @edge;"
         " selection-background-color: @strong; selection-color: @onStrong; }"
         "QCheckBox::indicator { width: ~18px; height: ~18px; border: 2px solid @edge; }"
         "QCheckBox::indicator:checked { background: @strong; border-color: @strong; }"
         "QCheckBox:focus { background: @shade; text-decoration: underline; }"
         "QTableView, QListWidget { border: 2px solid @edge; gridline-color: @edge; }"
         "QTableView::item:selected, QListWidget::item:selected {"
         " background: @strong; color: @onStrong; }"
         "QTableView { font-size: ~15px; }"
         "QListWidget { padding: 2px; }"
         "QListWidget::item { padding: ~7px ~6px; }"
         "QHeaderView::section { background: @shade; color: @ink; padding: 3px;"
         " border: 1px solid @edge; font-size: ~14px; font-weight: bold; }"
         "QScrollBar:vertical { width: ~18px; background: @paper; border: 1px solid @edge; }"
         "QScrollBar:horizontal { height: ~18px; background: @paper; border: 1px solid @edge; }"
         "QScrollBar::handle { background: @edge; min-height: ~24px; min-width: ~24px; }"
         "QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }"
         "#messageText { font-size: ~18px; padding: ~4px; }"
         "#messageText[look=\"trouble\"] { font-weight: bold; border: 4px solid @alarm; }"_s;
}

QString chairPart() {
  return u"#chairPage QWidget { font-size: ~20px; }"
         "#chairPage QPushButton { border: 2px solid @edge; border-radius: 6px;"
         " padding: ~2px ~8px; text-align: left; font-size: ~17px; }"
         "#chairPage QPushButton:disabled { border-style: dashed; }"
         "#chairPage QPushButton[look=\"main\"] { background: @strong; color: @onStrong;"
         " font-weight: bold; }"
         "#chairPage QPushButton[look=\"alarm\"] { border: 4px solid @alarm; font-weight: bold; }"
         "#chairPage QPushButton[look]:disabled { color: @edge; border: 2px dashed @edge;"
         " background: @paper; font-weight: normal; }"
         "#chairPage [dense=\"true\"] QPushButton { font-size: ~17px; padding: 0 ~5px; }"
         "#chairPage QLineEdit { border: 3px solid @strong; padding: ~4px; font-size: ~24px; }"
         "#chairPage QLabel[look=\"head\"] { font-size: ~32px; font-weight: bold; }"
         "#chairPage #chairHeader { font-size: ^32px; }"
         "#chairPage QLabel[look=\"call\"] { font-size: ~28px; font-weight: bold; }"
         "#chairPage QLabel[look=\"answer\"] { font-size: ~24px; font-weight: bold; }"
         "#chairPage QLabel[look=\"say\"] { font-size: ~22px; font-weight: bold; }"
         "#chairPage QLabel[look=\"bold\"] { font-weight: bold; }"
         "#chairPage QLabel[look=\"read\"] { font-size: ~22px; }"
         "#chairPage QLabel[look=\"small\"] { font-size: ~16px; }"
         "#chairPage QLabel[look=\"pause\"] { font-size: ~18px; font-weight: bold;"
         " border: 3px solid @strong; padding: ~4px; }"
         "#chairPage QLabel[look=\"name\"] { font-size: ~44px; font-weight: bold; }"
         "#chairPage QLabel[look=\"facts\"] { font-size: ~26px; }"
         "#chairPage QLabel[look=\"consent\"] { font-size: ~24px; }"
         "#chairPage QLabel[look=\"stop\"], #chairPage QLabel[look=\"stopBig\"] {"
         " background: @alarm; color: @onAlarm; font-size: ~24px; font-weight: bold;"
         " padding: ~6px ~12px; border: 4px solid @ink; }"
         "#chairPage QLabel[look=\"stopBig\"] { font-size: ~34px; }"
         "#chairPage #chairStop { font-size: ^24px; padding: ^6px ^12px; }"
         "#chairPage QLabel[look=\"notice\"] { background: @strong; color: @onStrong;"
         " font-size: ~24px; font-weight: bold; padding: ~6px ~12px; border: 4px solid @ink; }"
         "#chairPage QLabel[look=\"ask\"] { background: @hand; font-size: ~24px;"
         " font-weight: bold; padding: ~6px ~12px; border: 4px dashed @ink; }"
         "#chairPage QLabel[look=\"side\"] { background: @strong; color: @onStrong; font-size: "
         "^20px;"
         " font-weight: bold; padding: 2px ~10px; }"_s;
}

} // namespace

QString sheet() {
  auto text = deskPart() + chairPart();
  const auto& worn = style::colours(lookNow().scheme);
  // Longer names before those they begin with.
  const std::pair<QString, QColor> names[]{
      {u"@onStrong"_s, worn.onStrong}, {u"@onAlarm"_s, worn.onAlarm}, {u"@strong"_s, worn.strong},
      {u"@alarm"_s, worn.alarm},       {u"@paper"_s, worn.paper},     {u"@shade"_s, worn.shade},
      {u"@edge"_s, worn.edge},         {u"@hand"_s, worn.hand},       {u"@ink"_s, worn.ink}};
  for (const auto& [name, colour] : names)
    text.replace(name, colour.name());
  static const QRegularExpression grows(u"([~^])(\\d+)"_s);
  QString out;
  qsizetype from = 0;
  for (auto found = grows.globalMatch(text); found.hasNext();) {
    const auto number = found.next();
    out += text.mid(from, number.capturedStart() - from);
    const int usual = number.captured(2).toInt();
    const int grown = style::px(usual);
    out += QString::number(number.captured(1) == u"~"_s ? grown : (usual + grown) / 2);
    from = number.capturedEnd();
  }
  return out + text.mid(from);
}

} // namespace gk::ui
