#include "reports/day/close_out_tables.h"
#include "reports/records/inputs.h"
#include "ui/fixtures/pictures.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/lists/report_browser.h"

#include <QListWidget>

using namespace gk;
using namespace gk::test;

namespace {

/// The whole window on a day with a hygienist at work and one child waiting.
class Closing : public Window {
 public:
  explicit Closing(const std::function<void(Clinic&)>& tell) {
    fillWith(tell);
    openAndUnlock();
    ui::Setup setup;
    setup.author = by->author;
    view().acting().change(setup);
  }

  void fillWith(const std::function<void(Clinic&)>& tell) {
    Clinic clinic(book(), session::BookKind::throwaway);
    day = clinic.day;
    by = clinic.by;
    light = clinic.light;
    tell(clinic);
    clock.setWall(clinic.clock.now());
    must(clinic.session.finish());
  }

  [[nodiscard]] ui::BookView& view() const { return part<ui::BookView>(*window, u"bookView"_s); }
  [[nodiscard]] session::Session& session() const { return view().session(); }
  [[nodiscard]] std::vector<base::Recorded<followup::Incident>> incidents() const {
    return must(session().incidents(*day));
  }
  /// A sign waits a little, as it might be a scanner's first.
  void key(Qt::Key which, Qt::KeyboardModifiers with = Qt::NoModifier) const {
    press(*window, which, with);
    QTest::qWait(150);
  }
  void type(const QString& text) const {
    const auto focus = [&] { return qobject_cast<QLineEdit*>(window->focusWidget()); };
    REQUIRE(QTest::qWaitFor([&] { return focus() != nullptr; }));
    auto* line = focus();
    line->setText(text);
    QTest::keyClick(line, Qt::Key_Return);
  }
  /// "To fix  1" and the like.
  [[nodiscard]] QString section(int at) const {
    return partText(part<QWidget>(*window, u"closeOutPage"_s), at);
  }

  std::optional<roster::DayId> day;
  std::optional<base::By> by;
  std::optional<kit::LightId> light;
};

constexpr int toFixNow = reports::close_out::blockers;
constexpr int incidentsSection = reports::close_out::incidents;
constexpr int papersSection = reports::close_out::papers;

} // namespace

TEST_CASE("An eye splash at the chair is written down with few keys and says what to do first") {
  std::optional<roster::ChildId> mina;
  Closing desk([&](Clinic& clinic) {
    mina = clinic.child("Mina", "Tolliver-Reed");
    clinic.seat(*mina);
  });
  REQUIRE(desk.shows(u"chairPage"_s)); // went on with the child in the chair
  desk.key(Qt::Key_F7);
  CHECK(desk.reads(u"call 911 first and record later"_s));
  CHECK(words(*desk.window, u"incidentAbout"_s).startsWith(u"About Mina Tolliver-Reed"_s));
  desk.key(Qt::Key_2);
  CHECK(desk.reads(u"Flush the eye 15 minutes, then medical care."_s));
  desk.key(Qt::Key_Return); // now
  desk.type(u"flushed 15 minutes at the sink"_s);
  desk.key(Qt::Key_1); // nurse and guardian
  desk.key(Qt::Key_2); // hear what the doctor said
  REQUIRE(desk.incidents().size() == 1);
  const auto incident = desk.incidents().front().value;
  CHECK(incident.child == mina);
  CHECK(incident.type == followup::IncidentType::eyeSplash);
  CHECK(incident.happened.text() == "2026-11-17 09:00");
  CHECK(incident.done == "flushed 15 minutes at the sink");
  CHECK(incident.told == "nurse and guardian");
  CHECK(followup::isOpen(incident));
  CHECK(desk.shows(u"chairPage"_s)); // back where one was
  desk.key(Qt::Key_F3);
  CHECK(desk.section(incidentsSection) == u"Incidents  1"_s);
}

