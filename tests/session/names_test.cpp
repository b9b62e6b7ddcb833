#include "reports/records/inputs.h"
#include "support/clinic.h"

#include <functional>

using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::must;

namespace {

base::Date iso(const char* text) {
  return must(base::Date::parse(text));
}

} // namespace

TEST_CASE("No name of a record is blank, whichever record", "[case-115]") {
  test::Clinic clinic;
  auto& book = clinic.session;
  const auto light = must(book.lights()).front();
  const roster::Member member{"Ada Quill", "AQ", roster::Role::manager, "", {}, {}};
  const roster::Term term{"Spring 2027", iso("2027-01-11"), iso("2027-05-28"), {}};
  const kit::Lot lot{kit::MaterialKind::etchant,
                     "Etch Thistle",
                     "ET-0999",
                     iso("2027-04-30"),
                     base::Seconds(15),
                     {},
                     false,
                     {}};
  const session::Identity ada{.first = "Ada", .birth = iso("2019-03-14")};
  const roster::Child child{.number = roster::withCheckDigit("4001"),
                            .birth = {2019, 3},
                            .school = clinic.school,
                            .grade = "02",
                            .room = "6",
                            .note = {}};
  const auto with = [](auto value, const auto& spoil, const std::string& text) {
    spoil(value) = text;
    return value;
  };
  using Try = std::function<std::optional<ErrorCode>(const std::string& text)>;
  const auto trying = [](auto attempt) -> Try {
    return [attempt](const std::string& text) -> std::optional<ErrorCode> {
      const auto done = attempt(text);
      if (done) return std::nullopt;
      return done.error().code;
    };
  };
  const std::vector<std::pair<const char*, Try>> names{
      {"program", trying([&](const std::string& t) {
         return book.correctProgram(
             clinic.by,
             with(
                 must(book.program()).value, [](auto& p) -> auto& { return p.name; }, t),
             "why");
       })},
      {"county", trying([&](const std::string& t) {
         return book.correctProgram(
             clinic.by,
             with(
                 must(book.program()).value, [](auto& p) -> auto& { return p.county; }, t),
             "why");
       })},
      {"phone", trying([&](const std::string& t) {
         return book.correctProgram(
             clinic.by,
             with(
                 must(book.program()).value, [](auto& p) -> auto& { return p.phone; }, t),
             "why");
       })},
      {"term", trying([&](const std::string& t) {
         return book.enterTerm(clinic.by, with(
                                              term, [](auto& x) -> auto& { return x.name; }, t));
       })},
      {"year", trying([&](const std::string& t) {
         return book.enterYear(clinic.by,
                               {t, roster::YearKind::school, iso("2026-07-01"), iso("2027-06-30")});
       })},
      {"school", trying([&](const std::string& t) {
         return book.enterSchool(clinic.by, {t, "XX"});
       })},
      {"code", trying([&](const std::string& t) {
         return book.enterSchool(clinic.by, {"School", t});
       })},
      {"member", trying([&](const std::string& t) {
         return book.enterMember(clinic.by,
                                 with(
                                     member, [](auto& m) -> auto& { return m.name; }, t));
       })},
      {"initials", trying([&](const std::string& t) {
         return book.enterMember(clinic.by,
                                 with(
                                     member, [](auto& m) -> auto& { return m.initials; }, t));
       })},
      {"light", trying([&](const std::string& t) {
         return book.enterLight(clinic.by,
                                with(
                                    light.value, [](auto& l) -> auto& { return l.tag; }, t));
       })},
      {"corrected light", trying([&](const std::string& t) {
         return book.correctLight(clinic.by, light,
                                  with(
                                      light.value, [](auto& l) -> auto& { return l.tag; }, t),
                                  "why");
       })},
      {"material", trying([&](const std::string& t) {
         return book.enterLot(clinic.by, with(
                                             lot, [](auto& l) -> auto& { return l.material; }, t));
       })},
      {"lot", trying([&](const std::string& t) {
         return book.enterLot(clinic.by, with(
                                             lot, [](auto& l) -> auto& { return l.lot; }, t));
       })},
      {"material of a time", trying([&](const std::string& t) {
         return book.enterCureTime(clinic.by, {light.id, t, base::Seconds(20)});
       })},
      {"source of a share", trying([&](const std::string& t) {
         return book.enterEligibility(clinic.by, {clinic.term, clinic.school, 40, t});
       })},
      {"child", trying([&](const std::string& t) {
         return book.enrollChild(clinic.by, child,
                                 with(
                                     ada, [](auto& i) -> auto& { return i.first; }, t));
       })},
      {"grade of a child", trying([&](const std::string& t) {
         return book.enrollChild(clinic.by,
                                 with(
                                     child, [](auto& c) -> auto& { return c.grade; }, t),
                                 ada);
       })},
  };
  const auto edition = must(book.members()).size();
  for (const auto& [what, attempt] : names)
    for (const char* blank : {"", "  ", "\t", "\xC2\xA0", "\xE2\x80\x89"}) {
      INFO(what << " \"" << blank << '"');
      const auto refused = attempt(blank);
      REQUIRE(refused.has_value());
      CHECK(*refused != ErrorCode::ruleCredential);
    }
  CHECK(must(book.members()).size() == edition);
  CHECK(must(book.findChildren("Ada")).empty());
}

