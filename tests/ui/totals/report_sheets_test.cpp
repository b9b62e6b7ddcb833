#include "demo.h"
#include "reports/day/close_out_tables.h"
#include "reports/report.h"
#include "support/built_demo.h"
#include "support/long_checks.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/fixtures/drawn.h"
#include "ui/fixtures/eyes.h"
#include "ui/fixtures/pictures.h"
#include "ui/look/column_widths.h"
#include "ui/paper/report_sheets.h"
#include "ui/paper/sheet_layout.h"

#include <QFile>
#include <QImage>
#include <QPainter>

#include <algorithm>
#include <vector>

using namespace gk;
using namespace gk::test;
using reports::Table;
using ui::ReportSheets;

namespace {

const ui::ReportFoot foot{u"Larkmere County School Sealant Team"_s, u"Fall 2026"_s,
                          u"November 17, 2026"_s, u"Version 1"_s};
constexpr int around = 100; ///< points of empty paper around the sheet, to catch what leaves it

/// A state's report is of a year; here the term is one.
reports::ReportOptions withTermAsYear(const reports::TermRecords& records) {
  reports::ReportOptions options;
  options.year = reports::YearOptions{
      {"2026-27", roster::YearKind::school, records.term.start, records.term.end}, "P", "C"};
  return options;
}

/// The smallest box around all ink, or around that above the foot, in points of the sheet.
QRectF inkOf(const ReportSheets& sheets, int sheet, bool withFoot = true) {
  const auto size = sheets.size();
  QImage image(static_cast<int>(size.width()) + 2 * around,
               static_cast<int>(size.height()) + 2 * around, QImage::Format_RGB32);
  image.fill(Qt::white);
  QPainter painter(&image);
  painter.translate(around, around);
  sheets.paint(painter, sheet);
  painter.end();
  QRect found;
  const auto end = withFoot ? image.height() : around + static_cast<int>(size.height()) - 65;
  for (int y = 0; y < end; ++y)
    for (int x = 0; x < image.width(); ++x)
      if (qGray(image.pixel(x, y)) < 250) found |= QRect(x, y, 1, 1);
  return QRectF(found).translated(-around, -around);
}

/// Printed in gray: words have WCAG's contrast with the paper, what is filled has that of
/// graphics or is a tint that words stand on, and two inks of a picture are told apart. Words are
/// at least once nearly black, as the printer gets them.
void isPlainInGray(const ReportSheets& sheets) {
  constexpr int tint = 215;      ///< of 255 and lighter: a ground
  constexpr int toldApart = 20;  ///< of 255
  constexpr double words = 4.5;  ///< to 1
  constexpr double graphics = 3; ///< to 1
  for (int sheet = 0; sheet < sheets.count(); ++sheet) {
    INFO("sheet " << sheet);
    const auto drawn = drawnOn(sheets, sheet);
    for (const auto ink : drawn.wordInks) {
      INFO("words in " << QColor(ink).name().toStdString());
      const bool isOnInk = contrast(Qt::white, QColor(ink)) < words; // such as a number in its bar
      bool isRead = !isOnInk;
      for (const auto fill : drawn.fills)
        isRead = isRead || contrast(QColor(fill), QColor(ink)) >= words;
      CHECK(isRead);
    }
    std::vector<int> inks;
    for (const auto fill : drawn.fills) {
      if (qGray(fill) >= tint) continue;
      INFO("filled with " << QColor(fill).name().toStdString());
      CHECK(contrast(Qt::white, QColor(fill)) >= graphics);
      inks.push_back(qGray(fill));
    }
    std::ranges::sort(inks);
    for (std::size_t i = 1; i < inks.size(); ++i)
      CHECK(inks[i] - inks[i - 1] >= toldApart);
    QImage image(sheets.size().toSize(), QImage::Format_Grayscale8);
    image.fill(Qt::white);
    QPainter painter(&image);
    sheets.paint(painter, sheet);
    painter.end();
    int darkest = 255;
    for (int y = 0; y < image.height(); ++y)
      for (int x = 0; x < image.width(); ++x)
        darkest = std::min(darkest, qGray(image.pixel(x, y)));
    CHECK(darkest < 40);
  }
}

void staysInside(const ReportSheets& sheets) {
  for (int sheet = 0; sheet < sheets.count(); ++sheet) {
    INFO("sheet " << sheet);
    const auto box = inkOf(sheets, sheet);
    CHECK(box.left() >= ReportSheets::margin - 2);
    CHECK(box.right() <= sheets.size().width() - ReportSheets::margin + 2);
    CHECK(box.top() >= ReportSheets::margin - 2);
    CHECK(box.bottom() <= sheets.size().height() - ReportSheets::margin + 2);
  }
}

Table wide(std::size_t columns, std::size_t rows, const std::string& heading) {
  Table table{"A table of many columns", {{"School"}}, {}, {"A note under it."}};
  for (std::size_t i = 1; i < columns; ++i)
    table.columns.push_back({heading + " " + std::to_string(i), reports::Kind::count});
  for (std::size_t row = 0; row < rows; ++row) {
    table.rows.push_back({"Cobble Lantern Elementary"});
    for (std::size_t i = 1; i < columns; ++i)
      table.rows.back().push_back(std::to_string(1000 * row + i));
  }
  return table;
}

} // namespace

