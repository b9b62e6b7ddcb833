#include "ui/prints/prints_page.h"

#include "support/outside.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/fixtures/pictures.h"
#include "ui/look/look.h"

#include <QComboBox>
#include <QPainter>
#include <QProcess>
#include <QStandardPaths>

#include <fstream>

using namespace gk;
using namespace gk::test;
using What = ui::PrintsPage::What;

namespace {

struct Prints : Desk {
  ui::PrintsPage page{context, nullptr};

  Prints() {
    ui::dress();
    listen(page);
    showActive(page);
  }
  void pick(const char* name, int place) {
    part<QComboBox>(page, QString::fromLatin1(name)).setCurrentIndex(place);
  }
  QByteArray print(What what) {
    page.choose(what);
    prompter.prints = {true};
    prompter.printed.clear();
    press(page, Qt::Key_P, Qt::AltModifier);
    return prompter.printed;
  }
  std::string number(roster::ChildId child) {
    return must(clinic.session.child(child)).value.number;
  }
  base::Path write(const QByteArray& pdf, const char* name) {
    const auto path = *clinic.folder / name;
    std::ofstream(path, std::ios::binary) << pdf.toStdString();
    return path;
  }
};

bool isOnMachine(const char* program) {
  return !QStandardPaths::findExecutable(QString::fromLatin1(program)).isEmpty();
}

/// What a program says on its standard output.
QString runOutside(const QString& program, const QStringList& words) {
  QProcess process;
  process.start(program, words);
  REQUIRE(process.waitForFinished(60000));
  return QString::fromUtf8(process.readAllStandardOutput());
}

/// The codes of the first pages, as zbar reads them from pixels that poppler draws.
QStringList codesOn(const base::Path& pdf, int pages) {
  QStringList codes;
  for (int page = 1; page <= pages; ++page) {
    const auto picture = ui::toQt(pdf.string()) + u"-%1"_s.arg(page);
    runOutside(u"pdftoppm"_s, {u"-r"_s, u"150"_s, u"-png"_s, u"-singlefile"_s, u"-f"_s,
                               QString::number(page), ui::toQt(pdf.string()), picture});
    codes += runOutside(u"zbarimg"_s, {u"--quiet"_s, u"--raw"_s, picture + u".png"_s})
                 .split(u'\n', Qt::SkipEmptyParts);
  }
  codes.sort();
  return codes;
}

} // namespace

TEST_CASE("A consent form for each child without one, in the language of its letters; counted out",
          "[case-296]") {
  Prints prints;
  prints.clinic.child("Mina");
  prints.clinic.childWithoutForm("Lupe");
  prints.clinic.childWithoutForm("Ada");
  prints.page.refresh();
  prints.pick("printsWho", 1);
  prints.pick("printsSchool", 1);
  prints.prompter.confirms = {true};
  const auto pdf = prints.print(What::forms);
  CHECK(pdf.startsWith("%PDF"));
  CHECK(words(prints.page, u"printsWords"_s).startsWith(u"2 consent forms"_s));
  CHECK(words(prints.page, u"printsWords"_s).contains(u"Marked DRAFT"_s));
  const auto handouts = must(prints.clinic.session.handouts(prints.clinic.term));
  REQUIRE(handouts.size() == 1);
  CHECK(handouts.front().value.copies == 2);
  CHECK(prints.troubles.isEmpty());
}

TEST_CASE("Forms are in the language of the letters, and those that have none are counted",
          "[case-506]") {
  Prints prints;
  const auto speaking = [&](const char* name, const char* language) {
    const auto child = prints.clinic.childWithoutForm(name);
    auto who = must(prints.clinic.session.identity(child));
    who.guardians.front().language = language;
    must(prints.clinic.session.correctStudent(prints.clinic.by, child, {who, {}},
                                              "said on the form"));
  };
  speaking("Lupe", "castellano");
  speaking("Ada", "spa");
  speaking("Wren", "");
  prints.page.refresh();
  prints.pick("printsSchool", 1);
  prints.page.choose(What::forms);
  CHECK_FALSE(words(prints.page, u"printsWords"_s).contains(u"in English"_s));
  speaking("Osei", "Somali");
  prints.page.refresh();
  prints.page.choose(What::forms);
  CHECK(words(prints.page, u"printsWords"_s)
            .contains(u"1 prints in English: no form in the family's language"_s));
}

TEST_CASE("The shipped forms fit one sheet of either paper in letters that can be read",
          "[case-296]") {
  for (const auto& shipped : reports::shippedForms()) {
    const auto form =
        reports::ConsentTemplate::parse(std::string(shipped.file), shipped.text).value();
    const auto sheet = form.fill(
        "Larkmere County School Sealant Team", "000-555-0142",
        {"1043-0", "Maximiliana Tolliver-Reed-Hollowell", "Cobble Lantern Elementary", "2", "6"});
    for (const auto paper : {ui::PaperSize::letter, ui::PaperSize::a4})
      CHECK(ui::consentFormLetters(sheet, paper) >= ui::leastFormLetters);
  }
}

