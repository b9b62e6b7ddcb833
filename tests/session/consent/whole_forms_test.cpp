#include "reports/records/inputs.h"
#include "support/clinic.h"

using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::must;

namespace {

roster::MedicalFlag latex(roster::ChildId child) {
  return {.child = child,
          .kind = roster::FlagKind::latexAllergy,
          .action = roster::FlagAction::stop,
          .detail = "gloves",
          .decided = {}};
}

} // namespace

TEST_CASE("A form and the alert on it are entered together or not at all", "[case-125]") {
  test::Clinic clinic;
  const auto child = clinic.childWithoutForm("Juniper");
  auto form = clinic.form(child);
  form.signedOn.reset();
  CHECK_FALSE(clinic.session.enterConsent(clinic.by, form, latex(child)).has_value());
  CHECK(must(clinic.session.flags(child)).empty());
  must(clinic.session.enterConsent(clinic.by, clinic.form(child), latex(child)));
  CHECK(must(clinic.session.flags(child)).size() == 1);
  CHECK(must(clinic.session.consents(child)).size() == 1);
}

TEST_CASE("A new child whose form cannot stand is not in the logbook", "[case-125]") {
  test::Clinic clinic;
  session::NewChild entering{
      .child = {.number = roster::withCheckDigit("6001"),
                .birth = {2019, 3},
                .school = clinic.school,
                .grade = "2",
                .room = {},
                .note = {}},
      .identity = {.first = "Ada", .birth = must(base::Date::parse("2019-03-14"))}};
  entering.form = [&](roster::ChildId id) {
    auto form = clinic.form(id);
    form.signedOn.reset();
    return form;
  };
  entering.alert = latex;
  CHECK_FALSE(clinic.session.enrollRoster(clinic.by, {entering}).has_value());
  CHECK(must(clinic.session.findChildren("ada")).empty());
  entering.form = [&](roster::ChildId id) { return clinic.form(id); };
  const auto ids = must(clinic.session.enrollRoster(clinic.by, {entering}));
  CHECK(must(clinic.session.flags(ids.front())).size() == 1);
}

TEST_CASE("A withdrawal and the outcome it gives are one act", "[case-125]") {
  test::Clinic clinic;
  const auto jory = clinic.child("Jory");
  const session::ChairWork ending{
      .withdrawal = session::Withdrawal{jory, "mother, by phone"},
      .outcome = chairside::DayOutcome{jory, clinic.day, chairside::DayEnd::withdrawn, {}, {}}};
  const auto stateNow = [&] { return must(clinic.session.consents(jory)).back().value.state; };
  SECTION("on an open day") {
    must(clinic.session.work(clinic.by, ending));
    CHECK(stateNow() == roster::ConsentState::withdrawn);
    CHECK(must(clinic.session.dayRecords(clinic.day)).outcomes.back().value.end ==
          chairside::DayEnd::withdrawn);
  }
  SECTION("on a signed day neither, and without the day the form alone") {
    clinic.end(jory, chairside::DayEnd::absent);
    must(clinic.session.signDay(clinic.by, {clinic.day, clinic.hygienist, clinic.coordinator}));
    CHECK(codeOf(clinic.session.work(clinic.by, ending)) == ErrorCode::ruleDayOpen);
    CHECK(stateNow() == roster::ConsentState::yes);
    must(clinic.session.withdrawConsent(clinic.by, jory, "mother, by phone"));
    CHECK(stateNow() == roster::ConsentState::withdrawn);
  }
}