TEST_CASE("A wide table turns the sheet on its side and stays inside the margins") {
  const ReportSheets narrow("Narrow", {wide(4, 5, "Count")}, foot);
  CHECK(narrow.size().width() < narrow.size().height());
  staysInside(narrow);
  const ReportSheets sideways("Wide", {wide(17, 8, "% of consented")}, foot);
  CHECK(sideways.size().width() > sideways.size().height());
  CHECK(sideways.count() == 1);
  staysInside(sideways);
}

TEST_CASE("More columns than a sheet can hold go below each other behind the first one") {
  const auto table = wide(60, 4, "Contamination");
  const auto plan = ui::planColumns(table, 700);
  REQUIRE(plan.bands.size() > 1);
  std::size_t shown = 1;
  for (const auto& band : plan.bands) {
    CHECK(band.columns.front() == 0);
    shown += band.columns.size() - 1;
  }
  CHECK(shown == table.columns.size());
  staysInside(ReportSheets("Very wide", {table}, foot));
}

TEST_CASE("Words without a space and a cell longer than a sheet are broken, never cut off") {
  Table table{"Odd cells", {{"Child"}, {"What"}}, {}, {}};
  table.rows.push_back({std::string(300, 'x'), "short"});
  std::string words;
  for (int i = 0; i < 900; ++i)
    words += "again and again ";
  table.rows.push_back({"Mina", words});
  const ReportSheets sheets("Odd", {table}, foot);
  CHECK(sheets.count() >= 2);
  staysInside(sheets);
}

TEST_CASE("A table of one row is a list that no sheet tears, and stays a table with a long value",
          "[case-401]") {
  Table list{"One row", {}, {{}}, {}};
  for (int i = 0; i < 9; ++i) {
    list.columns.push_back({"Heading " + std::to_string(i)});
    list.rows.front().push_back(i == 0 ? "first" : i == 8 ? "last" : "between");
  }
  REQUIRE(reports::isList(list));
  // Wherever the end of a sheet comes, the first and the last value are on the same one.
  for (std::size_t rows = 20; rows < 40; ++rows) {
    const ReportSheets sheets("Report", {wide(4, rows, "Count"), list}, foot);
    int with = 0;
    for (int sheet = 0; sheet < sheets.count(); ++sheet) {
      const auto words = drawnOn(sheets, sheet).words.join(u' ');
      with += words.contains(u"first"_s) ? 1 : 0;
      CHECK(words.contains(u"first"_s) == words.contains(u"last"_s));
      CHECK(words.contains(u"first"_s) == words.contains(u"One row"_s));
    }
    INFO(rows << " rows before it");
    CHECK(with == 1);
    staysInside(sheets);
  }
  list.rows.front().back() = std::string(61, 'x');
  CHECK_FALSE(reports::isList(list));
}

TEST_CASE("A table that goes on has its heads of columns on each sheet and the sheet is full") {
  const ReportSheets sheets("Long", {wide(4, 200, "Count")}, foot);
  REQUIRE(sheets.count() > 2);
  staysInside(sheets);
  for (int sheet = 0; sheet + 1 < sheets.count(); ++sheet)
    CHECK(inkOf(sheets, sheet, false).height() > 0.8 * sheets.size().height());
}

TEST_CASE("A heading is not left alone at the foot of a sheet") {
  // Whatever the length of what comes before, the second heading stands with two rows.
  for (std::size_t rows = 20; rows < 50; ++rows) {
    const auto first = wide(4, rows, "Count");
    auto second = wide(4, 2, "Count");
    second.notes.clear();
    const ReportSheets both("Report", {first, second}, foot);
    const ReportSheets alone("Report", {first}, foot);
    if (both.count() == alone.count() || both.letters() != alone.letters()) continue;
    // The second went to a sheet of its own as a whole: the first one's sheet is as it was alone.
    const auto last = alone.count() - 1;
    CHECK(inkOf(both, last, false) == inkOf(alone, last, false));
  }
}

