#include "support/clinic.h"

#include <algorithm>

using namespace gk;
using base::ErrorCode;
using base::Station;
using session::Confirmed;
using test::codeOf;
using test::must;

namespace {

base::Date dateOf(const char* iso) {
  return must(base::Date::parse(iso));
}

/// A child with one guardian, and what is known of it.
struct Carded : test::Clinic {
  roster::ChildId mina = child("Mina", "Tolliver-Reed");

  session::StudentDetails details() {
    return {must(session.identity(mina)), must(session.child(mina)).value.sex};
  }
};

const session::UndoAt atRosters{.station = Station::rosters};

} // namespace

TEST_CASE("A misspelled name and a changed phone are corrected with a reason, and sealed",
          "[case-204]") {
  Carded clinic;
  auto details = clinic.details();
  details.identity.first = " Myna ";
  details.identity.guardians = {{"Rosa Saltmarsh", "mother", "000-555-0199", "Spanish"}};
  CHECK(codeOf(clinic.session.correctStudent(clinic.by, clinic.mina, details, " ")) ==
        ErrorCode::ruleReason);
  must(clinic.session.correctStudent(clinic.by, clinic.mina, details, "misread on the form"));
  const auto now = must(clinic.session.identity(clinic.mina));
  CHECK(now.first == "Myna");
  CHECK(now.guardians.front().language == "Spanish");
  const auto revisions = must(clinic.session.identityRevisions(clinic.mina));
  REQUIRE(revisions.size() == 2);
  CHECK(revisions.front().identity.first == "Mina");
  CHECK(revisions.back().stamp.reason == "misread on the form");
  CHECK(revisions.back().stamp.by.author == clinic.by.author);
  CHECK(must(clinic.session.findChildren("myna")).size() == 1);
  CHECK(must(clinic.session.findChildren("mina")).empty());
  clinic.session.lock();
  CHECK(codeOf(clinic.session.identityRevisions(clinic.mina)) == ErrorCode::vaultLocked);
  CHECK(codeOf(clinic.session.correctStudent(clinic.by, clinic.mina, details, "again")) ==
        ErrorCode::vaultLocked);
}

TEST_CASE("Neither the earlier nor the present name of a student lies open in the file",
          "[case-204]") {
  Carded clinic;
  auto details = clinic.details();
  details.identity.last = "Quellenbrook";
  details.identity.guardians = {{"Ysolde Saltmarsh", "mother", "000-555-0199", "Spanish"}};
  must(clinic.session.correctStudent(clinic.by, clinic.mina, details, "married name"));
  must(clinic.session.finish());
  const auto bytes = must(base::readFile(clinic.session.path()));
  for (const char* word : {"Tolliver", "Quellenbrook", "Ysolde", "555-0199"}) {
    INFO(word);
    CHECK(bytes.find(word) == std::string::npos);
  }
  CHECK(bytes.find("married name") != std::string::npos);
}

TEST_CASE("A reason that tells who it is or a phone number is refused", "[case-204]") {
  Carded clinic;
  auto details = clinic.details();
  details.identity.first = "Myna";
  details.identity.guardians = {{"Rosa Saltmarsh", "mother", "000-555-0199", "Spanish"}};
  for (const char* reason :
       {"Mina was typed for Myna", "it is TOLLIVER", "the reed of the form", "asked (Rosa)",
        "now 000-555-0123", "call 5550123", "spelled \"Myna\""}) {
    INFO(reason);
    CHECK(codeOf(clinic.session.correctStudent(clinic.by, clinic.mina, details, reason)) ==
          ErrorCode::textMalformed);
  }
  CHECK(must(clinic.session.identity(clinic.mina)).first == "Mina");
  must(clinic.session.correctStudent(clinic.by, clinic.mina, details,
                                     "misread on the form of 9/14/26"));
}

