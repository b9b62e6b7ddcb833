#include "base/files/files.h"
#include "ui/asking/decide_dialog.h"
#include "ui/desk/desk_page.h"
#include "ui/fixtures/picture_looks.h"
#include "ui/prints/prints_page.h"

#include <QTabWidget>

using namespace gk;
using namespace gk::test;

namespace {

/// The window on a day whose desk has something to show on every page.
class BusyDesk : public Window {
 public:
  explicit BusyDesk(PictureLook look) : look_(std::move(look)) {
    std::optional<base::By> by;
    {
      Clinic clinic(book(), session::BookKind::throwaway);
      const auto mina = clinic.childWithoutForm("Mina", "Tolliver");
      clinic.childWithoutForm("Jo", "Sedge");
      auto who = must(clinic.session.identity(mina));
      who.studentId = "70101";
      must(clinic.session.correctStudent(clinic.by, mina, {who, {}}, "said by the school"));
      const auto lupe = clinic.child("Lupe", "Saltmarsh");
      must(clinic.session.enterFlag(clinic.by,
                                    {lupe, roster::FlagKind::asthma, roster::FlagAction::ask,
                                     "inhaler in the office", false, ""}));
      number = ui::toQt(must(clinic.session.child(lupe)).value.number);
      by = clinic.by;
      must(clinic.session.backUp(backup()));
      must(clinic.session.enterSchool(clinic.by, {"Alder Hollow", "AH"}));
      must(clinic.session.finish());
      clock.setWall(clinic.clock.now());
    }
    openAndUnlock();
    ui::Setup setup;
    setup.author = by->author;
    window->book()->acting().change(setup);
    look_.wear(*this);
  }
  ~BusyDesk() { ui::dress(); }

  [[nodiscard]] base::Path backup() const { return folder / "backup.gkbook"; }
  void go(Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier) {
    clock.advance(std::chrono::milliseconds(300)); // as hands, no scan
    press(*window, key, with);
    QCoreApplication::processEvents();
  }
  void fill(const QString& line, const QString& text) const {
    part<QLineEdit>(*window, line).setText(text);
  }
  void save(const QString& page, const QString& what) const {
    INFO(page.toStdString());
    REQUIRE(shows(page));
    look_.save(*window, what);
  }

  QString number; ///< of a student with a form and an alert

 private:
  PictureLook look_;
};

} // namespace

// To be looked at beside the drawings: test_ui "[.pictures]"; fixtures/pictures.h says where.
TEST_CASE("A first run in every look as pictures", "[.pictures]") {
  for (const auto& look : pictureLooks()) {
    Window desk;
    desk.open();
    look.wear(desk);
    const auto fill = [&](const QString& line, const QString& text) {
      part<QLineEdit>(*desk.window, line).setText(text);
    };
    look.save(*desk.window, u"first-start"_s);
    fill(u"startPassphrase"_s, u"quiet gym floor"_s);
    fill(u"startAgain"_s, u"quiet gym floor"_s);
    press(*desk.window, Qt::Key_M, Qt::AltModifier);
    REQUIRE(desk.shows(u"programPage"_s));
    look.save(*desk.window, u"first-program"_s);
    fill(u"programName"_s, u"Larkmere County Team"_s);
    fill(u"programCounty"_s, u"Larkmere"_s);
    fill(u"programPhone"_s, u"000-555-0142"_s);
    desk.prompter->files = {ui::toQt(desk.book().string())};
    press(*desk.window, Qt::Key_M, Qt::AltModifier);
    REQUIRE(desk.window->book() != nullptr);
    REQUIRE(desk.shows(u"firstDayPage"_s));
    look.save(*desk.window, u"first-check-list"_s);
    press(*desk.window, Qt::Key_Return);
    look.save(*desk.window, u"first-missing"_s);
    press(*desk.window, Qt::Key_F1);
    look.save(*desk.window, u"first-board"_s);
  }
  ui::dress();
}

