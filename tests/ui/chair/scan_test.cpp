#include "ui/board/day_board_page.h"
#include "ui/chair/chair_page.h"
#include "ui/files/laptop_page.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/support/scan.h"

#include <QSignalSpy>

using namespace gk;
using namespace gk::test;

namespace {

/// Types as a scanner does, or as slowly as told.
void type(QWidget& into, const QString& code, quint64 gap = 8, bool enter = true) {
  static quint64 now = 1000;
  now += 5000;
  const auto send = [&](int key, const QString& text) {
    QKeyEvent event(QEvent::KeyPress, key, Qt::NoModifier, text);
    event.setTimestamp(now += gap);
    auto* focus = into.focusWidget();
    QCoreApplication::sendEvent(focus ? focus : &into, &event);
  };
  for (const auto sign : code)
    send(sign.toUpper().unicode(), sign);
  if (enter) send(Qt::Key_Return, u"\r"_s);
}

/// The whole window on a clinic's day, one child waiting.
class Scanning : public Window {
 public:
  std::string number;
  std::string other;
  ui::ChairPage* chair = nullptr;

  Scanning() {
    {
      Clinic clinic(book(), session::BookKind::throwaway);
      number = must(clinic.session.child(clinic.child("Mina", "Tolliver-Reed"))).value.number;
      other = must(clinic.session.child(clinic.child("Pia", "Lindenholt"))).value.number;
      must(clinic.session.enterLot(clinic.by, {kit::MaterialKind::sealantLightCure,
                                               "Resin Fern",
                                               "RF-2611",
                                               *base::parseExpiry("2027-05"),
                                               base::Seconds(20),
                                               {},
                                               false,
                                               {}}));
      must(clinic.session.enterLot(clinic.by, {kit::MaterialKind::sealantLightCure,
                                               "Resin Fern",
                                               "RF-2501",
                                               *base::parseExpiry("2026-05"),
                                               base::Seconds(20),
                                               {},
                                               false,
                                               {}}));
      for (const auto kind : {kit::MaterialKind::sealantLightCure, kit::MaterialKind::etchant})
        must(clinic.session.enterLot(
            clinic.by, {kind,
                        kind == kit::MaterialKind::etchant ? "Etch Thistle" : "Resin Sorrel",
                        "TX-2611",
                        *base::parseExpiry("2027-05"),
                        base::Seconds(20),
                        {},
                        false,
                        {}}));
      auto today = clinic.hygienist;
      hygienist.emplace(today);
      must(clinic.session.finish());
    }
    openAndUnlock();
    chair = window->findChild<ui::ChairPage*>();
    auto setup = window->book()->acting().now();
    setup.author = hygienist;
    window->book()->acting().change(setup);
  }
  void scan(const QString& code) { type(*window, code); }
  void scan(const std::string& code) { scan(ui::toQt(code)); }
  [[nodiscard]] const ui::Setup& setup() const { return window->book()->acting().now(); }

 private:
  std::optional<base::MemberId> hygienist;
};

} // namespace

TEST_CASE("A code scanned as by an English keyboard is read under a French layout") {
  CHECK(ui::readScan(u"&àé\"-("_s) == u"1023"_s + u"65"_s);
  CHECK(ui::readScan(u"&à'\")è"_s) == u"1043-7"_s);
  CHECK(ui::readScan(u"RF6é-à("_s) == u"RF62605"_s);
  CHECK(ui::readScan(u"1043-7"_s) == u"1043-7"_s);
  CHECK(ui::readScan(u"RF-2609"_s) == u"RF-2609"_s);
}

TEST_CASE("Fast keys with Enter at the end are a scan and slow ones are hands") {
  base::ManualClock clock{base::atLocal(*base::Date::parse("2026-11-17"), std::chrono::hours(9),
                                        std::chrono::hours(-5))};
  QLineEdit line;
  showActive(line);
  ui::ScanCatcher catcher(clock, nullptr);
  class Filter final : public QObject {
   public:
    explicit Filter(ui::ScanCatcher& to) : catcher(to) {}
    bool eventFilter(QObject* watched, QEvent* event) override {
      return event->type() == QEvent::KeyPress &&
             catcher.takes(watched, *static_cast<QKeyEvent*>(event));
    }
    ui::ScanCatcher& catcher;
  } filter(catcher);
  line.installEventFilter(&filter);
  const QSignalSpy scans(&catcher, &ui::ScanCatcher::scanned);
  type(line, u"1043-7"_s);
  REQUIRE(scans.count() == 1);
  CHECK(scans[0][0].toString() == u"1043-7"_s);
  CHECK(line.text().isEmpty());

  type(line, u"1043-7"_s, 60);
  CHECK(scans.count() == 1);
  CHECK(line.text() == u"1043-7"_s);
  line.clear();
  type(line, u"ab"_s, 8); // too short for a code
  CHECK(scans.count() == 1);
  CHECK(line.text() == u"ab"_s);
  line.clear();
  type(line, u"note"_s, 8, false); // no Enter: it goes on after a moment
  CHECK(QTest::qWaitFor([&] { return line.text() == u"note"_s; }, 2000));
  line.clear();
  catcher.setPrefix(u"~"_s);
  type(line, u"1043-7"_s);
  CHECK(scans.count() == 1);
  line.clear();
  type(line, u"~1043-7"_s);
  REQUIRE(scans.count() == 2);
  CHECK(scans[1][0].toString() == u"1043-7"_s);
  CHECK(line.text().isEmpty());
}

