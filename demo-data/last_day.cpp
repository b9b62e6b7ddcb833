#include "school_days.h"
#include "visits/special_visits.h"

namespace gk::demo {

namespace {

using chairside::DayEnd;
using std::chrono::minutes;

base::Date today() {
  return on(2026, 11, 17);
}

/// The laptop wakes with the wrong year: it says so, and nothing is written until it is repaired.
void wakeInTheWrongYear(Story& story) {
  auto& tell = story.teller;
  tell.at("the laptop's clock a year behind");
  const auto right = tell.clock.now();
  tell.clock.setWall(base::atLocal(on(2025, 11, 17), minutes(7 * 60 + 30), right.offset));
  tell.mustHold(!story.a->clockWarning().empty(), "a clock a year behind was not noticed");
  tell.clock.setWall(right);
}

void takeOutL2(Story& story) {
  story.teller.at("the light L-2, red this morning");
  for (const auto& light : story.teller.must(story.a->lights())) {
    if (light.id != story.kit->l2) continue;
    auto out = light.value;
    out.inService = false;
    story.teller.must(story.a->correctLight({story.team->oriel, story.team->bram}, light, out,
                                            "860 of 1120: red, sent to be repaired"));
  }
}

/// The second laptop seats the Osei who sits at the first; seen at once and taken back.
void seatOseiTwice(Story& story, roster::DayId day) {
  auto& tell = story.teller;
  tell.at("Osei 1044 seated on the second laptop as well");
  story.carry(Desk::a, Desk::b);
  const auto wrong = chairOf(story, Autumn::of2026, day, today(), Desk::b, 1);
  seat(wrong, story.named->osei);
  const auto undone =
      tell.must(story.b->undo(wrong.by(), {base::Station::chair, day, story.named->osei}));
  tell.mustHold(!undone.empty(), "nothing was taken back");
}

/// The morning's check, item by item.
void beReady(Story& story, roster::DayId day) {
  using Item = kit::ReadinessItem;
  auto& tell = story.teller;
  tell.at("the morning's readiness");
  const auto answer = [&](Item item, std::string detail) {
    tell.must(
        story.a->answerReadiness({story.team->tamsin, story.team->bram},
                                 {day, item, kit::ReadinessAnswer::done, {}, std::move(detail)}));
  };
  answer(Item::airLine, "no moisture, no oil");
  answer(Item::light, "L-3 read, L-2 out of service");
  answer(Item::lots, {});
  answer(Item::sterilizer, "spore test of 2026-11-13 passed");
  answer(Item::suctionAndWater, {});
  answer(Item::eyes, {});
  answer(Item::emergencyKit, {});
  answer(Item::clock, "7:30 AM on Tuesday, November 17, 2026");
}

class LastDay {
 public:
  explicit LastDay(Story& story) : story_(story) {}

  void morning() {
    auto& tell = story_.teller;
    tell.goTo(today(), minutes(7 * 60 + 30));
    wakeInTheWrongYear(story_);
    tell.at("opening Cobble Lantern, 17 November");
    SchoolDays days{cobbleLantern, Autumn::of2026, {today()}, {}};
    day_ = openDay(story_, days, today(), Desk::a);
    enterReading(story_, Desk::a, story_.kit->l2, today());
    enterReading(story_, Desk::a, story_.kit->l3, today());
    takeOutL2(story_);
    beReady(story_, *day_);
    tell.at("signing 12 November");
    sign(story_, Desk::a, *story_.dayBeforeLast, story_.team->oriel);
  }

  void firstChildren() {
    const auto& named = *story_.named;
    plain("Mina", named.mina, fourFirsts("2"));
    visitWithSaliva(next("Osei 1044"), named.osei);
    seatOseiTwice(story_, *day_);
    visitWithCavity(next("Lupe"), named.lupe);
    other(0);
    visitWithDeadBattery(next("Osei 1051"), named.otherOsei, story_.kit->l3);
  }

  void otherChildren() {
    const auto& named = *story_.named;
    visitRefused(next("Teodor"), named.teodor);
    visitReseal(next("Wren"), named.wren);
    other(1);
    withdrawJory(named.jory);
    visitOpacities(next("Idris"), named.idris, story_.kit->l2);
    visitWithExpiredLot(next("Nell"), named.nell, story_.kit->fern2512);
    visitInterim(next("Pia"), named.pia);
    visitWithoutRosin(next("Calla"), named.calla);
    other(2);
    visitUrgent(next("Hana"), named.hana);
    other(3);
  }

