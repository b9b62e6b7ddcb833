#include "school_days.h"
#include "telling/desk.h"
#include "telling/named_children.h"

#include <algorithm>

namespace gk::demo {

namespace {

using std::chrono::minutes;

std::vector<std::string> gradesOf2026(std::string_view code, const SchoolTerm& term) {
  if (code == "FR") return {"K", "K", "1", "K", "2"}; // molars of kindergarten are not up
  std::vector<std::string> grades;
  for (const auto& grade : term.enrolled)
    grades.emplace_back(grade.grade);
  return grades;
}

/// Everyone of last fall is a grade up.
void moveUp(Story& story, std::size_t school) {
  const auto move = [&](const Student& student) {
    const auto grade = std::to_string(*roster::gradeNumber(student.plan.grade) + 1);
    const auto child = story.teller.must(story.a->child(student.id));
    story.teller.must(story.a->moveChild({story.team->ines, {}}, student.id, child.value.school,
                                         grade, grade + "a", "a new school year"));
  };
  std::ranges::for_each(story.sealedIn2025.at(school), move);
  std::ranges::for_each(story.othersIn2025.at(school), move);
}

/// Rechecks and first visits in turn, as the runner brings them.
std::vector<Turn> turnsOf(Story& story, std::size_t school, base::Date received) {
  const auto& there = county().at(school);
  const auto term = school == cobbleLantern ? withoutNamed(there.autumn2026) : there.autumn2026;
  const auto plans =
      planSchool(term, sharesOf2026(term, there.code), gradesOf2026(there.code, term));
  const FormTerms form{Autumn::of2026, received};
  auto children = otherForms(story, school, term, form);
  const auto others = children.size();
  for (const auto& plan : plans) {
    children.push_back(inventedChild(story, Autumn::of2026, school, plan.grade));
    children.back().form = [&story, form](roster::ChildId child) {
      return yesForm(story, child, form);
    };
  }
  const auto ids = enroll(story, std::move(children));
  std::vector<Turn> turns;
  for (std::size_t i = 0; i < plans.size(); ++i)
    turns.push_back({ids.at(others + i), plans.at(i)});
  return turns;
}

std::vector<Turn> recheckTurns(const Story& story, std::size_t school) {
  const auto& students = story.sealedIn2025.at(school);
  const auto checks = planChecks(school, students);
  std::vector<Turn> turns;
  for (std::size_t i = 0; i < checks.size(); ++i) {
    const bool isWren = school == cobbleLantern && i == 0;
    if (!isWren) turns.push_back({students.at(i).id, {}, checks.at(i)});
  }
  return turns;
}

void mix(Story& story, std::vector<Turn>& turns) {
  for (std::size_t i = turns.size(); i > 1; --i)
    std::swap(turns.at(i - 1), turns.at(story.teller.forPeople.below(i)));
}

/// Four of the sealed children, and those not seen, wait for the last day.
void keepForLastDay(Story& story, std::vector<Turn>& turns) {
  const auto wait = [&](const Turn& turn) {
    const bool unseen = turn.plan.end > chairside::DayEnd::recheckOnly;
    const bool plain = turn.plan.end == chairside::DayEnd::sealedComplete &&
                       turn.plan.urgency == chairside::Urgency::none;
    return unseen || (plain && story.othersOfLastDay.size() < 4);
  };
  std::erase_if(turns, [&](const Turn& turn) {
    if (!wait(turn)) return false;
    story.othersOfLastDay.push_back({turn.child, turn.plan});
    return true;
  });
}

SchoolDays enterRoster2026(Story& story, std::size_t school, base::Date received) {
  const auto& there = county().at(school);
  story.teller.at("the forms of 2026 of " + std::string(there.name));
  story.teller.goTo(received, minutes(15 * 60 + 30));
  moveUp(story, school);
  auto turns = turnsOf(story, school, received);
  auto dates = there.autumn2026.days;
  if (school == cobbleLantern) {
    story.named = enrollNamed(story, story.sealedIn2025.at(school).front().id, received);
    keepForLastDay(story, turns);
    dates.pop_back();
  }
  for (auto& turn : recheckTurns(story, school))
    turns.push_back(std::move(turn));
  mix(story, turns);
  return spread(school, Autumn::of2026, std::move(dates), std::move(turns));
}

/// A new assistant, and L-2's baseline from its service sheet.
void beginTerm(Story& story) {
  auto& tell = story.teller;
  tell.at("the beginning of autumn 2026");
  tell.goTo(on(2026, 9, 8), minutes(9 * 60));
  story.a->confirmClock(); // no one had anything to enter since November
  const base::By corvin{story.team->corvin, {}};
  story.team->juno =
      tell.must(story.a->enterMember(corvin, {"Juno Pellwater",
                                              "JP",
                                              roster::Role::dentalAssistant,
                                              "DA-01377",
                                              {},
                                              roster::usualTasks(roster::Role::dentalAssistant)}));
  for (const auto& light : tell.must(story.a->lights())) {
    if (light.id != story.kit->l2) continue;
    auto known = light.value;
    known.baseline = {1120};
    tell.must(story.a->correctLight(corvin, light, known,
                                    "baseline from the service sheet of August 2025"));
  }
  enterEnrollments(story, Autumn::of2026);
}

} // namespace

void tellAutumn2026(Story& story) {
  beginTerm(story);
  std::vector<std::optional<SchoolDays>> schools(county().size());
  std::vector<Event> events;
  for (std::size_t i = 0; i < county().size(); ++i) {
    const auto& dates = county().at(i).autumn2026.days;
    const auto received = std::max(dates.front().plusDays(-6), on(2026, 9, 9));
    events.push_back({received, [&story, &schools, i, received] {
                        schools.at(i) = enterRoster2026(story, i, received);
                        if (schools.at(i)->laptop() == Desk::b) story.carry(Desk::a, Desk::b);
                      }});
    for (auto date : dates)
      if (date < on(2026, 11, 17))
        events.push_back({date, [&story, &schools, i] { tellNextDay(story, *schools.at(i)); }});
  }
  tellInOrder(std::move(events));
  story.dayBeforeLast = schools.at(cobbleLantern)->opened.back();
  story.teller.at("bringing the laptops together before 17 November");
  story.carry(Desk::b, Desk::a);
}

} // namespace gk::demo