TEST_CASE("A slip scanned on the board brings the child to the identity check and no further") {
  Scanning desk;
  desk.scan(desk.number);
  REQUIRE(desk.chair->isVisible());
  CHECK(desk.chair->isOccupied());
  CHECK(desk.shows(u"identityPanel"_s));
  desk.scan(desk.number);
  CHECK(desk.shows(u"identityPanel"_s));
  CHECK(desk.reads(u"A slip alone is not enough"_s));
}

TEST_CASE("A slip scanned with an empty chair brings the child to the identity check") {
  Scanning desk;
  press(*desk.window, Qt::Key_F2);
  CHECK_FALSE(desk.chair->isOccupied());
  desk.scan(desk.number);
  CHECK(desk.shows(u"identityPanel"_s));
  desk.scan(desk.other);
  CHECK(desk.reads(u"Looked up Pia L."_s)); // and a question, which no code answers
  CHECK(part<QWidget>(*desk.chair, u"askBar"_s).isVisible());
}

TEST_CASE("A lot scanned at the chair is changed by one confirm", "[case-52]") {
  Scanning desk;
  desk.scan(desk.number);
  press(*desk.window, Qt::Key_Left);
  press(*desk.window, Qt::Key_Return);
  REQUIRE(desk.shows(u"screeningPanel"_s));
  CHECK_FALSE(desk.setup().sealant.has_value());
  desk.scan(u"rf-2611"_s);
  CHECK_FALSE(desk.setup().sealant.has_value());
  press(*desk.window, Qt::Key_Return);
  CHECK(desk.setup().sealant.has_value());
  const auto kept = desk.setup().sealant;
  desk.scan(u"RF-2501"_s);
  CHECK((desk.reads(u"2026-05-31"_s) || desk.reads(u"expired"_s)));
  CHECK(desk.setup().sealant == kept);
  desk.scan(u"4006381333931"_s);
  CHECK(desk.reads(u"that is the product's number"_s));
}

TEST_CASE("One lot number of two materials asks which is in hand", "[case-110]") {
  Scanning desk;
  desk.scan(desk.number);
  press(*desk.window, Qt::Key_Left);
  press(*desk.window, Qt::Key_Return);
  REQUIRE(desk.shows(u"screeningPanel"_s));
  desk.scan(u"TX-2611"_s);
  CHECK(desk.reads(u"More than one lot has the number TX-2611"_s));
  press(*desk.window, Qt::Key_2);
  CHECK_FALSE(desk.setup().etchant.has_value()); // still to be confirmed
  press(*desk.window, Qt::Key_Return);
  CHECK(desk.setup().etchant.has_value());
  CHECK_FALSE(desk.setup().sealant.has_value());
}

TEST_CASE("A code never lands in a note") {
  Scanning desk;
  desk.scan(desk.number);
  press(*desk.window, Qt::Key_Left);
  press(*desk.window, Qt::Key_Return);
  REQUIRE(desk.shows(u"screeningPanel"_s));
  press(*desk.window, Qt::Key_N);
  press(*desk.window, Qt::Key_1);
  auto& line = part<QLineEdit>(*desk.chair, u"askLine"_s);
  REQUIRE(QTest::qWaitFor([&] { return line.isVisible() && line.hasFocus(); }, 2000));
  for (const auto& code : {ui::toQt(desk.other), ui::toQt(desk.number), u"RF-2611"_s}) {
    desk.scan(code);
    CHECK(line.isVisible());
    CHECK(line.text().isEmpty());
    CHECK(desk.reads(u"Scanned "_s + code + u". Finish typing"_s));
  }
  type(*desk.window, u"small"_s, 60, false); // hands
  REQUIRE(QTest::qWaitFor([&] { return line.text() == u"small"_s; }, 2000));
  desk.scan(desk.other);
  CHECK(line.text() == u"small"_s);
  press(*desk.window, Qt::Key_Return);
  CHECK(desk.reads(u"Note: small"_s));
  CHECK_FALSE(desk.setup().sealant.has_value());
}

TEST_CASE("A lot scanned on the board is told where it belongs") {
  Scanning desk;
  desk.scan(u"RF-2611"_s);
  CHECK(desk.reads(u"Scan lots at the chair"_s));
  CHECK(part<QLineEdit>(*desk.window, u"boardSearch"_s).text().isEmpty());
}

TEST_CASE("The laptop's page says what a scan is taken for") {
  Scanning desk;
  press(*desk.window, Qt::Key_F10);
  REQUIRE(desk.shows(u"laptopPage"_s));
  desk.scan(u"RF-2611"_s);
  CHECK(desk.reads(u"a lot, Resin Fern lot RF-2611"_s));
  desk.scan(desk.number);
  CHECK(desk.reads(u"a child's number"_s));
}