  void closeOut() {
    auto& tell = story_.teller;
    tell.goTo(today(), minutes(14 * 60 + 10));
    const auto& others = story_.othersOfLastDay;
    for (std::size_t i = 4; i < others.size(); ++i)
      visit(next("a child who was not seen"), others.at(i).id, others.at(i).plan);
    end(next("Jory"), story_.named->jory, DayEnd::withdrawn, "withdrawn before any care");
    const auto unbalanced = story_.a->signDay({story_.team->tamsin, {}},
                                              {*day_, story_.team->tamsin, story_.team->ines});
    tell.mustRefuse(unbalanced, base::ErrorCode::ruleDayOpen);
    end(next("Ruben"), story_.named->ruben, DayEnd::onHold, "two forms disagree");
    writeIncidents();
    countSheets();
    countLots();
    tell.at("merging the second laptop");
    story_.carry(Desk::b, Desk::a);
    tell.at("signing 17 November");
    sign(story_, Desk::a, *day_, story_.team->tamsin);
  }

 private:
  /// As they were told at the end of the day; what is open waits for the battery.
  void writeIncidents() {
    using followup::IncidentType;
    auto& tell = story_.teller;
    const auto at = [&](int hour, int minute) {
      return base::atLocal(today(), minutes(hour * 60 + minute), tell.clock.now().offset);
    };
    const base::By by{story_.team->tamsin, story_.team->ines};
    tell.must(story_.a->enterIncident(
        by, {.day = *day_,
             .child = story_.named->teodor,
             .type = IncidentType::etchantOnTissue,
             .happened = at(9, 48),
             .done = "etchant on the lower lip; rinsed at once, no mark after twenty minutes",
             .told = "nurse and guardian"}));
    tell.must(story_.a->enterIncident(
        by, {.day = *day_,
             .type = IncidentType::equipment,
             .happened = at(9, 31),
             .done = "the battery of L-1 died in a cure; the tooth was cured again with L-3",
             .told = "program manager",
             .followUp = "a new battery for L-1"}));
  }

  void countSheets() {
    using followup::Paper;
    auto& tell = story_.teller;
    const base::By ines{story_.team->ines, {}};
    tell.must(story_.a->countOut(ines, *day_, Paper::runnersList, 1));
    tell.must(story_.a->countOut(ines, *day_, Paper::runnersList, 1));
    tell.must(story_.a->countOut(ines, *day_, Paper::nurseSheets, 1));
    tell.mustRefuse(story_.a->signDay({story_.team->tamsin, {}},
                                      {*day_, story_.team->tamsin, story_.team->ines}),
                    base::ErrorCode::ruleDayOpen);
    tell.must(story_.a->countPaper(
        ines, {.day = *day_, .paper = Paper::runnersList, .out = 2, .shredded = 2}));
    tell.must(story_.a->countPaper(
        ines, {.day = *day_, .paper = Paper::nurseSheets, .out = 1, .handed = 1}));
    tell.must(
        story_.a->countPaper(ines, {.day = *day_, .paper = Paper::other, .out = 3, .back = 3}));
  }

  /// Packages of what the day took most of.
  void countLots() {
    const auto count = [&](kit::LotId lot, int opened, int left) {
      story_.teller.must(story_.a->countLot(
          {story_.team->ines, {}}, {.day = *day_, .lot = lot, .opened = opened, .left = left}));
    };
    count(story_.kit->fern2609, 2, 6);
    count(story_.kit->thistle, 1, 3);
  }

  Chair next(const std::string& who) {
    story_.teller.at(who + " on 17 November");
    story_.teller.goTo(today(), minutes(8 * 60 + 15 + 17 * static_cast<int>(turn_)));
    return chairOf(story_, Autumn::of2026, *day_, today(), Desk::a, turn_++);
  }

  void plain(const std::string& who, roster::ChildId child, const ChildPlan& plan) {
    visit(next(who), child, plan);
  }

  void other(std::size_t place) {
    const auto& student = story_.othersOfLastDay.at(place);
    plain("one more child", student.id, student.plan);
  }

  void withdrawJory(roster::ChildId jory) {
    auto& tell = story_.teller;
    tell.at("Jory's mother on the phone");
    tell.goTo(today(), minutes(10 * 60 + 42));
    tell.mustHold(tell.clock.now().timeOfDay() == minutes(10 * 60 + 42), "it is not 10:42");
    tell.must(story_.a->withdrawConsent({story_.team->ines, {}}, jory,
                                        "by phone, mother; taken by Ines Marrowby"));
    tell.mustRefuse(
        story_.a->seat({story_.team->oriel, {}}, {.child = jory,
                                                  .day = *day_,
                                                  .confirmed = {chairside::Identifier::spokenName,
                                                                chairside::Identifier::slipScan}}),
        base::ErrorCode::ruleConsent);
  }

  Story& story_;
  std::optional<roster::DayId> day_;
  std::size_t turn_ = 0;
};

} // namespace

void tellLastDay(Story& story, bool untilSigned) {
  LastDay day(story);
  day.morning();
  day.firstChildren();
  if (!untilSigned) return;
  day.otherChildren();
  day.closeOut();
}

} // namespace gk::demo
