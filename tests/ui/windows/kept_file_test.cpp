#include "ui/chair/chair_page.h"
#include "ui/files/kept_file.h"
#include "ui/files/laptop_page.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/support/speaker.h"
#include "ui/widgets/timer_view.h"

#include <QCheckBox>
#include <QComboBox>

using namespace gk;
using namespace gk::test;

namespace {

ui::Habits odd() {
  ui::Habits habits;
  habits.pedal = ui::TaughtKey{Qt::Key_F13, 191};
  habits.scannerPrefix = "~=";
  habits.volume = 25;
  habits.flash = false;
  habits.strip = ui::Side::left;
  habits.order = ui::WorkOrder::quadrants;
  habits.look = {ui::Scheme::highContrast, 150};
  habits.paper = ui::PaperSize::a4;
  return habits;
}

} // namespace

TEST_CASE("A laptop's settings come back from their file as they were") {
  const Scratch folder;
  CHECK(ui::readKept(folder / "new").trouble.isEmpty());
  CHECK(ui::readKept(folder / "new").kept.habits == ui::Habits{});
  Clinic clinic;
  ui::Setup setup;
  setup.author = clinic.hygienist;
  setup.sealant = clinic.resin;
  setup.light = clinic.light;
  setup.isolation = chairside::Isolation::cheekPads;
  setup.fourHanded = false;
  must(ui::writeKept(folder / "new", {odd(), clinic.clock.now().date(), setup}));
  const auto read = ui::readKept(folder / "new");
  CHECK(read.trouble.isEmpty());
  CHECK(read.kept.habits == odd());
  CHECK(read.kept.on == clinic.clock.now().date());
  CHECK(read.kept.setup == setup);
}

TEST_CASE("Damaged settings give a new laptop's, say so and stop nothing") {
  const Scratch folder;
  for (const auto* text :
       {"volume", "sound.volume=loud\n", "sound.volume=900\n", "pedal.key=-4\n",
        "chair.strip=above\n", "today.operator=nobody\n", "today.date=17 November\n", "\xff\xfe",
        "look.text-percent=99999999999999999999\n", "print.paper=foolscap\n"}) {
    CAPTURE(text);
    must(base::replaceFile(folder / "laptop-settings", text));
    const auto read = ui::readKept(folder.path());
    CHECK(read.trouble.contains(u"damaged"_s));
    CHECK(read.trouble.contains(u"The logbook is not affected"_s));
    CHECK(read.kept.habits == ui::Habits{});
    CHECK(must(base::readFile(folder / "laptop-settings.damaged")) == text);
  }
  must(base::replaceFile(folder / "laptop-settings", "of.a.later.version=1\nsound.volume=25\n"));
  CHECK(ui::readKept(folder.path()).trouble.isEmpty());
  CHECK(ui::readKept(folder.path()).kept.habits.volume == 25);
}

TEST_CASE("What a kept choice can no longer use is dropped and the rest stays") {
  Clinic clinic;
  const Clinic elsewhere;
  ui::Setup setup;
  setup.author = clinic.hygienist;
  setup.assistant = elsewhere.assistant; // made alike, so the same identity may be known here
  setup.sealant = clinic.resin;
  setup.etchant = clinic.etchant;
  setup.light = clinic.light;
  must(clinic.session.quarantineLot(clinic.by, clinic.resin, "recalled"));
  for (const auto& light : must(clinic.session.lights()))
    if (light.id == clinic.light) {
      auto out = light.value;
      out.inService = false;
      must(clinic.session.correctLight(clinic.by, light, out, "dropped"));
    }
  base::SeededRandom random(99);
  setup.recorder = base::MemberId(base::makeUuid7({}, random));
  const auto kept = ui::stillUsable(setup, clinic.session, clinic.clock.now().date());
  CHECK(kept.author == clinic.hygienist);
  CHECK(kept.etchant == clinic.etchant);
  CHECK_FALSE(kept.recorder.has_value());
  CHECK_FALSE(kept.sealant.has_value());
  CHECK_FALSE(kept.light.has_value());
}

TEST_CASE("A restart on the same day keeps who is at work and a restart the next day asks") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  const auto members = must(desk.window->book()->session().members());
  auto setup = desk.window->book()->acting().now();
  setup.author = members.front().id;
  desk.window->book()->acting().change(setup);
  desk.window.reset();
  desk.openAndUnlock();
  CHECK(desk.window->book()->acting().now().author == members.front().id);
  desk.window.reset();
  desk.clock.advance(std::chrono::hours(24));
  desk.openAndUnlock();
  CHECK_FALSE(desk.window->book()->acting().now().author.has_value());
}

