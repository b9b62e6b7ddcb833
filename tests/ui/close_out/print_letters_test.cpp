#include "support/samples/letter_samples.h"
#include "ui/fixtures/pictures.h"
#include "ui/paper/print_letters.h"
#include "ui/support/text.h"

#include <QImage>
#include <QPagedPaintDevice>
#include <QPainter>

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::test;
using namespace Qt::Literals::StringLiterals;
using ui::PaperSize;

namespace {

constexpr int dots = 2; // a point

template <class Thing>
QImage picture(const Thing& thing, int page = 0, PaperSize paper = PaperSize::letter) {
  const auto size = ui::sizeOf(paper);
  QImage image(static_cast<int>(size.width()) * dots, static_cast<int>(size.height()) * dots,
               QImage::Format_RGB32);
  image.fill(Qt::white);
  QPainter painter(&image);
  painter.scale(dots, dots);
  ui::paintPage(painter, thing, paper, page);
  return image;
}

/// The smallest box around all ink within these points of the sheet, in points.
QRectF ink(const QImage& image, const QRectF& within) {
  QRect found;
  const QRect box(static_cast<int>(within.x() * dots), static_cast<int>(within.y() * dots),
                  static_cast<int>(within.width() * dots),
                  static_cast<int>(within.height() * dots));
  for (int y = box.top(); y <= box.bottom() && y < image.height(); ++y)
    for (int x = box.left(); x <= box.right() && x < image.width(); ++x)
      if (qGray(image.pixel(x, y)) < 200) found |= QRect(x, y, 1, 1);
  return {found.x() / double{dots}, found.y() / double{dots}, found.width() / double{dots},
          found.height() / double{dots}};
}

bool isGray(const QImage& image) {
  for (int y = 0; y < image.height(); ++y)
    for (int x = 0; x < image.width(); ++x) {
      const auto dot = image.pixel(x, y);
      if (qRed(dot) != qGreen(dot) || qGreen(dot) != qBlue(dot)) return false;
    }
  return true;
}

const ui::LetterSheet letterPaper = ui::letterSheet(PaperSize::letter);
constexpr double margin = ui::LetterSheet::margin;
const QRectF address(0, 0, letterPaper.width, letterPaper.firstFold() - 2);

QRectF bodyOf(const ui::LetterSheet& sheet) {
  return {margin - 10, sheet.textTop() - 4, sheet.textWidth() + 20,
          sheet.footTop() - 2 - sheet.textTop()};
}
const QRectF body = bodyOf(letterPaper);

qsizetype pagesIn(const QByteArray& pdf) {
  return pdf.count("/Type /Page\n");
}

reports::UrgentForm form() {
  reports::UrgentForm made{.child = roster::ChildId(base::Uuid{}),
                           .number = "1052-8",
                           .legalName = "Hana Brookmere",
                           .nameUsed = "Hana",
                           .room = "7",
                           .frame = {"Larkmere County School Sealant Team", "000-555-0142",
                                     "Cobble Lantern Elementary",
                                     base::Date::parse("2026-11-17").value()},
                           .finding = "swelling in the mouth or face",
                           .dentistBy = base::Date::parse("2026-11-19").value(),
                           .people = {{"Yuki Brookmere", "mother", "000-555-0152", "English"}},
                           .attempts = {{"2026-11-17 11:10", "IM", "phone", "no answer", ""}}};
  return made;
}

} // namespace

TEST_CASE("every letter stands on one sheet of either paper in both languages, nothing cut off") {
  const auto templates = shippedLetters();
  for (const auto paper : {PaperSize::letter, PaperSize::a4})
    for (const auto& sample : letterSamples()) {
      for (const auto* language : {"English", "Spanish"}) {
        INFO(sample.name << " " << language << " " << base::nameOf(paper));
        const auto letter = written(templates, sample, language);
        CHECK(ui::pagesOf(letter, paper) == 1);
        const auto sheet = picture(letter, 0, paper);
        CHECK(isGray(sheet));
        const auto at = ui::letterSheet(paper);
        const auto text = ink(sheet, bodyOf(at));
        CHECK(text.left() >= margin - 2);
        CHECK(text.right() <= at.width - margin + 1);
        CHECK(text.bottom() <= at.footTop() - 4);
      }
    }
}

