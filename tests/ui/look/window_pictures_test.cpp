#include "demo.h"
#include "support/built_demo.h"
#include "ui/chair/chair_page.h"
#include "ui/fixtures/pictures.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/lists/report_browser.h"
#include "ui/totals/totals_page.h"
#include "ui/widgets/timer_view.h"

using namespace gk;
using namespace gk::test;
using ui::Scheme;

namespace {

/// The whole window on the demonstration's morning, with a provider selected.
class DemoWindow : public Window {
 public:
  DemoWindow() {
    copyDemo(folder.path(), demo::Until::partDay);
    clock.advance(std::chrono::minutes(75)); // after the newest entry of the story
    open();
    window->openBook(ui::toQt((folder / "demo.gkbook").string()));
    give(demo::passphrase);
    auto& session = window->book()->session();
    auto setup = window->book()->acting().now();
    for (const auto& member : must(session.members()))
      if (!setup.author && member.value.may.has(roster::Task::place)) setup.author = member.id;
    for (const auto& lot : must(session.lots())) {
      if (!kit::checkUsable(lot.value, *base::Date::parse("2026-11-17"))) continue;
      if (lot.value.kind == kit::MaterialKind::sealantLightCure) setup.sealant = lot.id;
      if (lot.value.kind == kit::MaterialKind::etchant) setup.etchant = lot.id;
      if (lot.value.kind == kit::MaterialKind::varnish) setup.varnish = lot.id;
    }
    for (const auto& light : must(session.lights()))
      if (light.value.inService) setup.light = light.id;
    window->book()->acting().change(setup);
    chair = window->findChild<ui::ChairPage*>();
  }

  void wear(Scheme scheme, int percent) {
    ui::dress({scheme, percent});
    QCoreApplication::processEvents();
    window->resize(1366, 700);
    QCoreApplication::processEvents();
  }
  void save(const QString& name) {
    QCoreApplication::processEvents();
    QTest::qWait(1);
    savePicture(*window, name);
  }
  void chairKey(Qt::Key key) {
    clock.advance(std::chrono::milliseconds(300)); // as hands, no scan
    QTest::keyClick(chair, key);
    QTest::keyClick(chair, Qt::Key_CapsLock);
    QCoreApplication::processEvents();
  }
  void chairKeys(const char* keys) {
    for (const char* key = keys; *key != 0; ++key)
      chairKey(static_cast<Qt::Key>(*key));
  }
  void run(int seconds) {
    auto* timer = chair->findChild<ui::TimerView*>();
    for (int i = 0; i < seconds; ++i) {
      clock.advance(std::chrono::seconds(1));
      timer->tick();
    }
  }

  ui::ChairPage* chair = nullptr;
};

} // namespace

