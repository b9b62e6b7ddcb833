#include "school_days.h"
#include "telling/desk.h"
#include "telling/named_children.h"

namespace gk::demo {

namespace {

std::vector<std::string> gradesOf(const SchoolTerm& term) {
  std::vector<std::string> grades;
  for (const auto& grade : term.enrolled)
    grades.emplace_back(grade.grade);
  return grades;
}

/// The week before the team comes: children, forms, and who will be seen.
std::vector<Turn> enterRoster(Story& story, std::size_t school, base::Date received) {
  const auto& there = county().at(school);
  const auto& term = there.autumn2025;
  story.teller.at("the forms of 2025 of " + std::string(there.name));
  story.teller.goTo(received, std::chrono::minutes(15 * 60 + 30));
  const auto plans = planSchool(term, sharesOf2025(there), gradesOf(term));
  const auto sealed = static_cast<std::size_t>(there.oneYear.sealed);
  const auto found = static_cast<std::size_t>(there.oneYear.found);
  auto children = otherForms(story, school, term, {Autumn::of2025, received});
  const auto others = children.size();
  for (std::size_t i = 0; i < plans.size(); ++i) {
    const bool isWren = school == cobbleLantern && i == 0;
    children.push_back(isWren ? wrenIn2025(story)
                              : inventedChild(story, Autumn::of2025, school, plans.at(i).grade));
    // Last year's form is what a recheck stands on a year later: those found had ticked it.
    const FormTerms form{Autumn::of2025, received, i < found};
    children.back().form = [&story, form](roster::ChildId child) {
      return yesForm(story, child, form);
    };
  }
  const auto ids = enroll(story, std::move(children));
  std::vector<Turn> turns;
  for (std::size_t i = 0; i < plans.size(); ++i) {
    const auto child = ids.at(others + i);
    auto& students = i < sealed ? story.sealedIn2025.at(school) : story.othersIn2025.at(school);
    students.push_back({child, plans.at(i)});
    turns.push_back({child, plans.at(i), {}, lightOf2025(story, school, i)});
  }
  return turns;
}

/// So that the days are not sorted by what was done.
std::vector<Turn> mixed(Story& story, std::vector<Turn> turns) {
  for (std::size_t i = turns.size(); i > 1; --i)
    std::swap(turns.at(i - 1), turns.at(story.teller.forPeople.below(i)));
  return turns;
}

} // namespace

void tellAutumn2025(Story& story) {
  story.sealedIn2025.resize(county().size());
  story.othersIn2025.resize(county().size());
  enterEnrollments(story, Autumn::of2025);
  std::vector<std::optional<SchoolDays>> schools(county().size());
  std::vector<Event> events;
  for (std::size_t i = 0; i < county().size(); ++i) {
    const auto& dates = county().at(i).autumn2025.days;
    const auto received = dates.front().plusDays(-7);
    events.push_back({received, [&story, &schools, i, received] {
                        auto turns = mixed(story, enterRoster(story, i, received));
                        schools.at(i) = spread(i, Autumn::of2025, county().at(i).autumn2025.days,
                                               std::move(turns));
                        if (schools.at(i)->laptop() == Desk::b) story.carry(Desk::a, Desk::b);
                      }});
    for (auto date : dates)
      events.push_back({date, [&story, &schools, i] { tellNextDay(story, *schools.at(i)); }});
  }
  tellInOrder(std::move(events));
  story.teller.at("bringing the laptops together after autumn 2025");
  story.carry(Desk::b, Desk::a);
}

} // namespace gk::demo