TEST_CASE("A lost laptop is written down from the close-out and settled later", "[case-67]") {
  Closing desk([](Clinic& clinic) { clinic.child("Mina"); });
  desk.key(Qt::Key_F3);
  desk.key(Qt::Key_I, Qt::AltModifier);
  REQUIRE(desk.shows(u"incidentPage"_s));
  CHECK(words(*desk.window, u"incidentAbout"_s).startsWith(u"About "_s));
  desk.key(Qt::Key_C);
  desk.type(u"-"_s);
  CHECK(words(*desk.window, u"incidentAbout"_s).startsWith(u"No child selected"_s));
  desk.key(Qt::Key_8);
  CHECK(desk.reads(u"tell the program manager at once"_s));
  desk.type(u"08:40"_s);
  desk.type(u"second laptop not in its case"_s);
  desk.key(Qt::Key_7); // someone else
  desk.type(u"police"_s);
  desk.key(Qt::Key_4);
  CHECK(desk.shows(u"closeOutPage"_s));
  REQUIRE(desk.incidents().size() == 1);
  CHECK(desk.incidents().front().value.happened.text() == "2026-11-17 08:40");
  CHECK(desk.incidents().front().value.told == "police");
  CHECK_FALSE(desk.incidents().front().value.child);
  desk.key(Qt::Key_F7);
  desk.key(Qt::Key_M);
  desk.key(Qt::Key_1);
  desk.type(u"found in the van"_s);
  const auto now = desk.incidents().front();
  CHECK(now.value.settled);
  CHECK(now.value.followUp == "report to the program manager; found in the van");
  CHECK(now.stamp.supersedes.has_value());
  desk.key(Qt::Key_Escape);
  CHECK(desk.shows(u"closeOutPage"_s));
}

TEST_CASE("A time that is none, or has not come, is said and nothing is written") {
  Closing desk([](Clinic& clinic) { clinic.child("Mina"); });
  desk.key(Qt::Key_F7);
  desk.key(Qt::Key_4);
  desk.type(u"half past"_s);
  CHECK(desk.incidents().empty());
  desk.key(Qt::Key_4);
  desk.type(u"23:59"_s);
  desk.type(u"held the arm"_s);
  desk.key(Qt::Key_6);
  desk.key(Qt::Key_1);
  CHECK(desk.incidents().empty());
  CHECK(desk.shows(u"incidentPage"_s));
}

TEST_CASE("After a change of light each is read or passed over with a reason at the close-out") {
  Closing desk([](Clinic& clinic) {
    const auto child = clinic.child("Mina");
    clinic.seat(child);
    clinic.screenFour(child);
    for (const auto& half : {std::vector{16, 46}, std::vector{26, 36}}) {
      const auto field = must(clinic.session.isolate(clinic.by, clinic.field(child, half)));
      clinic.etchToFlow(field, half);
      for (int iso : half) {
        auto cure = clinic.run(field, chairside::Step::cure, {iso}, 20);
        if (iso == 36) cure.light = clinic.spare;
        must(clinic.session.enterStep(clinic.by, cure));
        must(clinic.session.enterStep(clinic.by, clinic.run(field, chairside::Step::check, {iso})));
      }
    }
    clinic.end(child, chairside::DayEnd::sealedComplete);
  });
  desk.key(Qt::Key_F3);
  REQUIRE(desk.section(toFixNow) == u"Fix before signing  2 to do"_s);
  desk.key(Qt::Key_Return); // into the table
  desk.prompter->texts = {u"1030"_s};
  desk.key(Qt::Key_Return);
  CHECK(desk.prompter->asked.back().startsWith(u"Light L-1 before leaving"_s));
  CHECK(desk.section(toFixNow) == u"Fix before signing  1 to do"_s);
  CHECK(must(desk.session().readings(*desk.light)).back().value.value.value == 1030);
  desk.prompter->texts = {u""_s, u"the battery is dead"_s};
  desk.key(Qt::Key_Return);
  CHECK(desk.section(toFixNow) == u"Fix before signing  none"_s);
  CHECK(must(desk.session().dayRecords(*desk.day)).lightPasses.front().value.reason ==
        "the battery is dead");
}