TEST_CASE("A corrected birth date is held against the grade, and estimates see its month",
          "[case-204]") {
  Carded clinic;
  auto details = clinic.details();
  const auto correct = [&](const char* birth, Confirmed confirmed = Confirmed::no) {
    details.identity.birth = dateOf(birth);
    return clinic.session.correctStudent(clinic.by, clinic.mina, details, "year was wrong",
                                         confirmed);
  };
  CHECK(codeOf(correct("1990-03-04")) == ErrorCode::ruleBirthDate);
  CHECK(codeOf(correct("1990-03-04", Confirmed::yes)) == ErrorCode::ruleBirthDate);
  CHECK(codeOf(correct("2012-03-04")) == ErrorCode::ruleBirthDate);
  must(correct("2012-03-04", Confirmed::yes));
  CHECK(must(clinic.session.child(clinic.mina)).value.birth == roster::BirthMonth{2012, 3});
}

TEST_CASE("A correction that makes two cards alike asks first", "[case-204]") {
  Carded clinic;
  const auto other = clinic.child("Lupe", "Saltmarsh");
  auto details = clinic.details();
  details.identity = must(clinic.session.identity(other));
  CHECK(codeOf(clinic.session.correctStudent(clinic.by, clinic.mina, details, "wrong card")) ==
        ErrorCode::ruleSameChild);
  must(clinic.session.correctStudent(clinic.by, clinic.mina, details, "twins", Confirmed::no,
                                     Confirmed::yes));
}

TEST_CASE("Undo at the rosters gives a student back the earlier name", "[case-205]") {
  Carded clinic;
  auto details = clinic.details();
  details.identity.first = "Myna";
  details.identity.birth = dateOf("2019-01-09");
  details.sex = dentition::Sex::female;
  const auto before = must(clinic.session.child(clinic.mina)).value;
  must(clinic.session.correctStudent(clinic.by, clinic.mina, details, "misread"));
  CHECK(must(clinic.session.undoable(atRosters)).words == "Student's details corrected, Myna T.");
  must(clinic.session.undo(clinic.by, atRosters));
  CHECK(must(clinic.session.identity(clinic.mina)).first == "Mina");
  CHECK(must(clinic.session.child(clinic.mina)).value == before);
  CHECK(must(clinic.session.findChildren("mina")).size() == 1);
  must(clinic.session.redo(clinic.by, atRosters));
  CHECK(must(clinic.session.identity(clinic.mina)).first == "Myna");
}

TEST_CASE("A term is corrected with a reason, and keeps the school days that it has",
          "[case-203]") {
  test::Clinic clinic;
  const auto term = must(clinic.session.terms()).front();
  auto changed = term.value;
  changed.holidays = {dateOf("2026-11-26"), dateOf("2026-11-11"), dateOf("2026-11-26")};
  CHECK(codeOf(clinic.session.correctTerm(clinic.by, term.id, changed, "")) ==
        ErrorCode::ruleReason);
  must(clinic.session.correctTerm(clinic.by, term.id, changed, "district calendar"));
  const auto now = must(clinic.session.terms());
  REQUIRE(now.size() == 1);
  CHECK(now.front().id == term.id);
  CHECK(now.front().value.holidays == std::vector{dateOf("2026-11-11"), dateOf("2026-11-26")});
  CHECK(must(clinic.session.revisions<roster::Term>(term.id)).size() == 2);
  changed.holidays = {dateOf("2028-01-01")};
  CHECK(codeOf(clinic.session.correctTerm(clinic.by, term.id, changed, "typo")) ==
        ErrorCode::ruleDate);
  changed.holidays.clear();
  changed.start = clinic.clock.now().date().plusDays(1); // after the day that is open
  CHECK(codeOf(clinic.session.correctTerm(clinic.by, term.id, changed, "typo")) ==
        ErrorCode::ruleDate);
}

TEST_CASE("A school's name is corrected; a code never becomes another school's", "[case-203]") {
  test::Clinic clinic;
  must(clinic.session.enterSchool(clinic.by, {"Heron Bend Elementary", "HB"}));
  CHECK(codeOf(clinic.session.correctSchool(clinic.by, clinic.school, {"Cobble", "HB"}, "typo")) ==
        ErrorCode::textMalformed);
  must(clinic.session.correctSchool(clinic.by, clinic.school, {" Cobble Lantern Primary ", "CL"},
                                    "renamed by the district"));
  const auto revisions = must(clinic.session.revisions<roster::School>(clinic.school));
  CHECK(revisions.back().value.name == "Cobble Lantern Primary");
  CHECK(revisions.back().stamp.reason == "renamed by the district");
}

