#include "ui/asking/pedal.h"
#include "ui/files/laptop_page.h"
#include "ui/fixtures/chair_fixture.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/mouth/mouth_map.h"

#include <QLayout>

using namespace gk;
using namespace gk::test;

namespace {

QKeyEvent down(int key, const QString& text = {}, Qt::KeyboardModifiers with = Qt::NoModifier,
               quint32 place = 0) {
  return {QEvent::KeyPress, key, with, place, 0, 0, text};
}

} // namespace

TEST_CASE("The digits of a French keyboard are read by their places without Shift") {
  // evdev numbers the row 1 to 0 from 2 to 11; X11 and Wayland add 8.
  const std::vector<std::pair<Qt::Key, QString>> row{std::pair(Qt::Key_Ampersand, u"&"_s),
                                                     {Qt::Key_Eacute, u"é"_s},
                                                     {Qt::Key_QuoteDbl, u"\""_s},
                                                     {Qt::Key_Apostrophe, u"'"_s},
                                                     {Qt::Key_ParenLeft, u"("_s},
                                                     {Qt::Key_Minus, u"-"_s},
                                                     {Qt::Key_Egrave, u"è"_s},
                                                     {Qt::Key_Underscore, u"_"_s},
                                                     {Qt::Key_Ccedilla, u"ç"_s},
                                                     {Qt::Key_Agrave, u"à"_s}};
  for (quint32 i = 0; i < row.size(); ++i) {
    const int digit = Qt::Key_0 + static_cast<int>(i + 1) % 10;
    const auto& [key, text] = row[i];
    CHECK(ui::chairKey(down(key, text, Qt::NoModifier, 10 + i)) == digit);
    CHECK(ui::chairKey(down(key, text)) == digit); // where the system names no place
    CHECK(ui::chairKey(down(digit, {}, Qt::ShiftModifier, 10 + i)) == digit);
  }
}

TEST_CASE("Letters are read by what is printed on the cap, wherever it lies") {
  CHECK(ui::chairKey(down(Qt::Key_A, u"a"_s, Qt::NoModifier, 24)) ==
        Qt::Key_A); // French: left of Z
  CHECK(ui::chairKey(down(Qt::Key_W, u"w"_s, Qt::NoModifier, 52)) == Qt::Key_W);
  CHECK(ui::chairKey(down(Qt::Key_Ntilde, u"ñ"_s, Qt::NoModifier, 47)) == Qt::Key_Ntilde);
}

TEST_CASE("The corners of the number pad are 7 9 1 3 with and without its lock") {
  for (const auto& [off, on] : {std::pair(Qt::Key_Home, Qt::Key_7),
                                {Qt::Key_PageUp, Qt::Key_9},
                                {Qt::Key_End, Qt::Key_1},
                                {Qt::Key_PageDown, Qt::Key_3},
                                {Qt::Key_Clear, Qt::Key_5},
                                {Qt::Key_Left, Qt::Key_4}}) {
    CHECK(ui::chairKey(down(off, {}, Qt::KeypadModifier, 79)) == on);
    CHECK(ui::chairKey(down(on, {}, Qt::KeypadModifier, 79)) == on);
  }
  CHECK(ui::chairKey(down(Qt::Key_Left)) == Qt::Key_Left); // the arrows beside the pad
}

TEST_CASE("A French keyboard and its number pad work the chair") {
  Chair chair;
  const auto child = chair.clinic.child("Mina");
  REQUIRE(chair.page->take(child, chair.clinic.day));
  const auto send = [&](QKeyEvent event) { QCoreApplication::sendEvent(chair.page.get(), &event); };
  send(down(Qt::Key_Ampersand, u"&"_s, Qt::NoModifier, 10)); // 1: begins a number
  CHECK(chair.text("identityLookUp").startsWith(u"Looking up: 1 "_s));
  chair.press(Qt::Key_Escape);
  chair.press(Qt::Key_Left); // name said, birth date agrees
  chair.press(Qt::Key_Return);
  REQUIRE(chair.shows("screeningPanel"));
  auto* map = chair.page->findChild<ui::MouthMap*>();
  for (const auto& [cap, tooth] : {std::pair(Qt::Key_PageUp, 26),
                                   {Qt::Key_PageDown, 36},
                                   {Qt::Key_End, 46},
                                   {Qt::Key_Home, 16}}) {
    send(down(cap, {}, Qt::KeypadModifier, 81));
    CHECK(map->selected() == dentition::toothAt(tooth));
  }
  chair.press("ZSSSS");
  for (int answer = 0; answer < 3; ++answer)
    send(down(Qt::Key_Apostrophe, u"'"_s, Qt::NoModifier, 13)); // 4
  chair.press(Qt::Key_Return);
  chair.press(Qt::Key_Return);
  chair.press(Qt::Key_Space);
  chair.run(20);
  chair.press(Qt::Key_Space);
  chair.run(10);
  send(down(Qt::Key_ParenLeft, u"("_s, Qt::NoModifier, 14)); // 5: frosty
  CHECK(chair.text("fieldTitle").contains(u"Place sealant"_s));
}

