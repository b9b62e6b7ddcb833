#include "reports/term/students.h"

#include "reports/records/term_view.h"

namespace gk::reports {

namespace {

StudentFigure figureOf(dentition::Sex sex) {
  switch (sex) {
  case dentition::Sex::female:
    return StudentFigure::female;
  case dentition::Sex::male:
    return StudentFigure::male;
  case dentition::Sex::other:
    return StudentFigure::otherSex;
  case dentition::Sex::notStated:
    return StudentFigure::sexNotStated;
  }
  base::fail("no such sex");
}

StudentFigure figureOf(roster::Payer payer) {
  switch (payer) {
  case roster::Payer::unknown:
    return StudentFigure::payerUnknown;
  case roster::Payer::medicaid:
    return StudentFigure::medicaid;
  case roster::Payer::chip:
    return StudentFigure::chip;
  case roster::Payer::privateInsurance:
    return StudentFigure::privateInsurance;
  case roster::Payer::none:
    return StudentFigure::noInsurance;
  }
  base::fail("no such payer");
}

constexpr auto firstGroup = static_cast<std::size_t>(StudentFigure::americanIndian);
static_assert(firstGroup + base::enumCount<roster::Ethnicity> ==
              static_cast<std::size_t>(StudentFigure::severalGroups));

StudentFigure figureOf(roster::EthnicitySet groups) {
  auto figure = StudentFigure::groupsNotStated;
  for (std::size_t i = 0; i < base::enumCount<roster::Ethnicity>; ++i) {
    if (!groups.has(static_cast<roster::Ethnicity>(i))) continue;
    if (figure != StudentFigure::groupsNotStated) return StudentFigure::severalGroups;
    figure = static_cast<StudentFigure>(firstGroup + i);
  }
  return figure;
}

} // namespace

StudentCounts studentCounts(const TermView& view) {
  const auto backgrounds =
      newestOfEach(view.records.backgrounds, [](const auto& one) { return one.child; });
  StudentCounts counts{};
  const auto count = [&](StudentFigure figure) { ++counts.at(static_cast<std::size_t>(figure)); };
  for (const auto& [id, rows] : view.screenings.all()) {
    const auto* child = view.children.find(id);
    if (!child) continue;
    const auto known = backgrounds.find(id);
    const auto said =
        known == backgrounds.end() ? roster::Background{id, {}} : known->second->value;
    count(StudentFigure::screened);
    count(figureOf(child->sex));
    count(figureOf(said.payer));
    count(figureOf(said.groups));
  }
  return counts;
}

const std::array<StudentQuestion, 3>& studentQuestions() {
  using enum StudentFigure;
  static const std::array<StudentQuestion, 3> questions{
      {{"sex", "Sex", {female, male, otherSex, sexNotStated}},
       {"payer", "Payer", {medicaid, chip, privateInsurance, noInsurance, payerUnknown}},
       {"race and ethnicity",
        "Race and ethnicity",
        {americanIndian, asian, black, hispanic, middleEastern, pacificIslander, white,
         severalGroups, groupsNotStated}}}};
  return questions;
}

std::string wordsOf(StudentFigure figure) {
  const auto at = static_cast<std::size_t>(figure);
  if (at >= firstGroup && figure < StudentFigure::severalGroups)
    return std::string(shown(static_cast<roster::Ethnicity>(at - firstGroup))) + " alone";
  switch (figure) {
  case StudentFigure::medicaid:
    return "Medicaid";
  case StudentFigure::chip:
    return "CHIP";
  case StudentFigure::sexNotStated:
  case StudentFigure::groupsNotStated:
    return "not stated";
  case StudentFigure::payerUnknown:
    return "not known";
  case StudentFigure::severalGroups:
    return "more than one group";
  case StudentFigure::otherSex:
    return "other";
  case StudentFigure::screened:
    return "screened";
  case StudentFigure::female:
    return "female";
  case StudentFigure::male:
    return "male";
  case StudentFigure::privateInsurance:
    return "private insurance";
  case StudentFigure::noInsurance:
    return "no insurance";
  case StudentFigure::americanIndian:
  case StudentFigure::asian:
  case StudentFigure::black:
  case StudentFigure::hispanic:
  case StudentFigure::middleEastern:
  case StudentFigure::pacificIslander:
  case StudentFigure::white:
    break;
  }
  base::fail("a group without words");
}

} // namespace gk::reports
