#include "school_days.h"

#include "reports/day/close_out.h"
#include "session/letters/letters.h"

#include <algorithm>
#include <array>
#include <map>

namespace gk::demo {

namespace {

using std::chrono::minutes;

/// The one day of each fall on which both laptops stood at the same school.
constexpr std::size_t sharedDay = 1;

bool isShared(const SchoolDays& days) {
  return days.school == alderHollow && days.opened.size() == sharedDay + 1;
}

// L-2 in October 2025, clinic day by clinic day: read, written down, never compared.
const std::map<base::Date, int>& fallOfL2() {
  static const std::map<base::Date, int> readings{
      {on(2025, 9, 16), 1085}, {on(2025, 9, 18), 1080}, {on(2025, 9, 23), 1070},
      {on(2025, 10, 7), 1010}, {on(2025, 10, 9), 995},  {on(2025, 10, 14), 960},
      {on(2025, 10, 16), 940}, {on(2025, 10, 21), 915}, {on(2025, 10, 23), 893},
      {on(2025, 10, 28), 870}, {on(2026, 11, 17), 860}};
  return readings;
}

base::Date fridayBefore(base::Date date) {
  while (date.weekday() != "Friday")
    date = date.plusDays(-1);
  return date;
}

std::string nameOf(const SchoolDays& days, base::Date date) {
  return std::string(county().at(days.school).name) + ", " + date.words();
}

void tellTurn(const Chair& chair, const Turn& turn) {
  if (turn.recheck)
    recheckVisit(chair, turn.child, *turn.recheck);
  else
    visit(chair, turn.child, turn.plan);
}

} // namespace

SchoolDays spread(std::size_t school, Autumn autumn, std::vector<base::Date> dates,
                  std::vector<Turn> turns) {
  SchoolDays days{school, autumn, std::move(dates), {}};
  days.turns.resize(days.dates.size());
  std::size_t next = 0;
  for (auto& turn : turns) {
    const bool seen = turn.recheck || turn.plan.end <= chairside::DayEnd::recheckOnly;
    auto& day = seen ? days.turns.at(next++ % days.turns.size()) : days.turns.back();
    day.push_back(std::move(turn));
  }
  return days;
}

int readingOf(const Kit& kit, kit::LightId light, base::Date date) {
  const int wobble = static_cast<int>(date.day() * 7 % 20); // no meter shows one number twice
  if (light == kit.l1) return date == on(2026, 11, 17) ? 1040 : 1046 + wobble;
  if (light == kit.l3) return date == on(2026, 11, 17) ? 905 : 940 + wobble;
  return fallOfL2().at(date);
}

void enterReading(Story& story, Desk laptop, kit::LightId light, base::Date date) {
  story.teller.pass(40);
  story.teller.must(story.at(laptop).enterReading(
      {story.team->bram, {}},
      {.light = light, .on = date, .value = {readingOf(*story.kit, light, date)}, .meter = "M-1"}));
}

roster::DayId openDay(Story& story, const SchoolDays& days, base::Date date, Desk laptop) {
  auto& tell = story.teller;
  tell.goTo(date, minutes(7 * 60 + 40));
  const auto day = tell.must(story.at(laptop).openDay({story.team->ines, {}},
                                                      {.term = story.terms.at(placeOf(days.autumn)),
                                                       .school = story.schools.at(days.school),
                                                       .date = date}));
  enterReading(story, laptop, laptop == Desk::a ? story.kit->l1 : story.kit->l3, date);
  if (laptop == Desk::a && days.autumn == Autumn::of2025 && fallOfL2().contains(date))
    enterReading(story, laptop, story.kit->l2, date);
  return day;
}

/// What kept teeth dry in fall 2025, child after child; it has nothing to do with what was whole
/// a year later, and neither had saliva.
chairside::Isolation isolationOf2025(std::size_t turn) {
  using enum chairside::Isolation;
  constexpr std::array methods{rollsAndCheekPads, rollsWithHolders, rollsAndCheekPads,
                               suctionBiteBlock,  rollsWithHolders, rollsAndCheekPads,
                               dryFieldKit};
  return methods.at(turn % methods.size());
}

Saliva salivaOf2025(std::size_t turn) {
  if (turn % 5 != 3) return Saliva::none;
  return turn % 2 == 0 ? Saliva::onUpper : Saliva::onLower;
}

Chair chairOf(Story& story, Autumn autumn, roster::DayId day, base::Date date, Desk laptop,
              std::size_t turn) {
  const auto& team = *story.team;
  const auto& kit = *story.kit;
  const bool first = turn % 2 == 0;
  const auto assistant = first || !team.juno ? team.bram : *team.juno;
  const bool fourHanded = turn % 8 != 5; // now and then the assistant is needed elsewhere
  const bool is2025 = autumn == Autumn::of2025;
  return {.story = story,
          .book = story.at(laptop),
          .day = day,
          .date = date,
          .clinician = first ? team.oriel : team.tamsin,
          .assistant = fourHanded ? std::optional(assistant) : std::nullopt,
          .recorder = assistant,
          .light = laptop == Desk::a ? kit.l1 : kit.l3,
          .sealant = is2025 ? kit.fern2512 : kit.fern2609,
          .varnish = kit.birch,
          .isolation = is2025 ? isolationOf2025(turn) : chairside::Isolation::rollsAndCheekPads,
          .saliva = is2025 ? salivaOf2025(turn) : Saliva::none};
}

/// All that are due, printed by the coordinator and handed to the teachers.
void sendLetters(Story& story, Desk laptop, roster::DayId day) {
  auto& tell = story.teller;
  auto& book = story.at(laptop);
  const base::By by{story.team->ines, {}};
  const auto templates = tell.must(session::letterTemplates(book.path()));
  const auto today = tell.clock.now().date();
  std::vector<followup::Letter> printed;
  for (const auto& one : tell.must(session::readyLetters(book, day, templates, today)))
    if (one.letter.isDue()) printed.push_back(one.record);
  tell.must(book.enterLetters(by, printed));
  std::vector<base::Recorded<followup::Letter>> handed;
  for (const auto& one : tell.must(session::readyLetters(book, day, templates, today)))
    handed.push_back(*one.letter.written);
  tell.must(book.moveLetters(by, handed, followup::LetterState::handed));
}

/// In 2025 no one read a light twice a day, whatever happened to it; since then they do.
void readAgain(Story& story, Desk laptop, const reports::DayRecords& records) {
  auto& book = story.at(laptop);
  const auto date = records.day.date;
  for (const auto& light : reports::closeOut(records).lights) {
    story.teller.pass(40);
    if (date < on(2026, 1, 1))
      story.teller.must(
          book.passOverLight({story.team->bram, {}},
                             {records.id, light.light, "lights are read in the morning only"}));
    else
      story.teller.must(book.enterReading({story.team->bram, {}},
                                          {.light = light.light,
                                           .on = date,
                                           .value = {readingOf(*story.kit, light.light, date) - 6},
                                           .meter = "M-1"}));
  }
}

/// The runner's list is shredded at the school; nothing else with names was on paper.
void countPaper(Story& story, Desk laptop, const reports::DayRecords& records) {
  const auto count = [&](const followup::PaperCount& counted) {
    story.teller.must(story.at(laptop).countPaper({story.team->ines, {}}, counted));
  };
  const auto wasCounted = [&](followup::Paper paper) {
    return std::ranges::any_of(records.papers,
                               [&](const auto& row) { return row.value.paper == paper; });
  };
  using followup::Paper;
  if (!wasCounted(Paper::runnersList))
    count({.day = records.id, .paper = Paper::runnersList, .out = 1, .shredded = 1});
  if (!wasCounted(Paper::other)) count({.day = records.id, .paper = Paper::other});
}

/// Two chairs; the longer the day, the more children. A class gets a lesson on the first day.
void sayEffort(Story& story, Desk laptop, const reports::DayRecords& records) {
  using roster::Role;
  const auto open = minutes(90 + 15 * static_cast<int>(records.seatings.size()));
  const auto both = 2 * (open + minutes(90)); // with setting up and packing
  story.teller.must(story.at(laptop).enterEffort(
      {story.team->ines, {}}, {.day = records.id,
                               .chairs = 2,
                               .open = open,
                               .people = {{Role::hygienist, both},
                                          {Role::dentalAssistant, both},
                                          {Role::coordinator, open + minutes(120)}},
                               .taught = records.seenOnOtherDays.empty() ? 46 : 0}));
}

/// Invented wages, supplies by the child, and the way there and back.
void sayCosts(Story& story, Desk laptop, const reports::DayRecords& records) {
  using roster::CostKind;
  const auto open = minutes(90 + 15 * static_cast<int>(records.seatings.size()));
  const auto worked = (open + minutes(90)).count();
  const auto cents = [](long minutesWorked, long anHour) { return minutesWorked * anHour / 60; };
  const auto staff = cents(2 * worked, 4200) + cents(2 * worked, 2400) +
                     cents((open + minutes(120)).count(), 3100);
  story.teller.must(story.at(laptop).enterCosts(
      {story.team->ines, {}},
      {records.id,
       {{CostKind::staff, staff},
        {CostKind::supplies, 2500 + 380 * static_cast<long>(records.seatings.size())},
        {CostKind::travel, 2650}}}));
}

void sign(Story& story, Desk laptop, roster::DayId day, base::MemberId clinical) {
  sendLetters(story, laptop, day);
  const auto records = story.teller.must(story.at(laptop).dayRecords(day));
  sayEffort(story, laptop, records);
  sayCosts(story, laptop, records);
  readAgain(story, laptop, records);
  countPaper(story, laptop, records);
  story.teller.must(story.at(laptop).signDay({clinical, {}}, {day, clinical, story.team->ines}));
}

void tellNextDay(Story& story, SchoolDays& days) {
  const auto place = days.opened.size();
  const auto date = days.dates.at(place);
  auto& tell = story.teller;
  tell.at("opening " + nameOf(days, date));
  const auto day = openDay(story, days, date, days.laptop());
  days.opened.push_back(day);
  if (place > 0) {
    tell.at("signing the day before " + nameOf(days, date));
    sign(story, days.laptop(), days.opened.at(place - 1), story.team->oriel);
  }
  const bool shared = isShared(days);
  if (shared) {
    story.carry(Desk::a, Desk::b);
    enterReading(story, Desk::b, story.kit->l3, date);
  }
  tell.must(story.at(days.laptop())
                .answerReadiness({story.team->bram, {}},
                                 {day,
                                  kit::ReadinessItem::sterilizer,
                                  kit::ReadinessAnswer::done,
                                  {},
                                  "spore test of " + fridayBefore(date).iso() + " passed"}));
  tell.goTo(date, minutes(8 * 60 + 15));
  const auto& turns = days.turns.at(place);
  for (std::size_t i = 0; i < turns.size(); ++i) {
    tell.at("child " + std::to_string(i + 1) + " of " + nameOf(days, date));
    const auto laptop = shared && i % 2 == 1 ? Desk::b : days.laptop();
    auto chair = chairOf(story, days.autumn, day, date, laptop, i);
    if (laptop == Desk::a && turns.at(i).light) chair.light = *turns.at(i).light;
    tellTurn(chair, turns.at(i));
  }
  tell.at("the end of " + nameOf(days, date));
  if (shared) story.carry(Desk::b, Desk::a);
  const auto& school = county().at(days.school);
  const auto& term = days.autumn == Autumn::of2025 ? school.autumn2025 : school.autumn2026;
  if (date == term.days.back()) sign(story, days.laptop(), day, story.team->oriel);
}

void tellInOrder(std::vector<Event> events) {
  std::ranges::stable_sort(events, {}, &Event::date);
  for (const auto& event : events)
    event.tell();
}

} // namespace gk::demo
