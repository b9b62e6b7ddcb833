#include "chair.h"

#include "chairside/authorization.h"

namespace gk::chairside::test {

namespace {

const base::Date today = base::Date::parse("2026-11-17").value();

struct Exam {
  Ids ids;
  roster::Program program;
  Authorization authorization{.child = ids.make<roster::ChildId>(),
                              .teeth = occlusalOf({16, 46}),
                              .dentist = ids.make<base::MemberId>(),
                              .how = AuthorizedHow::examAtSchool,
                              .on = today.plusDays(-7),
                              .until = today.plusDays(200)};

  [[nodiscard]] ErrorCode refusal() const {
    const auto sound = checkAuthorization(authorization, program, today);
    REQUIRE_FALSE(sound.has_value());
    return sound.error().code;
  }
  base::Recorded<Authorization> recorded() {
    const auto id = ids.make<AuthorizationId>();
    return {id,
            {.entry = base::EntryId(id.uuid()),
             .laptop = ids.make<base::LaptopId>(),
             .sequence = 1,
             .by = {},
             .at = {},
             .supersedes = {},
             .reason = {}},
            authorization};
  }
};

} // namespace

TEST_CASE("only a program that needs a dentist's exam waits for one", "[case-82]") {
  roster::Program program;
  CHECK_FALSE(waitsForDentist(program));
  program.supervision = roster::Supervision::dentistExamRequired;
  CHECK(waitsForDentist(program));
}

TEST_CASE("an authorization names its teeth, was given by today and ends in time", "[case-82]") {
  Exam exam;
  CHECK(checkAuthorization(exam.authorization, exam.program, today).has_value());
  SECTION("no tooth") {
    exam.authorization.teeth.clear();
  }
  SECTION("a tooth twice") {
    exam.authorization.teeth = occlusalOf({16, 16});
  }
  SECTION("no surface") {
    exam.authorization.teeth.front().surfaces = {};
  }
  SECTION("said tomorrow") {
    exam.authorization.on = today.plusDays(1);
  }
  SECTION("over before it was said") {
    exam.authorization.until = today.plusDays(-8);
  }
  SECTION("for longer than the program lets one hold") {
    exam.authorization.until = exam.authorization.on.plusDays(366);
  }
  CHECK(exam.refusal() == ErrorCode::ruleAuthorization);
}

TEST_CASE("only a dentist with a license in force authorizes", "[case-82]") {
  roster::Member member{"Dr. Selwyn Hartgrove",
                        "SH",
                        roster::Role::dentist,
                        "DD-00092",
                        today,
                        roster::usualTasks(roster::Role::dentist)};
  CHECK(mayAuthorize(member, today).has_value());
  CHECK(mayAuthorize(member, today.plusDays(1)).error().code == ErrorCode::ruleCredential);
  member.role = roster::Role::hygienist;
  CHECK(mayAuthorize(member, today).error().code == ErrorCode::ruleCredential);
}

TEST_CASE("authorizations add up, surface by surface, while they hold", "[case-82]") {
  Exam exam;
  auto first = exam.recorded();
  exam.authorization.teeth = {{toothAt(46), {Surface::buccalPit}}, {toothAt(36), occlusal}};
  exam.authorization.how = AuthorizedHow::phoneCall;
  exam.authorization.on = today;
  auto call = exam.recorded();
  const std::vector both{first, call};
  const auto all = authorizedTeeth(both, today);
  REQUIRE(all.size() == 3);
  CHECK(all[1] == ToothSurfaces{toothAt(46), {Surface::occlusal, Surface::buccalPit}});
  CHECK(authorizedTeeth(both, today.plusDays(-1)).size() == 2); // before the call
  CHECK(authorizedTeeth(both, today.plusDays(201)).empty());
  call.value.withdrawn = true;
  CHECK(authorizedTeeth(std::vector{first, call}, today) == first.value.teeth);
}

} // namespace gk::chairside::test
