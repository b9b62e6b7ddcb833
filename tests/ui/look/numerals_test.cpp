#include "ui/look/numerals.h"

#include "ui/fixtures/desk_fixture.h"
#include "ui/fixtures/drawn.h"
#include "ui/lists/cell_delegate.h"
#include "ui/look/column_widths.h"
#include "ui/look/look.h"
#include "ui/models/table_model.h"
#include "ui/paper/report_sheets.h"
#include "ui/paper/sheet_layout.h"

#include <QHeaderView>
#include <QImage>
#include <QPainter>
#include <QStyledItemDelegate>
#include <QTableView>
#include <QTextLayout>

#include <cmath>

using namespace gk;
using namespace gk::test;

TEST_CASE("Numbers of as many digits are as wide as each other, in every face of the window") {
  for (const auto& family : {u"Inter"_s, u"Noto Sans"_s, u"DejaVu Sans"_s}) {
    QFont font(family);
    font.setPixelSize(16);
    const QFontMetricsF letters(font);
    INFO(family.toStdString());
    const auto apart = [&](const QString& one, const QString& other) {
      return std::abs(ui::evenWidth(one, letters) - ui::evenWidth(other, letters));
    };
    CHECK(apart(u"11.1"_s, u"00.0"_s) < 0.01);
    CHECK(apart(u"1,144"_s, u"8,888"_s) < 0.01);
    CHECK(apart(u"1 of 47"_s, u"9 of 99"_s) < 0.01);
  }
}

TEST_CASE("A figure is of digits and signs, and words are none") {
  for (const auto& figure : {u"44.3"_s, u"84.3-89.7"_s, u"11/17/2026"_s, u"10:14"_s, u"1,111"_s})
    CHECK(ui::isFigure(figure));
  for (const auto& other : {u""_s, u"–"_s, u"Room 12"_s, u"1 of 9"_s, u"12\n13"_s})
    CHECK_FALSE(ui::isFigure(other));
}

TEST_CASE("What stands before the last digit stands in its place whatever that digit is") {
  const auto drawn = [](const QString& text) {
    QImage picture(120, 30, QImage::Format_RGB32);
    picture.fill(Qt::white);
    QPainter painter(&picture);
    QFont font(u"Inter"_s);
    font.setPixelSize(20);
    painter.setFont(font);
    ui::drawEven(painter, QRectF(0, 0, 110, 30), Qt::AlignRight | Qt::AlignVCenter, text);
    painter.end();
    // Without the last digit, and what it reaches over.
    const auto last = static_cast<int>(std::ceil(QFontMetricsF(font).horizontalAdvance(u'0')));
    return picture.copy(0, 0, 110 - last - 2, 30);
  };
  const auto blank = drawn({});
  CHECK(drawn(u"57.1"_s) != blank);
  CHECK(drawn(u"57.1"_s) == drawn(u"57.4"_s));
  CHECK(drawn(u"57.1"_s) != drawn(u"51.4"_s));
}

TEST_CASE("In a table the digits of numbers below each other stand in columns") {
  ui::dress();
  ui::TableModel model;
  using reports::Kind;
  model.show({"Title",
              {{"Retained", Kind::share}, {"School"}},
              {{"57.1", "Alder"}, {"57.4", "Brindle"}, {"11.1", "Fern"}},
              {}});
  QTableView view;
  view.setModel(&model);
  view.setItemDelegate(new ui::CellDelegate(&view));
  view.verticalHeader()->hide();
  view.setFocusPolicy(Qt::NoFocus); // no ring around a cell
  view.resize(400, 240);
  view.show();
  QCoreApplication::processEvents();
  const auto picture = view.viewport()->grab().toImage();
  const auto before = [&](int row) {
    const auto box = view.visualRect(model.index(row, 0));
    const int last = view.fontMetrics().horizontalAdvance(u'0') + 6;
    return picture.copy(box.left(), box.top(), box.width() - last, box.height() - 1);
  };
  CHECK(before(0) == before(1));
  CHECK(before(0) != before(2));
  // And there is room for them.
  const QAbstractItemView& cells = view;
  model.show({"Title", {{"Retained", Kind::share}}, {{"11.1"}}, {}});
  const int narrow = cells.sizeHintForColumn(0);
  model.show({"Title", {{"Retained", Kind::share}}, {{"00.0"}}, {}});
  CHECK(std::abs(narrow - cells.sizeHintForColumn(0)) <= 1);
}

TEST_CASE("The number of a student, a phone and a date have no gaps in a list of the window") {
  ui::dress();
  QTableView view;
  view.verticalHeader()->hide();
  view.setFocusPolicy(Qt::NoFocus);
  view.resize(700, 240);
  const reports::Table table{"Title",
                             {{"Number"}, {"Phone"}, {"Day", reports::Kind::date}},
                             {{"1045-2", "555-0111", "2026-11-11"}},
                             {}};
  ui::TableModel model;
  model.show(table);
  view.setModel(&model);
  const auto drawnBy = [&](QAbstractItemDelegate* delegate) {
    view.setItemDelegate(delegate);
    view.show();
    QCoreApplication::processEvents();
    return view.viewport()->grab().toImage();
  };
  CHECK(drawnBy(new ui::CellDelegate(&view)) == drawnBy(new QStyledItemDelegate(&view)));
}

TEST_CASE(
    "On paper only columns of numbers have even digits, and what else stands to the right has "
    "no gaps") {
  const auto font = ui::paperFont(9);
  using To = ui::PaperWords::To;
  const auto widthOf = [&](const QString& text, To side) {
    return ui::PaperWords(text, font, 300, side).layout()->lineAt(0).naturalTextWidth();
  };
  for (const auto& text : {u"1045-2"_s, u"555-0111"_s, u"Nov 11, 2026"_s, u"RF-2611"_s}) {
    INFO(text.toStdString());
    CHECK(std::abs(widthOf(text, To::right) - widthOf(text, To::left)) < 0.01);
  }
  CHECK(std::abs(widthOf(u"0111"_s, To::figures) - widthOf(u"0000"_s, To::figures)) < 0.3);
  CHECK(widthOf(u"0000"_s, To::right) - widthOf(u"0111"_s, To::right) > 2);
  // As a list, which a table of one row is, and as rows: spaced digits are painted one by one.
  const reports::Cells row{"1045-2", "555-0111", "2026-11-11", reports::Count{1171}};
  for (const std::size_t rows : {std::size_t{1}, std::size_t{2}}) {
    INFO(rows << " rows");
    const reports::Table table{
        "Title",
        {{"Number"}, {"Phone"}, {"Day", reports::Kind::date}, {"Sealants", reports::Kind::count}},
        std::vector<reports::Cells>(rows, row),
        {}};
    const ui::ReportSheets sheets("Title", {table}, {});
    const auto painted = drawnOn(sheets, 0).words;
    for (const auto& whole : {u"1045-2"_s, u"555-0111"_s, u"Nov 11, 2026"_s}) {
      INFO(whole.toStdString());
      CHECK(painted.count(whole) == static_cast<qsizetype>(rows));
    }
    CHECK_FALSE(painted.contains(u"1,171"_s));
  }
}