TEST_CASE("The paper sheet of a child fits one sheet of either paper, whatever it has to say",
          "[case-298]") {
  ui::FallbackSheet sheet{};
  sheet.sheet = u"P1117-1043"_s;
  sheet.number = "1043-0";
  sheet.name = u"Maximiliana Tolliver-Reed-Hollowell"_s;
  sheet.place = u"Cobble Lantern Elementary, room 6, grade 2"_s;
  sheet.consent = u"Form: NOT screening, NOT sealants, NOT fluoride varnish, NOT glass ionomer "
                  "sealants, NOT recheck and reseal"_s;
  for (int i = 0; i < 6; ++i)
    sheet.alerts += u"Sensory or behavior (ask) with some words about it"_s;
  for (const auto& tooth : dentition::permanentMolars())
    sheet.teeth += ui::toQt(tooth.words());
  for (const auto paper : {ui::PaperSize::letter, ui::PaperSize::a4}) {
    QImage picture(10, 10, QImage::Format_RGB32);
    QPainter painter(&picture);
    CHECK(ui::paintFallback(painter, sheet, paper) <= ui::sizeOf(paper).height() - 20);
  }
}

TEST_CASE("A program's own form beside the logbook takes the place of the shipped one",
          "[case-296]") {
  Prints prints;
  prints.clinic.childWithoutForm("Lupe");
  const auto folder = prints.clinic.session.path().parent_path() / "forms";
  must(base::makeFolder(folder));
  must(base::replaceFile(folder / "english.txt",
                         "language: English\nversion: own\napproved: Dr. Quill\ndraft: D\n-----\n"
                         "[] Yes\n__ Signature\n"));
  prints.page.refresh();
  CHECK_FALSE(words(prints.page, u"printsWords"_s).contains(u"DRAFT"_s));
  must(base::replaceFile(folder / "english.txt", "language: English\n"));
  prints.page.refresh();
  CHECK(prints.troubles.join(u' ').contains(u"english.txt"_s));
}

TEST_CASE("Every kind of page is printed, and nothing is while the names are locked",
          "[case-298]") {
  Prints prints;
  prints.clinic.child("Mina");
  prints.clinic.child("Lupe");
  prints.page.refresh();
  for (const auto what :
       {What::forms, What::blankForms, What::labels, What::rooms, What::day, What::sheets}) {
    INFO(static_cast<int>(what));
    CHECK(prints.print(what).startsWith("%PDF"));
  }
  CHECK(prints.troubles.isEmpty());
  prints.clinic.session.lock();
  prints.page.letGo();
  for (const auto what : {What::forms, What::labels, What::rooms, What::day, What::sheets})
    CHECK(prints.print(what).isEmpty());
  CHECK(words(prints.page, u"printsWords"_s).contains(u"locked"_s));
}

TEST_CASE("A form, a label or a sheet is printed again for one student alone", "[case-296]") {
  Prints prints;
  prints.clinic.child("Mina", "Tolliver-Reed");
  const auto lupe = prints.number(prints.clinic.child("Lupe", "Saltmarsh"));
  prints.page.refresh();
  auto& student = part<QLineEdit>(prints.page, u"printsStudent"_s);
  const auto said = [&](What what, const QString& typed) {
    prints.page.choose(what);
    student.setText(typed);
    Q_EMIT student.editingFinished();
    return words(prints.page, u"printsWords"_s);
  };
  CHECK(said(What::forms, {}).startsWith(u"2 consent forms"_s));
  CHECK(said(What::forms, ui::toQt(lupe)).startsWith(u"1 consent form,"_s));
  CHECK(said(What::labels, ui::toQt(lupe.substr(0, lupe.find('-')))).startsWith(u"1 label"_s));
  CHECK(said(What::sheets, u"reed mina"_s).startsWith(u"1 paper sheet,"_s));
  CHECK(said(What::forms, u"Wren"_s).startsWith(u"0 consent forms"_s));
  // A whole room's list is not one student's.
  CHECK(said(What::rooms, u"Wren"_s).contains(u"2 students"_s));
  CHECK_FALSE(student.isVisible());
  prints.page.letGo();
  CHECK(student.text().isEmpty());
}

TEST_CASE("The day's list and the paper sheets are printed ahead, for the day that is typed",
          "[case-298]") {
  Prints prints;
  prints.clinic.child("Mina");
  prints.page.refresh();
  auto& day = part<QLineEdit>(prints.page, u"printsDay"_s);
  const auto said = [&](What what, const QString& typed) {
    prints.page.choose(what);
    day.setText(typed);
    Q_EMIT day.editingFinished();
    return words(prints.page, u"printsWords"_s);
  };
  CHECK(said(What::day, u"11/24/2026"_s).contains(u"1 student with a yes on November 24, 2026"_s));
  CHECK(prints.print(What::sheets).startsWith("%PDF"));
  CHECK(said(What::day, u"11/34/2026"_s).startsWith(u"No such day"_s));
  CHECK(prints.print(What::day).isEmpty());
  // Other pages are of no day.
  CHECK(said(What::forms, u"11/34/2026"_s).startsWith(u"1 consent form,"_s));
  CHECK_FALSE(day.isVisible());
}

