#include "ui/field/kit_line.h"
#include "ui/fixtures/chair_fixture.h"
#include "ui/keys/step_track.h"
#include "ui/look/look.h"
#include "ui/mouth/tooth_tile.h"

using namespace gk;
using namespace gk::test;
using namespace Qt::Literals::StringLiterals;

namespace {

constexpr int leastRead = 18; // pixels, at an arm's length

/// The usual look again, whatever a test wore.
struct UsualAfterPainting {
  ~UsualAfterPainting() { ui::dress(); }
};

/// A chair page on a small laptop whose child has an alert of many words.
class Painted : public Chair {
 public:
  explicit Painted(int percent) {
    ui::dress({ui::Scheme::light, percent});
    page->resize(1366, 690);
    mina = clinic.child("Mina", "Tolliver-Reed");
    for (const auto kind : {roster::FlagKind::latexAllergy, roster::FlagKind::rosinReaction})
      must(clinic.session.enterFlag(clinic.by, {*mina, kind, roster::FlagAction::stop,
                                                "rash from gloves and from a bandage, told by the "
                                                "mother at the door of the gym",
                                                false, ""}));
    seat(*mina);
  }

  void look(const char* step) const {
    QCoreApplication::processEvents();
    (void)page->grab();
    INFO(ui::lookNow().percent << " %, " << step);
    for (const auto* tile : page->findChildren<ui::ToothTile*>()) {
      if (!tile->isVisible()) continue;
      INFO(tile->objectName().toStdString() << ' ' << tile->width() << 'x' << tile->height() << ' '
                                            << tile->accessibleName().toStdString());
      CHECK(tile->smallestDrawn() >= leastRead);
      CHECK(tile->hasRoom());
      CHECK(tile->capsDrawn() > 0);
    }
    for (const auto* track : page->findChildren<ui::StepTrack*>())
      CHECK(track->smallestDrawn() >= leastRead);
    const auto* timer = page->findChild<ui::TimerView*>();
    if (timer->isVisible()) {
      INFO(timer->title().toStdString() << " / " << timer->note().toStdString());
      CHECK(timer->smallestDrawn() >= leastRead);
      CHECK(timer->hasRoom());
    }
    const auto* kit = page->findChild<ui::KitLine*>();
    if (kit->isVisible()) {
      INFO(kit->text().toStdString());
      CHECK(kit->smallestDrawn() >= leastRead);
      CHECK(kit->fontMetrics().horizontalAdvance(kit->text()) <= kit->width());
    }
    const auto* alert = page->findChild<QLabel*>(u"chairStop"_s);
    REQUIRE(alert->isVisible());
    INFO(alert->text().toStdString());
    CHECK(alert->font().pixelSize() >= leastRead);
    CHECK(alert->text().contains(u"ALLERGY: latex"_s));
    CHECK(alert->text().contains(u"ALLERGY: rosin"_s));
    CHECK(alert->heightForWidth(alert->width()) <= alert->height());
    CHECK(alert->visibleRegion() == QRegion(alert->rect()));
  }

  std::optional<roster::ChildId> mina;
};

} // namespace

TEST_CASE("Nothing that is painted at the chair is under 18 pixels, at any step and size",
          "[case-481]") {
  const UsualAfterPainting after;
  Painted chair(GENERATE(100, 150));
  chair.look("screening");
  chair.screenFour();
  chair.look("keep dry");
  chair.press("C21"); // held otherwise than usual
  chair.press(Qt::Key_Return);
  chair.look("etch");
  chair.press(Qt::Key_Space);
  chair.run(35);
  chair.look("etching too long");
  chair.press(Qt::Key_Space);
  chair.look("rinsing");
  chair.run(10);
  chair.press("5");
  chair.look("frosty");
  chair.press("W1");
  chair.look("contaminated");
  chair.etchToFrosty();
  chair.press("5");
  chair.look("placed");
  chair.cure();
  chair.press(Qt::Key_Space);
  chair.run(7);
  chair.look("curing");
}

TEST_CASE("A tile says what is on its tooth by now", "[case-302]") {
  Chair chair;
  chair.seat(chair.clinic.child("Mina"));
  chair.screenFour();
  chair.press(Qt::Key_Return);
  const auto says = [&](const char* word) {
    const auto spoken = chair.page->findChild<QWidget*>(u"tile16"_s)->accessibleName();
    INFO(spoken.toStdString());
    CHECK(spoken.contains(QString::fromLatin1(word)));
  };
  says("SEAL");
  chair.etchToFrosty();
  says("FROSTY");
  chair.press("5");
  says("PLACED");
  chair.cure();
  says("PLACED"); // one of two surfaces
  chair.cure();
  says("CURED");
}

TEST_CASE("Every word of a tile is read whole in the narrowest molar of a small laptop") {
  const UsualAfterPainting after;
  ui::dress({ui::Scheme::light, GENERATE(100, 150)});
  for (const auto& word : {u"unerupted"_s,
                           u"partially erupted"_s,
                           u"sound"_s,
                           u"SEAL"_s,
                           u"SEAL (non-cavitated)"_s,
                           u"REFER"_s,
                           u"RESEAL"_s,
                           u"REPAIR"_s,
                           u"filled"_s,
                           u"crown"_s,
                           u"missing"_s,
                           u"band"_s,
                           u"congenitally missing"_s,
                           u"exfoliated"_s,
                           u"primary retained"_s,
                           u"cannot be seen"_s,
                           u"fully retained"_s,
                           u"partially retained"_s,
                           u"not assessable"_s,
                           u"non-cavitated"_s,
                           u"sealed elsewhere"_s,
                           u"sealed, origin unknown"_s,
                           u"GLASS IONOMER"_s,
                           u"CONTAMINATED"_s,
                           u"WAITING"_s,
                           u"FROSTY"_s,
                           u"PLACED"_s,
                           u"CURED"_s,
                           u"done"_s,
                           u"stopped"_s})
    for (const auto& strip : {u"seal OL"_s, u"next: place sealant"_s, u"re-etch"_s, u"dry again"_s,
                              u"partially erupted, seal O, operculum, revisit"_s,
                              u"dentist first"_s, u"ours, Nov 17, 2026"_s, u"10:42 AM"_s}) {
      ui::ToothTile tile;
      tile.resize(149, 190);
      tile.setFace({dentition::toothAt(27), u"15"_s, ui::Mark::sound, word, strip}, false);
      (void)tile.grab();
      INFO(ui::lookNow().percent << " %: " << word.toStdString() << " / " << strip.toStdString());
      CHECK(tile.smallestDrawn() >= leastRead);
      CHECK(tile.hasRoom());
      CHECK(tile.capsDrawn() == 2);
    }
}
