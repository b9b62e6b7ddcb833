#include "ui/look/sheet.h"

#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QRegularExpression>

#include <algorithm>

namespace gk::ui {

namespace {

// @name is a color of style.h; ~n are pixels that grow with the letters, ^n those that grow half as
// fast: big from the start, and they must leave room for the teeth. %n grow until a fifth more:
// answers and keys that have to be in sight all at once, beside what they are about.
// Where the keyboard is, FocusRing draws: no rule here may name @focus, nor change at :focus.
QString wordsPart() {
  // No color here: Qt draws a hint in half of a color that a sheet names, and in the palette's own
  // where it names none (QRenderRule::configurePalette of Qt 6.4).
  return u"QWidget { font-size: ~16px; }"
         "QLabel[look=\"title\"] { font-size: ~26px; font-weight: 700; }"
         "QLabel[look=\"counts\"] { font-size: ~18px; font-weight: 600; }"
         "QLabel[look=\"section\"] { font-size: ~20px; font-weight: 700; }"
         "QLabel[look=\"big\"] { font-size: ~20px; }"
         "QLabel[look=\"note\"], QTextEdit { font-size: ~15px; border: none; color: @quiet;"
         " background: transparent; }"
         "QLabel[look=\"field\"] { font-weight: 600; }"
         "QLabel[look=\"wrong\"] { font-size: ~15px; font-weight: 600; color: @alarm; }"
         "QLabel[look=\"numerals\"] { font-size: 112px; font-weight: 800; }"
         "QLabel[look=\"asks\"] { font-size: ~16px; font-weight: 600; background: @ask;"
         " border-radius: 8px; padding: ~7px ~12px; }"
         "QLabel[look=\"cap\"] { font-size: ~15px; font-weight: 600; background: @sunk;"
         " border: 1px solid @edge; border-bottom: 3px solid @edge; border-radius: 5px;"
         " padding: 1px ~7px; }"
         "QLabel[look=\"helpWords\"] { font-size: ~17px; }"
         "#helpOverlay { background: @card; border: 1px solid @line; }"
         "#helpOverlay QScrollArea > QWidget > QWidget { background: @card; }"
         "QLabel[look=\"cardName\"] { font-size: ~24px; font-weight: 700; }"
         "QLabel[look=\"cardAlert\"] { font-size: ~17px; font-weight: 700; background: @ask;"
         " border-radius: 8px; padding: ~8px ~12px; }"
         "QLabel[look=\"cardAlert\"][stop=\"true\"] { background: @alarm; color: @onAlarm; }"
         "QFrame[look=\"card\"] { background: @card; border: 1px solid @line;"
         " border-radius: 10px; }"
         "QScrollArea { border: none; background: transparent; }"
         "QScrollBar:vertical { width: 14px; background: transparent; border: none; }"
         "QScrollBar:horizontal { height: 14px; background: transparent; border: none; }"
         "QScrollBar::handle { background: @edge; border-radius: 4px; min-height: ~32px;"
         " min-width: ~32px; margin: 3px; }"
         "QScrollBar::handle:hover { margin: 0px; border-radius: 7px; }"
         "QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }"
         "QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }"
         "#messageText { font-size: ~17px; font-weight: 600; padding: ~2px ~12px;"
         " border-radius: 8px; }"
         "#messageText[look=\"news\"] { background: @sunk; }"
         "#messageText[look=\"trouble\"] { background: @alarmSoft; border: none;"
         " border-left: 8px solid @alarm; }"
         "QToolTip { background: @card; color: @ink; border: 1px solid @edge; padding: 4px; }"_s;
}

QString deskPart() {
  return u"QPushButton { border: 2px solid @edge; border-radius: 8px; padding: ~6px ~10px;"
         " background: @card; font-weight: 600; }"
         "QPushButton:hover { background: @sunk; }"
         "QPushButton:pressed { background: @soft; border-color: @strong; }"
         "QPushButton:disabled { color: @quiet; border-style: dashed; background: transparent; }"
         "QPushButton:checked { background: @soft; border: 3px solid @strong; padding: ~5px ~9px; }"
         "QPushButton[look=\"main\"] { background: @strong; color: @onStrong;"
         " border-color: @strong; padding: ~9px ~14px; font-size: ~18px; }"
         "QPushButton[look=\"main\"]:disabled { background: transparent; color: @quiet;"
         " border: 2px dashed @edge; }"
         "QPushButton[look=\"quiet\"] { border-color: transparent; background: transparent;"
         " font-weight: 500; padding: ~4px ~2px; }"
         "QPushButton[look=\"quiet\"]:hover { background: @sunk; }"
         "QPushButton[look=\"chip\"] { border: 1px solid @line; padding: ~5px ~12px; }"
         "QPushButton[look=\"ask\"] { background: @ask; border: 1px solid @edge;"
         " padding: ~5px ~12px; }"
         "QLineEdit, QComboBox, QSpinBox, QPlainTextEdit { border: 2px solid @edge;"
         " border-radius: 8px; padding: ~4px ~8px; min-height: ~24px; background: @card;"
         " selection-background-color: @strong; selection-color: @onStrong; }"
         "QLineEdit[wrong=\"true\"], QComboBox[wrong=\"true\"] { border: 4px solid @alarm;"
         " padding: ~2px ~6px; }"
         "QLineEdit[look=\"search\"] { font-size: ~18px; padding: ~7px ~10px; }"
         "QLineEdit:disabled, QComboBox:disabled, QSpinBox:disabled { background: transparent;"
         " border-style: dashed; color: @quiet; }"
         "QComboBox::drop-down { border: none; width: ~28px; }"
         "QComboBox::down-arrow { image: url(:/look/down-@scheme.svg); width: ~18px;"
         " height: ~18px; }"
         "QComboBox QAbstractItemView { border: 2px solid @edge; background: @card;"
         " selection-background-color: @soft; selection-color: @ink; outline: none; }"
         "QCheckBox { spacing: ~10px; }"
         "QCheckBox::indicator { width: ~20px; height: ~20px; border: 2px solid @edge;"
         " border-radius: 5px; background: @card; }"
         "QCheckBox::indicator:checked { background: @strong; border-color: @strong;"
         " image: url(:/look/tick-@scheme.svg); }"
         "QCheckBox::indicator:disabled { border-style: dashed; background: transparent; }"
         "QTableView, QListWidget { border: 1px solid @line; border-radius: 10px;"
         " gridline-color: @line; background: @card; outline: none; }"
         "QTableView::item:selected, QListWidget::item:selected { background: @soft;"
         " color: @ink; }"
         "QTableView { font-size: ~15px; }"
         "QListWidget { padding: 4px; }"
         "QListWidget::item { padding: ~8px ~8px; border-radius: 6px; }"
         "QHeaderView { background: @card; }"
         "QHeaderView::section { background: @card; color: @quiet; padding: 5px 4px;"
         " border: none; border-bottom: 2px solid @edge; font-size: ~14px; font-weight: 600; }"
         "QProgressBar { border: 2px solid @edge; border-radius: 6px; background: @card;"
         " max-height: ~12px; }"
         "QProgressBar::chunk { background: @strong; }"
         "QMenu { background: @card; border: 2px solid @edge; padding: 6px; }"
         "QMenu::item { padding: ~8px ~20px; border-radius: 6px; }"
         "QMenu::item:selected { background: @soft; }"_s;
}

/// At the chair: 20 px for keys and what is said, 18 for second lines, 28 for the step.
QString chairPart() {
  return u"#chairPage QWidget { font-size: ~20px; }"
         "#chairPage QPushButton { border: 2px solid @edge; border-radius: 10px;"
         " padding: ~1px ~7px; text-align: left; font-size: ~20px; font-weight: 600; }"
         "#chairPage #askBar QPushButton, #chairPage #identityPanel QPushButton {"
         " font-size: %20px; }"
         "#chairPage QPushButton:disabled { border: 2px dashed @edge; color: @quiet;"
         " background: transparent; }"
         "#chairPage QPushButton[look=\"main\"] { background: @strong; color: @onStrong;"
         " border-color: @strong; font-weight: 700; padding: ~1px ~7px; }"
         "#chairPage QPushButton[look=\"alarm\"] { border: 4px solid @alarm; color: @alarm;"
         " font-weight: 700; padding: 0px ~5px; }"
         "#chairPage QPushButton[look=\"filled\"] { background: @alarm; border-color: @alarm;"
         " color: @onAlarm; font-weight: 700; }"
         "#chairPage QPushButton[look]:disabled { color: @quiet; border: 2px dashed @edge;"
         " background: transparent; font-weight: 600; padding: ~1px ~7px; }"
         // As wide as when they work, so that no key beside them moves.
         "#chairPage #alwaysBar QPushButton[look=\"alarm\"]:disabled { margin: 2px;"
         " padding: 0px ~5px; font-weight: 700; }"
         "#chairPage #alwaysBar QPushButton[look=\"filled\"]:disabled { font-weight: 700; }"
         "#chairPage QLineEdit { border: 2px solid @strong; padding: ~4px ~10px;"
         " font-size: ~24px; }"
         "#chairPage #chairHead { background: @card; border-bottom: 1px solid @line; }"
         "#chairPage #chairHeader { font-size: ^32px; font-weight: 800; }"
         "#chairPage #chairPlace { font-size: ^22px; color: @quiet; }"
         "#chairPage #chairActing { font-size: ^18px; color: @quiet; }"
         "#chairPage QLabel[look=\"head\"] { font-size: ^28px; font-weight: 800; }"
         "#chairPage QLabel[look=\"call\"] { font-size: ~28px; font-weight: 700; }"
         "#chairPage QLabel[look=\"answer\"] { font-size: ^24px; font-weight: 700; }"
         "#chairPage QLabel[look=\"say\"] { font-size: ^22px; font-weight: 600; }"
         "#chairPage QLabel[look=\"bold\"] { font-size: ^24px; font-weight: 800; }"
         "#chairPage QLabel[look=\"read\"] { font-size: ^22px; }"
         "#chairPage QLabel[look=\"state\"] { font-size: ^20px; font-weight: 700; }"
         "#chairPage QLabel[look=\"small\"] { font-size: ^18px; color: @quiet; }"
         "#chairPage QLabel[look=\"pause\"] { font-size: ^20px; font-weight: 700;"
         " background: @hand; border-radius: 10px; padding: ~8px ~12px; }"
         "#chairPage QLabel[look=\"name\"] { font-size: ^44px; font-weight: 800; }"
         "#chairPage QLabel[look=\"facts\"] { font-size: ^24px; }"
         "#chairPage QLabel[look=\"consent\"] { font-size: ^24px; }"
         "#chairPage QLabel[look=\"stop\"], #chairPage QLabel[look=\"stopBig\"] {"
         " background: @alarm; color: @onAlarm; font-size: ^24px; font-weight: 700;"
         " padding: ^6px ^14px; border-radius: 8px; }"
         "#chairPage QLabel[look=\"stopBig\"] { font-size: ^32px; padding: ^12px ^20px; }"
         "#chairPage #chairStop { font-size: ^22px; padding: ^4px ^12px; }"
         "#chairPage QLabel[look=\"notice\"] { background: @strong; color: @onStrong;"
         " font-size: ^22px; font-weight: 700; padding: ^6px ^14px; border-radius: 8px; }"
         "#chairPage QLabel[look=\"ask\"] { background: @ask; font-size: ^22px;"
         " font-weight: 700; padding: ^6px ^14px; border-radius: 8px; }"
         "#chairPage QLabel[look=\"side\"] { font-size: ^18px; font-weight: 800; }"_s;
}

/// As the files of ui/look are named.
QString schemeWords() {
  switch (lookNow().scheme) {
  case Scheme::light:
    return u"light"_s;
  case Scheme::dark:
    return u"dark"_s;
  case Scheme::highContrast:
    return u"high"_s;
  }
  return {};
}

} // namespace

QString sheet() {
  auto text = wordsPart() + deskPart() + chairPart();
  text.replace(u"@scheme"_s, schemeWords());
  const auto& worn = style::worn();
  // Longer names before those they begin with.
  const std::pair<QString, QColor> names[]{{u"@onStrong"_s, worn.onStrong},
                                           {u"@onAlarm"_s, worn.onAlarm},
                                           {u"@strong"_s, worn.strong},
                                           {u"@ground"_s, worn.ground},
                                           {u"@alarmSoft"_s, worn.alarmSoft},
                                           {u"@alarm"_s, worn.alarm},
                                           {u"@quiet"_s, worn.quiet},
                                           {u"@card"_s, worn.card},
                                           {u"@sunk"_s, worn.sunk},
                                           {u"@line"_s, worn.line},
                                           {u"@edge"_s, worn.edge},
                                           {u"@soft"_s, worn.soft},
                                           {u"@hand"_s, worn.hand},
                                           {u"@ask"_s, worn.ask},
                                           {u"@ink"_s, worn.ink}};
  for (const auto& [name, color] : names)
    text.replace(name, color.name());
  static const QRegularExpression grows(u"([~^%])(\\d+)"_s);
  QString out;
  qsizetype from = 0;
  for (auto found = grows.globalMatch(text); found.hasNext();) {
    const auto number = found.next();
    out += text.mid(from, number.capturedStart() - from);
    const int usual = number.captured(2).toInt();
    const int grown = style::px(usual);
    const auto how = number.captured(1);
    out += QString::number(how == u"~"_s   ? grown
                           : how == u"%"_s ? std::min(grown, usual * 6 / 5)
                                           : (usual + grown) / 2);
    from = number.capturedEnd();
  }
  return out + text.mid(from);
}

} // namespace gk::ui
