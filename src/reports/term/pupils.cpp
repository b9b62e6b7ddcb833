#include "reports/term/pupils.h"

#include "reports/records/term_view.h"

namespace gk::reports {

namespace {

PupilFigure figureOf(dentition::Sex sex) {
  switch (sex) {
  case dentition::Sex::female:
    return PupilFigure::female;
  case dentition::Sex::male:
    return PupilFigure::male;
  case dentition::Sex::other:
    return PupilFigure::otherSex;
  case dentition::Sex::notStated:
    return PupilFigure::sexNotStated;
  }
  base::fail("no such sex");
}

PupilFigure figureOf(roster::Payer payer) {
  switch (payer) {
  case roster::Payer::unknown:
    return PupilFigure::payerUnknown;
  case roster::Payer::medicaid:
    return PupilFigure::medicaid;
  case roster::Payer::chip:
    return PupilFigure::chip;
  case roster::Payer::privateInsurance:
    return PupilFigure::privateInsurance;
  case roster::Payer::none:
    return PupilFigure::noInsurance;
  }
  base::fail("no such payer");
}

constexpr auto firstGroup = static_cast<std::size_t>(PupilFigure::americanIndian);
static_assert(firstGroup + base::enumCount<roster::Ethnicity> ==
              static_cast<std::size_t>(PupilFigure::severalGroups));

PupilFigure figureOf(roster::EthnicitySet groups) {
  auto figure = PupilFigure::groupsNotStated;
  for (std::size_t i = 0; i < base::enumCount<roster::Ethnicity>; ++i) {
    if (!groups.has(static_cast<roster::Ethnicity>(i))) continue;
    if (figure != PupilFigure::groupsNotStated) return PupilFigure::severalGroups;
    figure = static_cast<PupilFigure>(firstGroup + i);
  }
  return figure;
}

} // namespace

PupilCounts pupilCounts(const TermView& view) {
  const auto backgrounds =
      newestOfEach(view.records.backgrounds, [](const auto& one) { return one.child; });
  PupilCounts counts{};
  const auto count = [&](PupilFigure figure) { ++counts.at(static_cast<std::size_t>(figure)); };
  for (const auto& [id, rows] : view.screenings.all()) {
    const auto* child = view.children.find(id);
    if (!child) continue;
    const auto known = backgrounds.find(id);
    const auto said =
        known == backgrounds.end() ? roster::Background{id, {}} : known->second->value;
    count(PupilFigure::screened);
    count(figureOf(child->sex));
    count(figureOf(said.payer));
    count(figureOf(said.groups));
  }
  return counts;
}

const std::array<PupilQuestion, 3>& pupilQuestions() {
  using enum PupilFigure;
  static const std::array<PupilQuestion, 3> questions{
      {{"sex", "Sex", {female, male, otherSex, sexNotStated}},
       {"payer", "Payer", {medicaid, chip, privateInsurance, noInsurance, payerUnknown}},
       {"race and ethnicity",
        "Race and ethnicity",
        {americanIndian, asian, black, hispanic, middleEastern, pacificIslander, white,
         severalGroups, groupsNotStated}}}};
  return questions;
}

std::string wordsOf(PupilFigure figure) {
  const auto at = static_cast<std::size_t>(figure);
  if (at >= firstGroup && figure < PupilFigure::severalGroups)
    return std::string(shown(static_cast<roster::Ethnicity>(at - firstGroup))) + " alone";
  switch (figure) {
  case PupilFigure::medicaid:
    return "Medicaid";
  case PupilFigure::chip:
    return "CHIP";
  case PupilFigure::sexNotStated:
  case PupilFigure::groupsNotStated:
    return "not stated";
  case PupilFigure::payerUnknown:
    return "not known";
  case PupilFigure::severalGroups:
    return "more than one group";
  case PupilFigure::otherSex:
    return "other";
  case PupilFigure::screened:
    return "screened";
  case PupilFigure::female:
    return "female";
  case PupilFigure::male:
    return "male";
  case PupilFigure::privateInsurance:
    return "private insurance";
  case PupilFigure::noInsurance:
    return "no insurance";
  case PupilFigure::americanIndian:
  case PupilFigure::asian:
  case PupilFigure::black:
  case PupilFigure::hispanic:
  case PupilFigure::middleEastern:
  case PupilFigure::pacificIslander:
  case PupilFigure::white:
    break;
  }
  base::fail("a group without words");
}

} // namespace gk::reports