TEST_CASE("What tells two apart is compared without the blanks around it", "[case-115]") {
  test::Clinic clinic;
  CHECK(codeOf(clinic.session.enterSchool(clinic.by, {"Another", " CL "})) ==
        ErrorCode::textMalformed);
  CHECK(codeOf(clinic.session.enterTerm(
            clinic.by, {"Fall 2026 ", iso("2027-09-08"), iso("2027-12-18"), {}})) ==
        ErrorCode::textMalformed);
  const auto lots = must(clinic.session.lots());
  auto again = lots.front().value;
  again.lot += ' ';
  CHECK(codeOf(clinic.session.enterLot(clinic.by, again)) == ErrorCode::ruleMaterial);
  const auto lights = must(clinic.session.lights());
  CHECK(codeOf(clinic.session.correctLight(clinic.by, lights.front(), lights.back().value,
                                           "typed wrong")) == ErrorCode::ruleLight);
}

TEST_CASE("A grade is one grade however it is written, and counted again it is counted once",
          "[case-115]") {
  test::Clinic clinic;
  const auto first =
      must(clinic.session.enterEnrollment(clinic.by, {clinic.term, clinic.school, "1", 74}));
  CHECK(must(clinic.session.enterEnrollment(clinic.by, {clinic.term, clinic.school, "01", 71})) ==
        first);
  must(clinic.session.enterEnrollment(clinic.by, {clinic.term, clinic.school, "k", 60}));
  const auto records = must(clinic.session.termRecords(clinic.term, clinic.clock.now().date()));
  REQUIRE(records.enrollments.size() == 2);
  const auto& one = records.enrollments.front().value.grade == "1" ? records.enrollments.front()
                                                                   : records.enrollments.back();
  CHECK(one.value.students == 71);
  CHECK(one.stamp.supersedes.has_value());

  const auto mina = clinic.child("Mina");
  must(clinic.session.moveChild(clinic.by, mina, clinic.school, " 03", "8", "skipped a grade"));
  CHECK(must(clinic.session.child(mina)).value.grade == "3");
  CHECK(codeOf(clinic.session.moveChild(clinic.by, mina, roster::SchoolId(base::Uuid{}), "3", "8",
                                        "moved")) == ErrorCode::notFound);
}

TEST_CASE("A control character is refused in every text that is kept", "[case-262]") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  for (const std::string& control : {std::string(1, '\0'), std::string("\x1b"), std::string("\x7f"),
                                     std::string("\xE2\x80\xAE")}) {
    session::Identity odd{.first = "Mi" + control + "na",
                          .last = "Tolliver",
                          .birth = must(base::Date::parse("2019-03-14"))};
    const auto named = clinic.session.enrollChild(clinic.by,
                                                  {.number = "",
                                                   .birth = {2019, 3},
                                                   .school = clinic.school,
                                                   .grade = "2",
                                                   .room = "6",
                                                   .note = {}},
                                                  odd);
    CHECK(codeOf(named) == base::ErrorCode::textMalformed);
    const auto school =
        clinic.session.enterSchool(clinic.by, {.name = "Birch" + control, .code = "BI"});
    CHECK(codeOf(school) == base::ErrorCode::textMalformed);
    const auto ended = clinic.session.endVisit(
        clinic.by, {child, clinic.day, chairside::DayEnd::screenedNotTreated, "left" + control, {}},
        session::Confirmed::yes);
    REQUIRE_FALSE(ended);
  }
  CHECK(must(clinic.session.schools()).size() == 1);
}