TEST_CASE("A plot stands on the sheet of its title and of the first rows of its table") {
  Table second{
      "Kept by month", {{"Months"}, {"Kept, %", reports::Kind::count}}, {}, {"A note under it."}};
  for (int row = 0; row < 8; ++row)
    second.rows.push_back({"month " + std::to_string(row), std::to_string(99 - row)});
  second.plot = reports::Plot{"What the plot says.",
                              {"Months", 0, 8},
                              {"Kept, %", 0, 100},
                              {{"kept", reports::PlotMark::step, {{0, 99}, {4, 95}, {8, 92}}}}};
  for (const auto paper : {ui::PaperSize::letter, ui::PaperSize::a4})
    for (std::size_t shortOf : {2U, 8U}) // rows of a short table stay together all of them
      for (std::size_t rows = 4; rows < 44; ++rows) {
        auto on = foot;
        on.paper = paper;
        auto plotted = second;
        plotted.rows.resize(shortOf);
        const ReportSheets sheets("Report", {wide(4, rows, "Count"), plotted}, on);
        INFO(rows << " rows before, " << shortOf << " below");
        int found = 0;
        for (int sheet = 0; sheet < sheets.count(); ++sheet) {
          const auto seen = drawnOn(sheets, sheet);
          if (!seen.words.contains(u"Kept by month"_s)) continue;
          ++found;
          CHECK(seen.curves > 0);
          CHECK(seen.words.contains(u"What the plot says."_s));
          CHECK(seen.words.contains(u"month 0"_s));
          CHECK(seen.words.contains(u"month 1"_s));
          if (shortOf == 2) CHECK(seen.words.contains(u"A note under it."_s));
        }
        CHECK(found == 1);
      }
}

TEST_CASE("The last row of a table and its notes do not stand alone on a sheet") {
  for (const auto paper : {ui::PaperSize::letter, ui::PaperSize::a4})
    for (std::size_t rows = 25; rows < 60; ++rows) {
      auto on = foot;
      on.paper = paper;
      const ReportSheets sheets("Report", {wide(4, rows, "Count")}, on);
      INFO(rows << " rows");
      if (sheets.count() == 1) continue;
      // "goes on", the head, three rows and the note.
      CHECK(inkOf(sheets, sheets.count() - 1, false).height() > 3 * 12 + 20);
      staysInside(sheets);
    }
}

TEST_CASE("A report is laid on either paper and nothing leaves the sheet") {
  auto on = foot;
  on.paper = ui::PaperSize::a4;
  const ReportSheets upright("Narrow", {wide(4, 90, "Count")}, on);
  CHECK(upright.size() == QSizeF(595, 842));
  staysInside(upright);
  const ReportSheets sideways("Wide", {wide(17, 40, "% of consented")}, on);
  CHECK(sideways.size() == QSizeF(842, 595));
  staysInside(sideways);
  const auto pdf = ui::reportPdf("Wide", {wide(17, 40, "% of consented")}, on);
  CHECK((pdf.contains("842") && pdf.contains("595")));
}

TEST_CASE("What a version differs in stands whole on the first sheet", "[case-72]") {
  auto issued = foot;
  issued.version = u"Version 2, differs from version 1 of November 3, 2026 by 1 figure: "_s +
                   u"Findings, Cobble Lantern Elementary, Urgent: 2 -> 3; "_s.repeated(4);
  const ReportSheets with("Report", {wide(4, 5, "Count")}, issued);
  staysInside(with);
  auto none = foot;
  none.version.clear();
  const ReportSheets without("Report", {wide(4, 5, "Count")}, none);
  CHECK(inkOf(with, 0, false).bottom() > inkOf(without, 0, false).bottom() + 20);
}

TEST_CASE("Every report of a term and the close-out stay inside their sheets") {
  Desk desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  const auto records =
      must(desk.clinic.session.termRecords(desk.clinic.term, *base::Date::parse("2026-11-17")));
  for (std::size_t i = 0; i < base::enumCount<reports::ReportKind>; ++i) {
    const auto kind = static_cast<reports::ReportKind>(i);
    INFO(base::nameOf(kind));
    staysInside(ReportSheets(reports::reportTitle(kind, records),
                             reports::reportOf(kind, records, withTermAsYear(records)), foot));
  }
  const auto day = must(desk.clinic.session.dayRecords(desk.clinic.day));
  staysInside(ReportSheets("Close-out", reports::closeOutTables(reports::closeOut(day)), foot));
}

