#include "ui/support/sheet.h"

#include "ui/support/style.h"
#include "ui/support/text.h"

#include <QRegularExpression>

namespace gk::ui {

namespace {

// @name is a colour of style.h; ~n are pixels that grow with the letters, ^n
// those that grow half as fast: big from the start, and they must leave room for the teeth.
QString deskPart() {
  return u"QWidget { color: @ink; font-size: ~16px; }"
         "QLabel[look=\"title\"] { font-size: ~26px; font-weight: 700; }"
         "QLabel[look=\"counts\"] { font-size: ~18px; font-weight: 600; }"
         "QLabel[look=\"big\"] { font-size: ~20px; }"
         "QLabel[look=\"note\"], QTextEdit { font-size: ~15px; border: none; color: @quiet; }"
         "QLabel[look=\"field\"] { font-weight: 600; }"
         "QLabel[look=\"wrong\"] { font-size: ~15px; font-weight: 600; color: @alarm; }"
         "QLabel[look=\"numerals\"] { font-size: 112px; font-weight: 800; }"
         "QPushButton { border: 2px solid @edge; border-radius: 8px; padding: ~5px ~8px;"
         " background: @card; font-weight: 600; }"
         "QPushButton:hover { background: @sunk; }"
         "QPushButton:pressed { background: @soft; border-color: @strong; }"
         "QPushButton:disabled { color: @quiet; border-style: dashed; background: transparent; }"
         "QPushButton:checked { background: @soft; border: 3px solid @strong; }"
         "QPushButton[look=\"main\"] { background: @strong; color: @onStrong;"
         " border-color: @strong; padding: ~6px ~14px; }"
         "QPushButton:focus { border: 3px solid @focus; }"
         "QLineEdit, QComboBox, QSpinBox, QPlainTextEdit { border: 2px solid @edge;"
         " border-radius: 8px; padding: ~4px ~6px; min-height: ~24px; background: @card; }"
         "QLineEdit[wrong=\"true\"], QComboBox[wrong=\"true\"] { border: 4px solid @alarm; }"
         "QLineEdit:focus, QComboBox:focus, QSpinBox:focus, QPlainTextEdit:focus,"
         " QTableView:focus, QListWidget:focus { border: 3px solid @focus; }"
         "QLineEdit:disabled, QComboBox:disabled, QSpinBox:disabled { background: @sunk;"
         " border-style: dashed; }"
         "QComboBox QAbstractItemView { border: 2px solid @edge; background: @card;"
         " selection-background-color: @soft; selection-color: @ink; }"
         "QCheckBox::indicator { width: ~18px; height: ~18px; border: 2px solid @edge;"
         " border-radius: 4px; background: @card; }"
         "QCheckBox::indicator:checked { background: @strong; border-color: @strong; }"
         "QCheckBox:focus { background: @sunk; text-decoration: underline; }"
         "QTableView, QListWidget { border: 1px solid @line; border-radius: 10px;"
         " gridline-color: @line; background: @card; }"
         "QTableView::item:selected, QListWidget::item:selected { background: @soft;"
         " color: @ink; border-top: 2px solid @strong; border-bottom: 2px solid @strong; }"
         "QTableView { font-size: ~15px; }"
         "QListWidget { padding: 4px; }"
         "QListWidget::item { padding: ~8px ~8px; }"
         "QHeaderView { background: @card; }"
         "QHeaderView::section { background: @card; color: @quiet; padding: 5px;"
         " border: none; border-bottom: 2px solid @edge; font-size: ~14px; font-weight: 600; }"
         "QFrame[look=\"card\"] { background: @card; border: 1px solid @line;"
         " border-radius: 10px; }"
         "QLabel[look=\"cardName\"] { font-size: ~24px; font-weight: 700; }"
         "QLabel[look=\"cardAlert\"] { font-size: ~17px; font-weight: 700; background: @ask;"
         " border: 2px solid @edge; border-radius: 8px; padding: ~6px ~10px; }"
         "QLabel[look=\"cardAlert\"][stop=\"true\"] { background: @alarm; color: @onAlarm;"
         " border-color: @alarm; }"
         "QScrollArea { border: none; }"
         "QScrollBar:vertical { width: 14px; background: transparent; border: none; }"
         "QScrollBar:horizontal { height: 14px; background: transparent; border: none; }"
         "QScrollBar::handle { background: @edge; border-radius: 4px; min-height: ~32px;"
         " min-width: ~32px; margin: 3px; }"
         "QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }"
         "QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }"
         "#messageText { font-size: ~18px; padding: ~4px ~8px; }"
         "#messageText[look=\"trouble\"] { font-weight: 600; border: 4px solid @alarm;"
         " border-radius: 8px; background: @card; }"_s;
}

QString chairPart() {
  return u"#chairPage QWidget { font-size: ~20px; }"
         "#chairPage QPushButton { border: 2px solid @edge; border-radius: 10px;"
         " padding: ~2px ~8px; text-align: left; font-size: ~17px; }"
         "#chairPage QPushButton:disabled { border-style: dashed; }"
         "#chairPage QPushButton[look=\"main\"] { background: @strong; color: @onStrong;"
         " font-weight: 700; }"
         "#chairPage QPushButton[look=\"alarm\"] { border: 4px solid @alarm; font-weight: 700; }"
         "#chairPage QPushButton[look]:disabled { color: @quiet; border: 2px dashed @edge;"
         " background: transparent; font-weight: 500; }"
         "#chairPage [dense=\"true\"] QPushButton { font-size: ~17px; padding: 0 ~5px; }"
         "#chairPage QLineEdit { border: 3px solid @strong; padding: ~4px; font-size: ~24px; }"
         "#chairPage QLabel[look=\"head\"] { font-size: ~32px; font-weight: 700; }"
         "#chairPage #chairHeader { font-size: ^32px; }"
         "#chairPage QLabel[look=\"call\"] { font-size: ~28px; font-weight: 700; }"
         "#chairPage QLabel[look=\"answer\"] { font-size: ~24px; font-weight: 700; }"
         "#chairPage QLabel[look=\"say\"] { font-size: ~22px; font-weight: 700; }"
         "#chairPage QLabel[look=\"bold\"] { font-weight: 700; }"
         "#chairPage QLabel[look=\"read\"] { font-size: ~22px; }"
         "#chairPage QLabel[look=\"small\"] { font-size: ~16px; }"
         "#chairPage QLabel[look=\"pause\"] { font-size: ~18px; font-weight: 700;"
         " border: 3px solid @strong; padding: ~4px; }"
         "#chairPage QLabel[look=\"name\"] { font-size: ~44px; font-weight: 700; }"
         "#chairPage QLabel[look=\"facts\"] { font-size: ~26px; }"
         "#chairPage QLabel[look=\"consent\"] { font-size: ~24px; }"
         "#chairPage QLabel[look=\"stop\"], #chairPage QLabel[look=\"stopBig\"] {"
         " background: @alarm; color: @onAlarm; font-size: ~24px; font-weight: 700;"
         " padding: ~6px ~12px; border: 4px solid @ink; }"
         "#chairPage QLabel[look=\"stopBig\"] { font-size: ~34px; }"
         "#chairPage #chairStop { font-size: ^24px; padding: ^6px ^12px; }"
         "#chairPage QLabel[look=\"notice\"] { background: @strong; color: @onStrong;"
         " font-size: ~24px; font-weight: 700; padding: ~6px ~12px; border: 4px solid @ink; }"
         "#chairPage QLabel[look=\"ask\"] { background: @hand; font-size: ~24px;"
         " font-weight: 700; padding: ~6px ~12px; border: 4px dashed @ink; }"
         "#chairPage QLabel[look=\"side\"] { background: @strong; color: @onStrong; font-size: "
         "^20px;"
         " font-weight: 700; padding: 2px ~10px; }"_s;
}

} // namespace

QString sheet() {
  auto text = deskPart() + chairPart();
  const auto& worn = style::worn();
  // Longer names before those they begin with.
  const std::pair<QString, QColor> names[]{
      {u"@onStrong"_s, worn.onStrong}, {u"@onAlarm"_s, worn.onAlarm}, {u"@strong"_s, worn.strong},
      {u"@ground"_s, worn.ground},     {u"@alarm"_s, worn.alarm},     {u"@quiet"_s, worn.quiet},
      {u"@focus"_s, worn.focus},       {u"@card"_s, worn.card},       {u"@sunk"_s, worn.sunk},
      {u"@line"_s, worn.line},         {u"@edge"_s, worn.edge},       {u"@soft"_s, worn.soft},
      {u"@hand"_s, worn.hand},         {u"@ask"_s, worn.ask},         {u"@ink"_s, worn.ink}};
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