TEST_CASE("A pedal is taught by pressing it once and starts what is armed") {
  Chair chair;
  ui::LaptopPage laptop(chair.context, nullptr);
  QString news;
  QObject::connect(&laptop, &ui::LaptopPage::said, &laptop,
                   [&](const QString& said) { news = said; });
  showActive(laptop);
  press(laptop, Qt::Key_P, Qt::AltModifier);
  QTest::keyClick(&laptop, Qt::Key_W);
  CHECK(news.startsWith(u"W is already used at the chair"_s));
  CHECK_FALSE(chair.acting.habits().pedal.has_value());
  QTest::keyClick(&laptop, Qt::Key_F13);
  REQUIRE(chair.acting.habits().pedal.has_value());
  CHECK(words(laptop, u"pedalState"_s).contains(u"F13"_s));

  const auto child = chair.clinic.child("Mina");
  REQUIRE(chair.page->take(child, chair.clinic.day));
  chair.press(Qt::Key_F13); // nothing is armed at the identity check
  chair.press(Qt::Key_Left);
  chair.press(Qt::Key_Return);
  chair.press(Qt::Key_F13); // nor while screening
  chair.screenFour();
  chair.press(Qt::Key_F13); // nor before the teeth are kept dry
  CHECK_FALSE(chair.page->isTiming());
  chair.press(Qt::Key_Return);
  chair.press("N"); // a line to write in
  chair.press(Qt::Key_F13);
  CHECK_FALSE(chair.page->isTiming());
  chair.press(Qt::Key_Escape);
  chair.press(Qt::Key_F13);
  CHECK(chair.page->isTiming());
  chair.run(20);
  chair.press(Qt::Key_F13);
  CHECK(chair.page->isTiming()); // the rinse has a clock of its own
}

TEST_CASE("A key without a name is known by its place, and Space needs no teaching") {
  Desk desk;
  ui::LaptopPage laptop(desk.context, nullptr);
  desk.listen(laptop);
  showActive(laptop);
  press(laptop, Qt::Key_P, Qt::AltModifier);
  auto odd = down(Qt::Key_unknown, {}, Qt::NoModifier, 201);
  QCoreApplication::sendEvent(&laptop, &odd);
  const auto pedal = desk.acting.habits().pedal;
  REQUIRE(pedal.has_value());
  CHECK(ui::isPedal(pedal, odd));
  CHECK_FALSE(ui::isPedal(pedal, down(Qt::Key_unknown, {}, Qt::NoModifier, 202)));
  press(laptop, Qt::Key_P, Qt::AltModifier);
  auto media = down(Qt::Key_MediaPlay, {}, Qt::NoModifier, 172);
  QCoreApplication::sendEvent(&laptop, &media);
  CHECK(ui::isPedal(desk.acting.habits().pedal, media));
  press(laptop, Qt::Key_P, Qt::AltModifier);
  QTest::keyClick(&laptop, Qt::Key_Space);
  CHECK_FALSE(desk.acting.habits().pedal.has_value());
  CHECK(desk.news.contains(u"works without setup"_s));
}

TEST_CASE("The keys and the timer change sides and the mouth does not") {
  Chair chair;
  chair.seat(chair.clinic.child("Mina"));
  chair.screenFour();
  chair.press(Qt::Key_Return);
  const auto left = [&](const char* name) {
    auto* widget = chair.page->findChild<QWidget*>(QString::fromLatin1(name));
    return widget->mapTo(chair.page.get(), QPoint()).x();
  };
  const auto upperRight = [&] { return left("tile16") < left("tile26"); };
  CHECK(left("timerView") > left("tile26"));
  CHECK(upperRight());
  auto habits = chair.acting.habits();
  habits.strip = ui::Side::left;
  chair.acting.keep(habits);
  chair.page->layout()->activate();
  QCoreApplication::processEvents();
  CHECK(left("timerView") < left("tile16"));
  CHECK(upperRight());
}

TEST_CASE("The order of work of this laptop decides which teeth come next") {
  Chair chair;
  auto habits = chair.acting.habits();
  habits.order = ui::WorkOrder::arches;
  chair.acting.keep(habits);
  chair.seat(chair.clinic.child("Mina"));
  chair.screenFour();
  CHECK(chair.text("fieldTitle").contains(u"Upper teeth"_s));
  chair.press("G");
  CHECK(chair.text("fieldTitle").contains(u"quadrant"_s));
}