// To be looked at beside the drawings: test_ui "[.pictures]"; fixtures/pictures.h says where.
TEST_CASE("Every page of the demonstration's morning in every look as pictures", "[.pictures]") {
  for (const auto& [scheme, percent, look] : {std::tuple(Scheme::light, 100, u"light"_s),
                                              {Scheme::dark, 100, u"dark"_s},
                                              {Scheme::highContrast, 100, u"high"_s},
                                              {Scheme::light, 150, u"light-150"_s}}) {
    DemoWindow desk;
    desk.wear(scheme, percent);
    for (const auto& [key, name] : {std::pair(Qt::Key_F1, u"board"_s),
                                    {Qt::Key_F2, u"chair-empty"_s},
                                    {Qt::Key_F3, u"close-out"_s},
                                    {Qt::Key_F5, u"team"_s},
                                    {Qt::Key_F6, u"safety"_s},
                                    {Qt::Key_F7, u"incident"_s},
                                    {Qt::Key_F8, u"desk"_s},
                                    {Qt::Key_F9, u"check"_s},
                                    {Qt::Key_F10, u"settings"_s}}) {
      press(*desk.window, key);
      desk.save(u"w-%1-%2"_s.arg(look, name));
      if (key == Qt::Key_F7) press(*desk.window, Qt::Key_F1);
    }
    press(*desk.window, Qt::Key_F3);
    auto& closing = *part<QWidget>(*desk.window, u"closeOutPage"_s).findChild<ui::ReportBrowser*>();
    for (int section = 0; section < static_cast<int>(closing.tables().size()); section += 3) {
      closing.choose(section);
      desk.save(u"w-%1-close-out-%2"_s.arg(look).arg(section));
    }
    press(*desk.window, Qt::Key_F4);
    auto& totals = part<ui::TotalsPage>(*desk.window, u"totalsPage"_s);
    REQUIRE(QTest::qWaitFor([&] { return !totals.isCounting(); }, 60000));
    desk.save(u"w-%1-totals"_s.arg(look));
    press(*desk.window, Qt::Key_V, Qt::AltModifier);
    REQUIRE(QTest::qWaitFor([&] { return !totals.isCounting(); }, 60000));
    desk.save(u"w-%1-totals-turned"_s.arg(look));
    auto& reports = *totals.findChild<ui::ReportBrowser*>();
    for (int section = 0; section < static_cast<int>(reports.tables().size()); ++section) {
      reports.choose(section);
      desk.save(u"w-%1-totals-%2"_s.arg(look).arg(section));
    }
    press(*desk.window, Qt::Key_F1);
    press(*desk.window, Qt::Key_F1, Qt::ShiftModifier);
    desk.save(u"w-%1-keys"_s.arg(look));
    press(*desk.window, Qt::Key_Escape);
    press(*desk.window, Qt::Key_U, Qt::AltModifier);
    desk.save(u"w-%1-runners"_s.arg(look));
    press(*desk.window, Qt::Key_Escape);

    auto& search = part<QLineEdit>(*desk.window, u"boardSearch"_s);
    search.setText(u"Calla"_s); // who has an allergy
    QTest::keyClick(&search, Qt::Key_Return);
    REQUIRE(desk.chair->isOccupied());
    desk.save(u"w-%1-identity"_s.arg(look));
    desk.chairKey(Qt::Key_PageDown);
    desk.chairKey(Qt::Key_Left);
    desk.chairKey(Qt::Key_Return);
    desk.save(u"w-%1-screening"_s.arg(look));
    desk.chairKeys("ZSECS");
    desk.save(u"w-%1-screened"_s.arg(look));
    desk.chairKeys("45"); // a cavity is charted: early care
    desk.save(u"w-%1-plan"_s.arg(look));
    desk.chairKey(Qt::Key_Return);
    REQUIRE(
        part<QWidget>(*desk.window, u"fieldPanel"_s).isVisible()); // what is shown is what is said
    desk.save(u"w-%1-keep-dry"_s.arg(look));
    desk.chairKey(Qt::Key_Return);
    desk.chairKey(Qt::Key_Space);
    desk.run(9);
    desk.save(u"w-%1-etching"_s.arg(look));
    desk.run(11);
    desk.chairKey(Qt::Key_Space);
    desk.run(10);
    desk.save(u"w-%1-frosty"_s.arg(look));
    desk.chairKeys("5W");
    desk.save(u"w-%1-contaminated-question"_s.arg(look));
    desk.chairKey(Qt::Key_Return);
    desk.save(u"w-%1-contaminated"_s.arg(look));
    desk.chairKey(Qt::Key_Space);
    desk.run(20);
    desk.chairKey(Qt::Key_Space);
    desk.run(10);
    desk.chairKeys("5");
    desk.save(u"w-%1-place"_s.arg(look));
    desk.chairKey(Qt::Key_Space);
    desk.run(8);
    desk.save(u"w-%1-curing"_s.arg(look));
    desk.run(12);
    for (int exposure = 0; exposure < 3; ++exposure) {
      desk.chairKey(Qt::Key_Space);
      desk.run(20);
    }
    desk.save(u"w-%1-check-tooth"_s.arg(look));
    desk.chairKeys("55");
    desk.save(u"w-%1-left-side"_s.arg(look));
    desk.chairKeys("X");
    desk.save(u"w-%1-stop"_s.arg(look));
    desk.chairKey(Qt::Key_Return);
    desk.save(u"w-%1-finish"_s.arg(look));
    press(*desk.window, Qt::Key_F12);
    desk.save(u"w-%1-locked"_s.arg(look));
    // Through the filter of the chair's lamp.
    if (scheme == Scheme::light && percent == 100)
      for (const auto& name : QDir(pictureFolder()).entryList({u"w-light-*.png"_s})) {
        if (name.contains(u"150"_s) || name.contains(u"amber"_s)) continue;
        const QImage plain(pictureFolder() + u'/' + name);
        CHECK(
            seen(plain, Eyes::amber)
                .save(pictureFolder() + u'/' + QString(name).replace(u"w-light"_s, u"w-amber"_s)));
      }
  }
  ui::dress();
}