TEST_CASE("Settings are chosen on the laptop's page and kept through a restart") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  press(*desk.window, Qt::Key_F10);
  REQUIRE(desk.shows(u"laptopPage"_s));
  auto& volume = part<QComboBox>(*desk.window, u"timerVolume"_s);
  volume.setFocus();
  press(*desk.window, Qt::Key_Home);
  CHECK(desk.window->book()->acting().habits().volume == 0);
  CHECK(part<QCheckBox>(*desk.window, u"timerFlash"_s).isChecked()); // silent: always seen
  auto& side = part<QComboBox>(*desk.window, u"stripSide"_s);
  side.setFocus();
  press(*desk.window, Qt::Key_Home);
  CHECK(desk.window->book()->acting().habits().strip == ui::Side::left);
  CHECK(desk.window->book()->acting().habits().paper == ui::PaperSize::letter);
  part<QComboBox>(*desk.window, u"paper"_s).setFocus();
  press(*desk.window, Qt::Key_End);
  desk.window.reset();
  desk.openAndUnlock();
  CHECK(desk.window->book()->acting().habits().volume == 0);
  CHECK(desk.window->book()->acting().habits().strip == ui::Side::left);
  CHECK(desk.window->book()->acting().habits().paper == ui::PaperSize::a4);
}

TEST_CASE("A window opens on damaged settings and says it in its strip") {
  Window desk;
  desk.fill();
  must(base::replaceFile(desk.folder / "laptop-settings", "sound.volume=loud\n"));
  desk.openAndUnlock();
  CHECK_FALSE(desk.isCovered());
  CHECK(desk.window->book()->acting().habits() == ui::Habits{});
  CHECK(desk.reads(u"settings were damaged"_s));
}

TEST_CASE("The running timer is seen on every other page as digits alone") {
  Window desk;
  desk.fill(true);
  desk.openAndUnlock();
  auto* timer = desk.window->findChild<ui::ChairPage*>()->findChild<ui::TimerView*>();
  timer->start(u"Etch"_s, base::Seconds(20));
  timer->tick();
  CHECK_FALSE(desk.shows(u"runningTimer"_s)); // the chair has the large one
  for (const auto key : {Qt::Key_F1, Qt::Key_F3, Qt::Key_F5, Qt::Key_F10}) {
    press(*desk.window, key);
    desk.clock.advance(base::Seconds(1));
    timer->tick();
    CHECK(desk.shows(u"runningTimer"_s));
  }
  CHECK(words(*desk.window, u"runningTimer"_s) == u"Timer 4.0"_s);
  timer->stop();
  CHECK_FALSE(desk.shows(u"runningTimer"_s));
}

TEST_CASE(
    "The first child of a day without a morning check is asked about once and never held up") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  auto* chair = desk.window->findChild<ui::ChairPage*>();
  desk.prompter->confirms = {true};
  press(*desk.window, Qt::Key_Return); // the one child on the board
  REQUIRE(desk.prompter->asked.size() == 1);
  CHECK(desk.prompter->asked[0].contains(u"0 of 8"_s));
  CHECK(desk.shows(u"readinessPage"_s));
  CHECK_FALSE(chair->isOccupied());
  press(*desk.window, Qt::Key_F1);
  press(*desk.window, Qt::Key_Return);
  CHECK(desk.prompter->asked.size() == 1);
  CHECK(chair->isOccupied());
}

TEST_CASE("A speaker hears each cue at this laptop's volume and silence is said once") {
  class Listener final : public ui::Speaker {
   public:
    void play(ui::Cue cue, int volume) override { heard.emplace_back(cue, volume); }
    std::vector<std::pair<ui::Cue, int>> heard;
  } speaker;
  Window desk;
  desk.fill(true);
  desk.openAndUnlock();
  desk.window->book()->hearOn(speaker);
  auto habits = desk.window->book()->acting().habits();
  habits.volume = 25;
  habits.flash = false;
  desk.window->book()->acting().keep(habits);
  auto* timer = desk.window->findChild<ui::ChairPage*>()->findChild<ui::TimerView*>();
  timer->start(u"Etch"_s, base::Seconds(20));
  CHECK(speaker.heard == std::vector{std::pair(ui::Cue::start, 25)});
  CHECK_FALSE(timer->isFlashing());
  Q_EMIT speaker.silent();
  CHECK(timer->isFlashing());
  CHECK(desk.reads(u"no sound for the timer"_s));
  timer->stop();
}

TEST_CASE("Without an audio device the speaker falls silent once and blocks nothing") {
  ui::DeviceSpeaker speaker;
  int silences = 0;
  QObject::connect(&speaker, &ui::Speaker::silent, &speaker, [&] { ++silences; });
  const auto from = std::chrono::steady_clock::now();
  for (int i = 0; i < 50; ++i)
    speaker.play(ui::Cue::target, 70);
  CHECK(std::chrono::steady_clock::now() - from < std::chrono::milliseconds(100));
  speaker.play(ui::Cue::target, 0);
  // A machine with a device stays loud.
  CHECK((QTest::qWaitFor([&] { return silences > 0; }, 3000) || silences == 0));
  CHECK(silences <= 1);
}