TEST_CASE("The county's summary for its funder is one sheet of either paper, and plain in grey") {
  const Scratch folder;
  copyDemo(folder.path(), demo::Until::closed);
  base::ManualClock clock{base::atLocal(*base::Date::parse("2026-11-17"), std::chrono::hours(18),
                                        std::chrono::hours(-5))};
  base::SeededRandom random{5};
  auto session = must(session::Session::open(
      folder / "demo.gkbook", base::LaptopId(base::makeUuid7(clock.now().at, random)),
      {clock, random}, store::Access::readOnly));
  const auto records =
      must(session.termRecords(must(session.terms()).back().id, clock.now().date()));
  using reports::ReportKind;
  const auto tables = reports::reportOf(ReportKind::funder, records);
  auto on = foot;
  on.version =
      u"Version 2, differs from version 1 of November 3, 2026 by 9 figures: "_s +
      u"Key figures, Participation, children, Screened, of consented: 97.0 -> 97.1; "_s.repeated(
          4) +
      u"and 5 more"_s;
  for (const auto paper : {ui::PaperSize::letter, ui::PaperSize::a4}) {
    if (paper == ui::PaperSize::a4 && test::oneOf(1) > 1) continue; // the same paths
    on.paper = paper;
    INFO(base::nameOf(paper));
    const ReportSheets sheets(reports::reportTitle(ReportKind::funder, records), tables, on);
    CHECK(sheets.count() == 1);
    CHECK(sheets.size() == ui::sizeOf(paper)); // upright
    CHECK(sheets.letters() >= 8);
    staysInside(sheets);
    isPlainInGray(sheets);
  }
}

TEST_CASE("A report is a PDF file") {
  const auto pdf = ui::reportPdf("Report", {wide(17, 8, "% of consented")}, foot);
  CHECK(pdf.startsWith("%PDF-"));
  CHECK(pdf.count("/Type /Page\n") == 1);
}

// To be looked at: GK_BOOK=demo.gkbook test_ui "[.pdf]"; fixtures/pictures.h says where.
TEST_CASE("Every report of a logbook as a PDF", "[.pdf]") {
  const auto folder = pictureFolder();
  const auto path = qEnvironmentVariable("GK_BOOK");
  REQUIRE_FALSE(path.isEmpty());
  base::ManualClock clock{base::atLocal(*base::Date::parse("2026-11-17"), std::chrono::hours(10),
                                        std::chrono::hours(-5))};
  base::SeededRandom random{5};
  const base::Path book(ui::toStd(path));
  auto session =
      must(session::Session::open(book, base::LaptopId(base::makeUuid7(clock.now().at, random)),
                                  {clock, random}, store::Access::readOnly));
  auto passphrase = must(base::readFile(book.parent_path() / "passphrase.txt"));
  passphrase.erase(passphrase.find_last_not_of("\r\n") + 1);
  must(session.unlock(passphrase));
  const auto write = [&](const QString& name, const std::string& title,
                         const std::vector<Table>& tables) {
    for (const auto paper : {ui::PaperSize::letter, ui::PaperSize::a4}) {
      auto on = foot;
      on.paper = paper;
      QFile file(folder + u'/' + name + u'-' + ui::toQt(base::nameOf(paper)) + u".pdf"_s);
      REQUIRE(file.open(QIODevice::WriteOnly));
      file.write(ui::reportPdf(title, tables, on));
      staysInside(ReportSheets(title, tables, on));
    }
  };
  const auto terms = must(session.terms());
  const auto today = clock.now().date();
  const auto records = must(session.termRecords(terms.back().id, today));
  for (std::size_t i = 0; i < base::enumCount<reports::ReportKind>; ++i) {
    const auto kind = static_cast<reports::ReportKind>(i);
    write(ui::toQt(base::nameOf(kind)).replace(u' ', u'-'), reports::reportTitle(kind, records),
          reports::reportOf(kind, records, withTermAsYear(records)));
  }
  const auto days = must(session.days(terms.back().id));
  const auto newest = std::max_element(days.begin(), days.end(), [](const auto& a, const auto& b) {
    return a.value.date < b.value.date;
  });
  const auto day = must(session.dayRecords(newest->id));
  write(u"close-out"_s, "Close-out",
        reports::closeOutTables(reports::closeOut(day, must(session.names(day)))));
}
