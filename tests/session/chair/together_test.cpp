#include "support/clinic.h"

using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::must;
using Kept = base::Result<base::Done>;

namespace {

base::By atSchools(const test::Clinic& clinic) {
  return {.author = clinic.by.author, .station = base::Station::schools};
}

} // namespace

TEST_CASE("Acts that are kept together are all kept, each with its own undo", "[case-356]") {
  test::Clinic clinic;
  const auto before = must(clinic.session.schools()).size();
  REQUIRE(clinic.session.together([&]() -> Kept {
    must(clinic.session.enterSchool(clinic.by, {"Alder Hollow", "AH"}));
    // What was entered is seen by what comes after it.
    CHECK(must(clinic.session.schools()).size() == before + 1);
    must(clinic.session.enterSchool(clinic.by, {"Brindle Quay", "BQ"}));
    return base::Done{};
  }));
  CHECK(must(clinic.session.schools()).size() == before + 2);
  must(clinic.session.undo(atSchools(clinic), {.station = base::Station::schools}));
  const auto schools = must(clinic.session.schools());
  REQUIRE(schools.size() == before + 1);
  CHECK(schools.back().value.code == "AH");
  CHECK(must(clinic.session.findings()).empty());
}

TEST_CASE("Of acts that are kept together none is kept where one fails", "[case-356]") {
  test::Clinic clinic;
  const auto edition = clinic.session.edition();
  const auto before = must(clinic.session.schools()).size();
  const auto enter = [&](const std::string& code) {
    return clinic.session.enterSchool(clinic.by, {"School " + code, code});
  };
  // The work says so itself.
  CHECK(codeOf(clinic.session.together([&]() -> Kept {
          must(enter("A1"));
          return base::Error{ErrorCode::ruleReason, "not these"};
        })) == ErrorCode::ruleReason);
  CHECK(must(clinic.session.schools()).size() == before);
  CHECK(clinic.session.edition() == edition);
  // A question that is refused is no act that failed: whoever asks may go on.
  REQUIRE(clinic.session.together([&]() -> Kept {
    must(enter("A2"));
    CHECK(codeOf(enter("A2")) == ErrorCode::textMalformed);
    return base::Done{};
  }));
  CHECK(must(clinic.session.schools()).size() == before + 1);
  // Afterwards all goes on as ever, and the history has no gap.
  must(enter("A3"));
  CHECK(must(clinic.session.findings()).empty());
}

TEST_CASE("An act that the logbook itself does not take spoils those it is kept together with",
          "[case-356]") {
  test::Clinic clinic;
  const auto before = must(clinic.session.lights()).size();
  const auto edition = clinic.session.edition();
  kit::Light beyond{.tag = "L-9", .makersLeast = {}, .baseline = {9000}, .meter = "M-1"};
  CHECK_FALSE(clinic.session.together([&]() -> Kept {
    must(clinic.session.enterLight(clinic.by,
                                   {.tag = "L-8", .makersLeast = {}, .baseline = {}, .meter = ""}));
    CHECK_FALSE(clinic.session.enterLight(clinic.by, beyond)); // the table's own limit
    // Nothing more is taken, whoever did not listen.
    CHECK_FALSE(clinic.session.enterLight(
        clinic.by, {.tag = "L-7", .makersLeast = {}, .baseline = {}, .meter = ""}));
    return base::Done{};
  }));
  CHECK(must(clinic.session.lights()).size() == before);
  CHECK(clinic.session.edition() == edition);
  must(clinic.session.enterLight(clinic.by,
                                 {.tag = "L-8", .makersLeast = {}, .baseline = {}, .meter = ""}));
  CHECK(must(clinic.session.findings()).empty());
}

TEST_CASE("What is rehearsed is in no logbook, and names that are open are open in it",
          "[case-356]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  const auto edition = clinic.session.edition();
  const auto files = std::distance(std::filesystem::directory_iterator(clinic.folder->path()), {});
  {
    auto tried = must(clinic.session.rehearsal());
    must(tried.enterSchool(clinic.by, {"Alder Hollow", "AH"}));
    CHECK(must(tried.schools()).size() == must(clinic.session.schools()).size() + 1);
    CHECK(must(tried.identity(mina)).first == "Mina");
    CHECK(tried.edition() != edition);
    CHECK(std::distance(std::filesystem::directory_iterator(clinic.folder->path()), {}) == files);
  }
  CHECK(clinic.session.edition() == edition);
  CHECK(must(clinic.session.findings()).empty());
}