TEST_CASE("A runner's list that is not back holds the signature until someone says where it is") {
  Closing desk([](Clinic& clinic) { clinic.standardVisit(clinic.child("Mina")); });
  desk.key(Qt::Key_F1);
  desk.key(Qt::Key_U, Qt::AltModifier);
  desk.prompter->prints = {true};
  desk.key(Qt::Key_P, Qt::AltModifier);
  desk.key(Qt::Key_Escape);
  desk.key(Qt::Key_F3);
  REQUIRE(desk.section(toFixNow) == u"Fix before signing  1 to do"_s);
  CHECK_FALSE(part<QPushButton>(*desk.window, u"closeOutSign"_s).isEnabled());
  desk.prompter->texts = {u"two"_s};
  desk.key(Qt::Key_K, Qt::AltModifier);
  CHECK(desk.section(toFixNow) ==
        u"Fix before signing  1 to do"_s); // not a number: said, and asked again
  desk.prompter->texts = {u"0"_s, u"left in room 6, fetched tomorrow"_s, u"2"_s, u"0 1 1"_s};
  desk.key(Qt::Key_K, Qt::AltModifier);
  CHECK(desk.prompter->texts.empty());
  CHECK(desk.section(toFixNow) == u"Fix before signing  none"_s);
  CHECK(desk.section(papersSection) == u"Printed lists  counted"_s);
  desk.prompter->choices = {0, 0};
  desk.key(Qt::Key_G, Qt::AltModifier);
  CHECK(must(desk.session().isSigned(*desk.day)));
}

TEST_CASE("No one signs without saying whether other sheets with names went out") {
  Closing desk([](Clinic& clinic) { clinic.standardVisit(clinic.child("Mina")); });
  desk.key(Qt::Key_F3);
  desk.prompter->choices = {0, 0};
  desk.key(Qt::Key_G, Qt::AltModifier); // backs out of the count
  CHECK_FALSE(must(desk.session().isSigned(*desk.day)));
  desk.prompter->texts = {u"0"_s};
  desk.key(Qt::Key_G, Qt::AltModifier);
  CHECK(must(desk.session().isSigned(*desk.day)));
}

// To be looked at: test_ui "[.pictures]".
TEST_CASE("The incident page and the end of the close-out as pictures", "[.pictures]") {
  const auto folder = pictureFolder();
  Closing desk([](Clinic& clinic) {
    const auto mina = clinic.child("Mina", "Tolliver-Reed");
    const auto wren = clinic.child("Wren", "Castlebury");
    const auto copy = clinic.session.path().parent_path() / "other.gkbook";
    must(clinic.session.backUp(copy));
    base::SeededRandom random(7);
    {
      auto other = must(session::Session::open(
          copy, base::LaptopId(base::makeUuid7(clinic.clock.now().at, random)),
          {clinic.clock, random}, {}, session::BookKind::throwaway));
      must(other.seat(clinic.by,
                      {wren,
                       clinic.day,
                       {chairside::Identifier::spokenName, chairside::Identifier::birthDate}}));
      must(other.screen(clinic.by, clinic.fourSound(wren)));
      must(other.finish());
    }
    clinic.clock.advance(std::chrono::minutes(12));
    clinic.standardVisit(wren);
    must(clinic.session.absorb(copy));
    must(clinic.session.countOut(clinic.by, clinic.day, followup::Paper::runnersList, 1));
    must(clinic.session.enterIncident(clinic.by,
                                      {.day = clinic.day,
                                       .child = mina,
                                       .type = followup::IncidentType::eyeSplash,
                                       .happened = clinic.clock.now(),
                                       .done = "rinse water in the left eye; flushed 15 minutes",
                                       .told = "nurse and guardian",
                                       .followUp = "follow up with doctor/dentist"}));
    clinic.seat(mina);
  });
  const auto grab = [&](const char* name) {
    QTest::qWait(50);
    CHECK(desk.window->grab().save(folder + u'/' + QString::fromLatin1(name) + u".png"_s));
  };
  desk.key(Qt::Key_F7);
  grab("incident");
  desk.key(Qt::Key_2);
  grab("incident asked");
  desk.key(Qt::Key_Escape);
  desk.key(Qt::Key_F3);
  grab("close-out to mend");
  auto& browser = *part<QWidget>(*desk.window, u"closeOutPage"_s).findChild<ui::ReportBrowser*>();
  for (const auto& [row, name] :
       {std::pair(int(reports::close_out::questions), "close-out questions"),
        {incidentsSection, "close-out incidents"},
        {papersSection, "close-out paper"}}) {
    browser.choose(row);
    grab(name);
  }
}
