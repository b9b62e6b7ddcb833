#include "ui/fixtures/chair_fixture.h"
#include "ui/fixtures/pictures.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/mouth/mouth_map.h"

using namespace gk;
using namespace gk::test;
using ui::Mark;
using ui::Scheme;

// Pictures to look at: test_ui "[.pictures]"; fixtures/pictures.h says where they go.
TEST_CASE("The chair and its pages in every look as pictures", "[.pictures]") {
  for (const auto& [scheme, percent, size, name] :
       {std::tuple(Scheme::light, 100, QSize(1366, 768), u"light"_s),
        {Scheme::dark, 100, QSize(1366, 768), u"dark"_s},
        {Scheme::highContrast, 100, QSize(1366, 768), u"high"_s},
        {Scheme::light, 150, QSize(1366, 768), u"light-150"_s},
        {Scheme::light, 200, QSize(1366, 768), u"light-200"_s},
        {Scheme::light, 200, QSize(1920, 1080), u"light-200-wide"_s}}) {
    ui::dress({scheme, percent});
    Window desk;
    desk.fill(true);
    desk.openAndUnlock();
    ui::dress({scheme, percent});
    desk.window->resize(size);
    const bool filters = name == u"light"_s;
    auto& chair = *desk.window->findChild<ui::ChairPage*>();
    const auto press = [&](const char* keys) {
      for (const char* key = keys; *key != 0; ++key) {
        desk.clock.advance(std::chrono::milliseconds(60)); // as hands, no scan
        QTest::keyClick(&chair, static_cast<Qt::Key>(*key));
      }
      QTest::keyClick(&chair, Qt::Key_CapsLock); // lets go of the last one
    };
    press("ZSEC");
    savePicture(*desk.window, name + u"-screening"_s, filters);
    press("T44");
    savePicture(*desk.window, name + u"-screened"_s);
    test::press(*desk.window, Qt::Key_F1);
    savePicture(*desk.window, name + u"-board"_s, filters);
    test::press(*desk.window, Qt::Key_U, Qt::AltModifier);
    savePicture(*desk.window, name + u"-runners"_s);
    test::press(*desk.window, Qt::Key_F3);
    savePicture(*desk.window, name + u"-close-out"_s, filters);
    desk.window.reset();

    Chair visit;
    visit.page->resize(size - QSize(0, 50));
    const auto mina = visit.clinic.child("Mina", "Tolliver-Reed");
    must(visit.clinic.session.enterFlag(visit.clinic.by,
                                        {mina, roster::FlagKind::latexAllergy,
                                         roster::FlagAction::stop, "rash from gloves", false, ""}));
    REQUIRE(visit.page->take(mina, visit.clinic.day));
    savePicture(*visit.page, name + u"-identity"_s, filters);
    visit.press(Qt::Key_PageDown);
    visit.press(Qt::Key_Left);
    visit.press(Qt::Key_Return);
    visit.screenFour();
    visit.press(Qt::Key_Return);
    visit.etchToFrosty();
    visit.cure();
    visit.press(Qt::Key_Space);
    visit.run(7);
    savePicture(*visit.page, name + u"-curing"_s, filters);
  }
  ui::dress();
}

TEST_CASE("Every state of a tooth as pictures", "[.pictures]") {
  const std::array words{u""_s,
                         u"unerupted"_s,
                         u"partially erupted"_s,
                         u"sound"_s,
                         u"SEAL"_s,
                         u"SEAL (non-cavitated)"_s,
                         u"REFER"_s,
                         u"filled"_s,
                         u"crown"_s,
                         u"missing"_s,
                         u"fully retained"_s,
                         u"partially retained"_s,
                         u"missing"_s,
                         u"sealed elsewhere"_s,
                         u"GLASS IONOMER"_s,
                         u"FROSTY"_s,
                         u"PLACED"_s,
                         u"CURED"_s,
                         u"done"_s,
                         u"CONTAMINATED"_s,
                         u"stopped"_s};
  const std::array teeth{17, 16, 26, 27, 47, 46, 36, 37};
  for (std::size_t from = 0; from < words.size(); from += teeth.size()) {
    std::vector<ui::TileFace> faces;
    for (std::size_t i = 0; i < teeth.size(); ++i) {
      const auto at = std::min(from + i, words.size() - 1);
      faces.push_back({dentition::toothAt(teeth[i]), QString::number(teeth[i]),
                       static_cast<Mark>(at), words[at], u"strip"_s});
    }
    ui::MouthMap map;
    map.resize(760, 560);
    map.setFaces(faces);
    savePicture(map, u"states-%1"_s.arg(from), true);
  }
}