TEST_CASE("Form desk, printing, calendar and lists in every look as pictures", "[.pictures]") {
  for (const auto& look : pictureLooks()) {
    BusyDesk desk(look);
    desk.go(Qt::Key_F, Qt::ControlModifier);
    desk.go(Qt::Key_C, Qt::AltModifier);
    desk.save(u"formCountPage"_s, u"form-count"_s);
    desk.go(Qt::Key_L, Qt::AltModifier);
    desk.save(u"handoutsPage"_s, u"handouts"_s);
    desk.go(Qt::Key_P, Qt::ControlModifier);
    auto& prints = *desk.window->findChild<ui::PrintsPage*>();
    using What = ui::PrintsPage::What;
    for (const auto& [what, name] : {std::pair(What::forms, u"forms"_s),
                                     {What::blankForms, u"blank-forms"_s},
                                     {What::labels, u"labels"_s},
                                     {What::rooms, u"rooms"_s},
                                     {What::day, u"day"_s},
                                     {What::sheets, u"sheets"_s}}) {
      prints.choose(what);
      desk.save(u"printsPage"_s, u"prints-"_s + name);
    }
    desk.go(Qt::Key_T, Qt::ControlModifier);
    desk.go(Qt::Key_N, Qt::AltModifier);
    desk.fill(u"planDate"_s, u"11/24/2026"_s);
    desk.fill(u"planChairs"_s, u"2"_s);
    desk.fill(u"planNote"_s, u"Park behind the gym"_s);
    desk.save(u"calendarPage"_s, u"calendar-form"_s);
    desk.go(Qt::Key_S, Qt::AltModifier);
    desk.save(u"calendarPage"_s, u"calendar"_s);

    const auto list = desk.folder / "list.csv";
    must(base::replaceFile(list, "Cobble Lantern,,,,,\nStudent ID,First,Last,DOB,Grade,Room\n"
                                 ",Jo,Sedge,2019-03-14,2,12\n70101,Mina,Marlowe,2019-03-14,2,12\n"
                                 ",Pia,Oake,2019-05-02,2,6\n,Al,Reedmace,2019-06-31,2,6\n"));
    desk.go(Qt::Key_F8);
    desk.window->findChild<ui::DeskPage*>()->turnTo(session::Area::rosters);
    desk.go(Qt::Key_I, Qt::AltModifier);
    desk.save(u"deskPage"_s, u"list-choice"_s);
    desk.prompter->files = {ui::toQt(list.string())};
    desk.go(Qt::Key_S, Qt::AltModifier);
    REQUIRE(desk.shows(u"listPage"_s));
    auto& tabs = part<QTabWidget>(*desk.window, u"listTabs"_s);
    CHECK(tabs.tabText(5) == u"Changed (2)"_s);
    for (int tab = 0; tab < tabs.count(); ++tab) {
      tabs.setCurrentIndex(tab);
      desk.save(u"listPage"_s, u"list-%1"_s.arg(tab));
    }

    desk.go(Qt::Key_F, Qt::ControlModifier);
    desk.save(u"formDeskPage"_s, u"form-desk"_s);
    desk.fill(u"formFind"_s, desk.number);
    QTest::keyClick(&part<QLineEdit>(*desk.window, u"formFind"_s), Qt::Key_Return);
    desk.go(Qt::Key_Y);
    desk.save(u"formDeskPage"_s, u"form-desk-student"_s);
  }
}

TEST_CASE("The PIN pad in every look as pictures", "[.pictures]") {
  for (const auto& look : pictureLooks()) {
    Window desk;
    {
      Clinic clinic(desk.book(), session::BookKind::throwaway);
      must(clinic.session.setPin({clinic.hygienist, {}}, clinic.hygienist, "2580"));
      must(clinic.session.finish());
    }
    desk.openAndUnlock();
    look.wear(desk);
    REQUIRE(desk.shows(u"pinPad"_s));
    press(*desk.window, Qt::Key_9);
    look.save(*desk.window, u"pin-pad"_s);
    for (const auto digit : {Qt::Key_0, Qt::Key_3, Qt::Key_8, Qt::Key_Return})
      press(*desk.window, digit);
    look.save(*desk.window, u"pin-wrong"_s);
    // And where one act is confirmed by it.
    look.saveAsked(*desk.window, u"pin-question"_s, [](ui::QtPrompter& asks) {
      CHECK_FALSE(asks.pin(u"PIN of Oriel Fenwhistle, who confirms the placements"_s));
    });
  }
  ui::dress();
}

TEST_CASE("What a restore asks in every look as pictures", "[.pictures]") {
  for (const auto& look : pictureLooks()) {
    BusyDesk desk(look);
    desk.prompter->files = {ui::toQt(desk.backup().string())};
    desk.go(Qt::Key_F10);
    desk.save(u"laptopPage"_s, u"restore-settings"_s);
    desk.go(Qt::Key_T, Qt::AltModifier);
    REQUIRE(QTest::qWaitFor([&] { return !desk.prompter->shown.empty(); }, 60000));
    ui::DecideDialog dialog(desk.window.get(), desk.prompter->decided.back(),
                            desk.prompter->offered.back(), &desk.prompter->shown.back());
    dialog.show();
    look.save(dialog, u"restore-question"_s);
    CHECK(QTest::qWaitFor([&] { return !desk.window->work().isBusy(); }, 60000));
  }
}