TEST_CASE("a laptop prints on what is sold where it is until someone chooses") {
  CHECK(ui::usualPaper(QLocale(QLocale::English, QLocale::UnitedStates)) == PaperSize::letter);
  CHECK(ui::usualPaper(QLocale(QLocale::German, QLocale::Germany)) == PaperSize::a4);
  CHECK(ui::usualPaper(QLocale::c()) == PaperSize::letter);
}

TEST_CASE("only the name and the room can be read on the folded letter") {
  auto letter = written(shippedLetters(), sampleCalled("referral, early"), "English");
  const auto panel = ink(picture(letter), address);
  CHECK(panel.top() >= 110);
  CHECK(panel.bottom() <= 172);
  letter.child.clear();
  letter.room.clear();
  CHECK(ink(picture(letter), address).isEmpty());
}

TEST_CASE("a day's letters are one PDF with a sheet for each child") {
  const auto templates = shippedLetters();
  std::vector<reports::LetterText> letters;
  for (const auto& sample : letterSamples())
    letters.push_back(written(templates, sample, "English"));
  const auto pdf = ui::asPdf(u"letters"_s, [&](QPagedPaintDevice& device) {
    ui::printLetters(device, letters, PaperSize::letter);
  });
  CHECK(pdf.startsWith("%PDF-"));
  CHECK(pagesIn(pdf) == static_cast<qsizetype>(letters.size()));
}

TEST_CASE("a letter that a program made too long goes on on a second sheet of its own") {
  auto letter = written(shippedLetters(), sampleCalled("sealed"), "English");
  for (int i = 0; i < 30; ++i)
    letter.parts.push_back({reports::LetterBlock::paragraph, "One more line of advice."});
  CHECK(ui::pagesOf(letter, PaperSize::letter) == 2);
  const auto second = picture(letter, 1);
  CHECK_FALSE(ink(second, body).isEmpty());
  CHECK(ink(second, address).height() > 20); // the name stands on it too
  const auto pdf = ui::asPdf(u"letters"_s, [&](QPagedPaintDevice& device) {
    ui::printLetters(device, {letter}, PaperSize::letter);
  });
  CHECK(pagesIn(pdf) == 2);
}

TEST_CASE("a letter that runs from right to left begins at the right") {
  auto letter = written(shippedLetters(), sampleCalled("sealed"), "English");
  letter.mark.clear();
  letter.parts = {{reports::LetterBlock::paragraph, "אבג דהו"}};
  letter.child = "אבג";
  letter.rightToLeft = true;
  const auto sheet = picture(letter);
  CHECK(ink(sheet, body).left() > letterPaper.width / 2);
  CHECK(ink(sheet, address).left() > letterPaper.width / 2);
  letter.rightToLeft = false;
  letter.parts.front().text = "abc";
  CHECK(ink(picture(letter), body).right() < letterPaper.width / 2);
}

TEST_CASE("the nurse's sheet stands on one page with lines to write on", "[case-81]") {
  for (const auto paper : {PaperSize::letter, PaperSize::a4}) {
    CHECK(ui::pagesOf(form(), paper) == 1);
    const auto sheet = picture(form(), 0, paper);
    CHECK(isGray(sheet));
    const auto at = ui::letterSheet(paper);
    const QRectF page(margin - 10, 20, at.textWidth() + 20, at.footTop() - 24);
    CHECK(ink(sheet, page).right() <= at.width - margin + 1);
    CHECK(ink(sheet, page).bottom() <= at.footTop() - 4);
  }
}

// To be looked at: test_ui "[.pictures]".
TEST_CASE("Every letter in both languages and the nurse's sheet as pictures", "[.pictures]") {
  const auto folder = pictureFolder();
  const auto templates = shippedLetters();
  for (const auto& sample : letterSamples())
    for (const auto* language : {"English", "Spanish"}) {
      const auto name = folder + u"/letter "_s + ui::toQt(sample.name + " " + language);
      CHECK(picture(written(templates, sample, language)).save(name + u".png"_s));
    }
  CHECK(picture(form()).save(folder + u"/urgent form.png"_s));
}