TEST_CASE("The printed code is the child's number and no more, as a decoder from outside reads it",
          "[case-297]") {
  if (!runsOutside("zbar", isOnMachine("zbarimg") && isOnMachine("pdftoppm"))) return;
  Prints prints;
  QStringList numbers;
  for (const auto* first : {"Mina", "Lupe", "Ada"})
    numbers += ui::toQt(prints.number(prints.clinic.child(first)));
  numbers.sort();
  prints.page.refresh();
  CHECK(codesOn(prints.write(prints.print(What::forms), "forms.pdf"), 3) == numbers);
  CHECK(codesOn(prints.write(prints.print(What::sheets), "sheets.pdf"), 3) == numbers);
  for (int sheet = 0; sheet < static_cast<int>(reports::labelSheets.size()); ++sheet) {
    prints.page.choose(What::labels);
    prints.pick("printsSheet", sheet);
    CHECK(codesOn(prints.write(prints.print(What::labels), "labels.pdf"), 1) == numbers);
  }
  CHECK(codesOn(prints.write(prints.print(What::blankForms), "blank.pdf"), 1).isEmpty());
}

TEST_CASE("Labels begin on the first free place of a part-used sheet", "[case-318]") {
  Prints prints;
  QStringList numbers;
  for (const auto* first : {"Mina", "Lupe", "Ada"})
    numbers += ui::toQt(prints.number(prints.clinic.child(first)));
  numbers.sort();
  prints.page.refresh();
  prints.page.choose(What::labels);
  auto& start = part<QLineEdit>(prints.page, u"printsFirstLabel"_s);
  REQUIRE(start.isVisible());
  const auto begin = [&](const QString& at) {
    start.setText(at);
    Q_EMIT start.editingFinished();
  };
  const auto said = [&] { return words(prints.page, u"printsWords"_s); };
  const auto pixmap = [&] {
    return part<QLabel>(prints.page, u"printsPreview"_s).pixmap().toImage();
  };
  const auto whole = pixmap();
  begin(u"29"_s); // two on this sheet of 30, one on the next
  CHECK(said().startsWith(u"3 labels or slips on 2 sheets"_s));
  CHECK(said().contains(u"The first is printed on label 29"_s));
  CHECK(pixmap() != whole);
  const auto picture = pixmap();
  const auto pdf = prints.print(What::labels);
  CHECK(start.text().isEmpty()); // the next sheet is a whole one
  CHECK(said().contains(u"on 1 sheet."_s));
  CHECK(pixmap() == whole);
  if (isOnMachine("zbarimg") && isOnMachine("pdftoppm")) {
    CHECK(codesOn(prints.write(pdf, "labels.pdf"), 2) == numbers);
    CHECK(codesOn(prints.write(pdf, "labels.pdf"), 1).size() == 2);
  }
  // What is no place of the sheet prints nothing, and says what is.
  for (const auto& wrong : {u"0"_s, u"31"_s, u"-1"_s, u"two"_s, u"1.5"_s}) {
    begin(wrong);
    CHECK(said().contains(u"labels 1 to 30"_s));
    CHECK(prints.print(What::labels).isEmpty());
  }
  prints.pick("printsSheet", 1);
  begin(u"11"_s);
  CHECK(said().contains(u"labels 1 to 10"_s));
  begin(u"10"_s);
  CHECK(said().startsWith(u"3 labels or slips on 2 sheets"_s));
  CHECK(prints.troubles.isEmpty());
}

TEST_CASE("Pictures of printing, and its pages", "[.pictures]") {
  for (const int percent : {100, 150}) {
    Prints prints;
    ui::dress({.percent = percent});
    prints.page.resize(1260, 640);
    const auto mina = prints.clinic.child("Mina", "Tolliver-Reed");
    must(prints.clinic.session.enterFlag(prints.clinic.by, {.child = mina,
                                                            .kind = roster::FlagKind::asthma,
                                                            .action = roster::FlagAction::ask,
                                                            .detail = "inhaler in the office",
                                                            .decided = {}}));
    for (int i = 0; i < 8; ++i)
      prints.clinic.child("Child" + std::to_string(i));
    prints.page.refresh();
    for (const auto what : {What::forms, What::labels, What::rooms, What::day, What::sheets}) {
      prints.page.choose(what);
      QTest::qWait(30);
      const auto name = u"prints-%1-%2"_s.arg(static_cast<int>(what)).arg(percent);
      savePicture(prints.page, name);
      if (percent == 100)
        std::ofstream((pictureFolder() + u'/' + name + u".pdf"_s).toStdString(), std::ios::binary)
            << prints.print(what).toStdString();
    }
  }
  ui::dress();
}
