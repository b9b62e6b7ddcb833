#include "telling/desk.h"

#include "plan/names.h"

namespace gk::demo {

namespace {

base::By ines(const Story& story) {
  return {story.team->ines, {}};
}

int schoolYear(Autumn autumn) {
  return autumn == Autumn::of2025 ? 2025 : 2026;
}

/// Invented, and spread by the child's number alone.
roster::Background inventedBackground(int number, roster::ChildId child) {
  using enum roster::Ethnicity;
  using roster::Payer;
  const auto at = [&](int prime, int outOf) { return number * prime % outOf; };
  roster::Background said{child, {}, Payer::unknown};
  const int who = at(37, 100);
  if (who < 36)
    said.groups = {white};
  else if (who < 62)
    said.groups = {hispanic};
  else if (who < 77)
    said.groups = {black};
  else if (who < 83)
    said.groups = {asian};
  else if (who < 90)
    said.groups = {white, hispanic};
  else if (who < 93)
    said.groups = {americanIndian};
  else if (who < 96)
    said.groups = {middleEastern};
  const int pays = at(61, 100);
  said.payer = pays < 52   ? Payer::medicaid
               : pays < 64 ? Payer::chip
               : pays < 85 ? Payer::privateInsurance
               : pays < 94 ? Payer::none
                           : Payer::unknown;
  return said;
}

roster::ServiceSet everythingAsked() {
  using enum roster::Service;
  return {screening,      sealants,         varnish,       interimMaterial,
          shareWithNurse, shareWithDentist, dataForReports};
}

} // namespace

void enterEnrollments(Story& story, Autumn autumn) {
  story.teller.at("entering the schools' pupils");
  for (std::size_t i = 0; i < county().size(); ++i) {
    const auto& school = county().at(i);
    const auto& term = autumn == Autumn::of2025 ? school.autumn2025 : school.autumn2026;
    for (const auto& [grade, students] : term.enrolled)
      story.teller.must(story.a->enterEnrollment(
          ines(story),
          {story.terms.at(placeOf(autumn)), story.schools.at(i), std::string(grade), students}));
    story.teller.must(story.a->enterEligibility(
        ines(story), {story.terms.at(placeOf(autumn)), story.schools.at(i), school.mealsPercent,
                      "county list of schools, October " + std::to_string(schoolYear(autumn))}));
  }
}

session::NewChild newChild(Story& story, std::size_t school, const std::string& grade,
                           const session::Identity& identity, dentition::Sex sex,
                           std::optional<int> digits) {
  const int number = digits ? *digits : story.nextNumber++;
  return {
      .child = {.number = roster::withCheckDigit(std::to_string(number)),
                .birth = {identity.birth.year(), identity.birth.month()},
                .sex = sex,
                .school = story.schools.at(school),
                .grade = grade,
                .room = identity.room},
      .identity = identity,
      .form = {},
      .background = [number](roster::ChildId child) { return inventedBackground(number, child); }};
}

session::NewChild inventedChild(Story& story, Autumn autumn, std::size_t school,
                                const std::string& grade) {
  const auto name = story.nextName++;
  const int years = *roster::gradeNumber(grade) + 5; // of the youngest of the grade, in September
  return newChild(story, school, grade,
                  inventedIdentity(name, schoolYear(autumn) - years, roomOf(grade, name)),
                  name % 2 == 0 ? dentition::Sex::female : dentition::Sex::male);
}

roster::Consent yesForm(const Story& story, roster::ChildId child, const FormTerms& terms) {
  const int year = schoolYear(terms.autumn);
  auto services = everythingAsked();
  if (terms.forTwoYears || terms.autumn == Autumn::of2026)
    services.add(roster::Service::recheckAndReplace);
  return {.child = child,
          .term = story.terms.at(placeOf(terms.autumn)),
          .state = roster::ConsentState::yes,
          .allowed = services,
          .signedOn = terms.received.plusDays(-3),
          .receivedOn = terms.received,
          .validFrom = on(year, 9, 1),
          .validUntil = on(year + (terms.forTwoYears ? 2 : 1), 6, 30)};
}

roster::Consent noForm(const Story& story, roster::ChildId child, const FormTerms& terms) {
  auto form = yesForm(story, child, terms);
  form.state = roster::ConsentState::no;
  form.allowed = {};
  return form;
}

roster::Consent incompleteForm(const Story& story, roster::ChildId child, const FormTerms& terms) {
  auto form = yesForm(story, child, terms);
  form.state = roster::ConsentState::incomplete;
  form.signedOn.reset();
  form.note = "not signed; a new form went home";
  return form;
}

void enterForm(Story& story, const roster::Consent& form) {
  story.teller.pass(15);
  story.teller.must(story.a->enterConsent(ines(story), form));
}

std::vector<session::NewChild> otherForms(Story& story, std::size_t school, const SchoolTerm& term,
                                          const FormTerms& terms) {
  std::vector<session::NewChild> children;
  for (int i = term.consented; i < term.formsBack; ++i) {
    const auto& grade = term.enrolled.at(static_cast<std::size_t>(i) % term.enrolled.size()).grade;
    children.push_back(inventedChild(story, terms.autumn, school, std::string(grade)));
    const bool incomplete = i % 4 == 3;
    children.back().form = [&story, terms, incomplete](roster::ChildId child) {
      return incomplete ? incompleteForm(story, child, terms) : noForm(story, child, terms);
    };
  }
  return children;
}

std::vector<roster::ChildId> enroll(Story& story, std::vector<session::NewChild> children) {
  story.teller.pass(20 * static_cast<int>(children.size()));
  return story.teller.must(story.a->enrollRoster(ines(story), std::move(children),
                                                 session::Confirmed::no, session::Confirmed::yes));
}

} // namespace gk::demo