TEST_CASE("A lot typed wrong is corrected; once used it stays of its kind", "[case-203]") {
  test::Clinic clinic;
  const auto lotNow = [&] { return must(clinic.session.revisions<kit::Lot>(clinic.resin)).back(); };
  auto lot = lotNow().value;
  lot.expiry = dateOf("2027-09-30");
  must(clinic.session.correctLot(clinic.by, clinic.resin, lot, "month misread"));
  CHECK(lotNow().value.expiry == dateOf("2027-09-30"));
  must(clinic.session.quarantineLot(clinic.by, clinic.resin, "recalled"));
  lot = lotNow().value;
  lot.quarantined = false;
  must(clinic.session.correctLot(clinic.by, clinic.resin, lot, "another lot was recalled"));
  CHECK(lotNow().value.quarantineReason.empty());
  lot.kind = kit::MaterialKind::etchant;
  must(clinic.session.correctLot(clinic.by, clinic.resin, lot, "wrong list"));
  lot.kind = kit::MaterialKind::sealantLightCure;
  must(clinic.session.correctLot(clinic.by, clinic.resin, lot, "it was right"));
  clinic.standardVisit(clinic.child("Mina"));
  lot.kind = kit::MaterialKind::etchant;
  CHECK(codeOf(clinic.session.correctLot(clinic.by, clinic.resin, lot, "wrong list")) ==
        ErrorCode::ruleMaterial);
  auto other = must(clinic.session.revisions<kit::Lot>(clinic.etchant)).back().value;
  CHECK(codeOf(clinic.session.correctLot(clinic.by, clinic.resin, other, "same")) ==
        ErrorCode::ruleMaterial);
}

TEST_CASE("The enrollment of a school is entered for all grades at once, or for none",
          "[case-209]") {
  test::Clinic clinic;
  const auto all = [&](int second) {
    return std::vector<roster::Enrollment>{{clinic.term, clinic.school, "1", 58},
                                           {clinic.term, clinic.school, "02", second}};
  };
  CHECK(codeOf(clinic.session.enterEnrollments(clinic.by, all(-1))) == ErrorCode::numberMalformed);
  CHECK(must(clinic.session.enrollments(clinic.term)).empty());
  must(clinic.session.enterEnrollments(clinic.by, all(61)));
  must(clinic.session.enterEnrollments(clinic.by, all(63)));
  const auto now = must(clinic.session.enrollments(clinic.term));
  REQUIRE(now.size() == 2);
  CHECK(std::ranges::count_if(now, [](const auto& row) { return row.value.students == 63; }) == 1);
  must(clinic.session.undo(clinic.by, {.station = Station::schools}));
  for (const auto& row : must(clinic.session.enrollments(clinic.term)))
    CHECK(row.value.students != 63);
}

TEST_CASE("A manufacturer's time entered again takes the place of the one before", "[case-210]") {
  test::Clinic clinic;
  const auto target = [&] { return must(clinic.session.cureTarget(clinic.resin, clinic.light)); };
  must(clinic.session.enterCureTime(clinic.by, {clinic.light, "Resin Fern", base::Seconds(40)}));
  CHECK(target() == base::Seconds(40));
  must(clinic.session.enterCureTime(clinic.by, {clinic.light, "Resin Fern", base::Seconds(25)}));
  CHECK(target() == base::Seconds(25));
  const auto times = must(clinic.session.cureTimes());
  CHECK(std::ranges::count_if(times, [&](const auto& row) {
          return row.value.light == clinic.light && row.value.material == "Resin Fern";
        }) == 1);
  must(clinic.session.undo(clinic.by, {.station = Station::lights}));
  CHECK(target() == base::Seconds(40));
}
