#include "ui/asking/decide_dialog.h"
#include "ui/desk/desk_page.h"
#include "ui/fixtures/later_fixture.h"
#include "ui/fixtures/picture_looks.h"

#include <QListWidget>

using namespace gk;
using namespace gk::test;

namespace {

/// The window on a day of a program that waits for the dentist's exam.
class DentistsDay : public Window {
 public:
  explicit DentistsDay(const PictureLook& look) : look_(look) {
    std::optional<base::MemberId> author;
    {
      Clinic clinic(book(), session::BookKind::throwaway, roster::Supervision::dentistExamRequired);
      clinic.child("Mina", "Tolliver-Reed");
      clinic.child("Lupe", "Saltmarsh");
      author = clinic.hygienist;
      must(clinic.session.finish());
    }
    openAndUnlock();
    ui::Setup setup;
    setup.author = author;
    window->book()->acting().change(setup);
    look_.wear(*this);
  }
  ~DentistsDay() { ui::dress(); }

  void go(Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier) {
    clock.advance(std::chrono::milliseconds(300)); // as hands, no scan
    press(*window, key, with);
    QCoreApplication::processEvents();
  }
  /// A page that came up over the board is saved, and left.
  void saveForm(Qt::Key key, const QString& sign, const QString& what) {
    INFO(what.toStdString());
    go(key, Qt::AltModifier);
    REQUIRE(shows(sign));
    look_.save(*window, what);
    go(Qt::Key_Escape);
    REQUIRE(shows(u"boardSearch"_s));
  }

 private:
  PictureLook look_;
};

} // namespace

// To be looked at beside the drawings: test_ui "[.pictures]"; fixtures/pictures.h says where.
TEST_CASE("The board's forms and the cover in every look as pictures", "[.pictures]") {
  for (const auto& look : pictureLooks()) {
    DentistsDay desk(look);
    desk.go(Qt::Key_F1);
    desk.saveForm(Qt::Key_N, u"lateProvisional"_s, u"late-form"_s);
    desk.saveForm(Qt::Key_O, u"dayDate"_s, u"open-day"_s);
    desk.saveForm(Qt::Key_E, u"authorizationForm"_s, u"dentist-exam"_s);
    desk.go(Qt::Key_V, Qt::AltModifier); // the scripted prompter keeps what is offered
    REQUIRE_FALSE(desk.prompter->shown.empty());
    ui::DecideDialog visits(desk.window.get(), desk.prompter->decided.back(),
                            desk.prompter->offered.back(), &desk.prompter->shown.back());
    visits.show();
    look.save(visits, u"all-visits"_s);
    visits.close();
    showActive(*desk.window);
    desk.go(Qt::Key_F11);
    REQUIRE(desk.isCovered());
    look.save(*desk.window, u"cover"_s);
  }
}

TEST_CASE("Every area of the desk in every look as pictures", "[.pictures]") {
  for (const auto& look : pictureLooks()) {
    DentistsDay desk(look);
    desk.go(Qt::Key_F8);
    auto& areas = part<QListWidget>(*desk.window, u"deskAreas"_s);
    for (int row = 0; row < areas.count(); ++row) {
      areas.setCurrentRow(row);
      look.save(*desk.window, u"desk-area-%1"_s.arg(row));
    }
  }
}

TEST_CASE("What the window asks in every look as pictures", "[.pictures]") {
  for (const auto& look : pictureLooks()) {
    DentistsDay desk(look);
    auto& window = *desk.window;
    look.saveAsked(window, u"other-day"_s, [](ui::QtPrompter& asks) {
      CHECK_FALSE(
          asks.choose(u"Which day?"_s, {u"Nov 17, 2026  Cobble Lantern Elementary, team 1"_s,
                                        u"Nov 12, 2026  Alder Hollow, team 1"_s}));
    });
    look.saveAsked(window, u"day-envelope"_s, [](ui::QtPrompter& asks) {
      CHECK_FALSE(asks.passphrase(u"A passphrase for this envelope. Tell it to the other laptop's "
                                  "team apart from the file."_s));
    });
    look.saveAsked(window, u"question-confirm"_s, [](ui::QtPrompter& asks) {
      CHECK_FALSE(asks.confirm(u"Undo: absent, Mina Tolliver-Reed?"_s));
    });
    look.saveAsked(window, u"question-text"_s, [](ui::QtPrompter& asks) {
      CHECK_FALSE(
          asks.text(u"Why is the day canceled? Its roster and consents stay."_s, u"snow day"_s));
    });
    look.saveAsked(window, u"question-fill"_s, [](ui::QtPrompter& asks) {
      CHECK_FALSE(
          asks.fill(u"Runner's list: 1 unaccounted for. Returned / handed out / shredded?"_s,
                    {{u"Returned"_s, u"0"_s}, {u"Handed out"_s, u"0"_s}, {u"Shredded"_s, u"0"_s}}));
    });
    look.saveAsked(window, u"question-decide"_s, [](ui::QtPrompter& asks) {
      CHECK_FALSE(asks.decide(u"No child has the number 1045-3. Is it one of these?"_s,
                              {u"1045-2  Lupe Saltmarsh, room 6"_s, u"None of them"_s}));
    });
  }
}

TEST_CASE("A recheck in every look as pictures", "[.pictures]") {
  for (const auto& look : pictureLooks()) {
    ui::dress({look.scheme, look.percent});
    Later chair(365);
    chair.page->resize(1366, 650);
    chair.seat(chair.wren);
    REQUIRE(chair.shows("recheckPanel"));
    look.save(*chair.page, u"recheck"_s);
    chair.press("562");
    look.save(*chair.page, u"recheck-answered"_s);
  }
  ui::dress();
}
