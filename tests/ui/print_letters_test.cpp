#include "support/letter_samples.h"
#include "ui/support/print_letters.h"
#include "ui/support/text.h"

#include <QImage>
#include <QPagedPaintDevice>
#include <QPainter>

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::test;
using namespace Qt::Literals::StringLiterals;
namespace paper = gk::ui::paper;

namespace {

constexpr int dots = 2; // a point

template <class Thing>
QImage picture(const Thing& thing, int page = 0) {
  QImage image(static_cast<int>(paper::width) * dots, static_cast<int>(paper::height) * dots,
               QImage::Format_RGB32);
  image.fill(Qt::white);
  QPainter painter(&image);
  painter.scale(dots, dots);
  ui::paintPage(painter, thing, page);
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

bool isGrey(const QImage& image) {
  for (int y = 0; y < image.height(); ++y)
    for (int x = 0; x < image.width(); ++x) {
      const auto dot = image.pixel(x, y);
      if (qRed(dot) != qGreen(dot) || qGreen(dot) != qBlue(dot)) return false;
    }
  return true;
}

const QRectF address(0, 0, paper::width, paper::firstFold - 2);
const QRectF body(paper::margin - 10, paper::textTop - 4, paper::width - 2 * paper::margin + 20,
                  paper::footTop - 2 - paper::textTop);

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

TEST_CASE("every letter stands on one sheet in both languages with nothing cut off") {
  const auto templates = shippedLetters();
  for (const auto& sample : letterSamples()) {
    for (const auto* language : {"English", "Spanish"}) {
      INFO(sample.name << " " << language);
      const auto letter = written(templates, sample, language);
      CHECK(ui::pagesOf(letter) == 1);
      const auto sheet = picture(letter);
      CHECK(isGrey(sheet));
      const auto text = ink(sheet, body);
      CHECK(text.left() >= paper::margin - 2);
      CHECK(text.right() <= paper::width - paper::margin + 1);
      CHECK(text.bottom() <= paper::footTop - 4);
    }
  }
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
  const auto pdf = ui::asPdf(u"letters"_s,
                             [&](QPagedPaintDevice& device) { ui::printLetters(device, letters); });
  CHECK(pdf.startsWith("%PDF-"));
  CHECK(pagesIn(pdf) == static_cast<qsizetype>(letters.size()));
}

TEST_CASE("a letter that a program made too long goes on on a second sheet of its own") {
  auto letter = written(shippedLetters(), sampleCalled("sealed"), "English");
  for (int i = 0; i < 30; ++i)
    letter.parts.push_back({reports::LetterBlock::paragraph, "One more line of advice."});
  CHECK(ui::pagesOf(letter) == 2);
  const auto second = picture(letter, 1);
  CHECK_FALSE(ink(second, body).isEmpty());
  CHECK(ink(second, address).height() > 20); // the name stands on it too
  const auto pdf = ui::asPdf(
      u"letters"_s, [&](QPagedPaintDevice& device) { ui::printLetters(device, {letter}); });
  CHECK(pagesIn(pdf) == 2);
}

TEST_CASE("a letter that runs from right to left begins at the right") {
  auto letter = written(shippedLetters(), sampleCalled("sealed"), "English");
  letter.mark.clear();
  letter.parts = {{reports::LetterBlock::paragraph, "אבג דהו"}};
  letter.child = "אבג";
  letter.rightToLeft = true;
  const auto sheet = picture(letter);
  CHECK(ink(sheet, body).left() > paper::width / 2);
  CHECK(ink(sheet, address).left() > paper::width / 2);
  letter.rightToLeft = false;
  letter.parts.front().text = "abc";
  CHECK(ink(picture(letter), body).right() < paper::width / 2);
}

TEST_CASE("the nurse's sheet stands on one page with lines to write on", "[case-81]") {
  CHECK(ui::pagesOf(form()) == 1);
  const auto sheet = picture(form());
  CHECK(isGrey(sheet));
  const QRectF page(paper::margin - 10, 20, paper::width - 2 * paper::margin + 20,
                    paper::footTop - 24);
  CHECK(ink(sheet, page).right() <= paper::width - paper::margin + 1);
  CHECK(ink(sheet, page).bottom() <= paper::footTop - 4);
}

// To be looked at: GK_PICTURES=folder test_ui "[.pictures]".
TEST_CASE("Every letter in both languages and the nurse's sheet as pictures", "[.pictures]") {
  const auto folder = qEnvironmentVariable("GK_PICTURES");
  REQUIRE_FALSE(folder.isEmpty());
  const auto templates = shippedLetters();
  for (const auto& sample : letterSamples())
    for (const auto* language : {"English", "Spanish"}) {
      const auto name = folder + u"/letter "_s + ui::toQt(sample.name + " " + language);
      CHECK(picture(written(templates, sample, language)).save(name + u".png"_s));
    }
  CHECK(picture(form()).save(folder + u"/urgent form.png"_s));
}
