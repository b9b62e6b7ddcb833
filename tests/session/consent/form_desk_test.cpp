#include "support/clinic.h"

#include <algorithm>

using namespace gk;
using base::ErrorCode;
using roster::ConsentState;
using session::Confirmed;
using session::FormEntry;
using test::Clinic;
using test::codeOf;
using test::must;

namespace {

roster::MedicalFlag alertOf(roster::ChildId child, roster::FlagKind kind, const char* detail = "") {
  return {.child = child,
          .kind = kind,
          .action = roster::FlagAction::ask,
          .detail = detail,
          .decided = {}};
}

} // namespace

TEST_CASE("A form, its alerts and both adults are entered as one act, with no school day open",
          "[case-290]") {
  Clinic clinic;
  must(clinic.session.cancelDay(clinic.by, clinic.day, "snow"));
  const auto child = clinic.childWithoutForm("Mina");
  auto form = clinic.form(child);
  form.version = "2026-A";
  form.language = "Spanish";
  FormEntry entry{
      form,
      {alertOf(child, roster::FlagKind::asthma, "inhaler in the office"),
       alertOf(child, roster::FlagKind::latexAllergy),
       alertOf(child, roster::FlagKind::latexAllergy)},
      std::vector<session::Guardian>{{"Rosa Hollowell", "mother", "000-555-0101", "Spanish"},
                                     {"Tom Hollowell", "father", "000-555-0102", ""}}};
  must(clinic.session.enterForm(clinic.by, entry));
  const auto forms = must(clinic.session.consents(child));
  REQUIRE(forms.size() == 1);
  CHECK(forms.front().value == form);
  CHECK(must(clinic.session.flags(child)).size() == 2); // typed twice, one alert
  const auto adults = must(clinic.session.identity(child)).guardians;
  REQUIRE(adults.size() == 2);
  CHECK(adults[1].name == "Tom Hollowell");

  // One undo takes the form and the adults back; alerts stay until a clinician resolves them.
  const auto undone = must(clinic.session.undo(clinic.by, {.station = base::Station::consent}));
  CHECK(undone.find("the alert stays") == undone.rfind("the alert stays"));
  CHECK(must(clinic.session.consents(child)).empty());
  CHECK(must(clinic.session.flags(child)).size() == 2);
  CHECK(must(clinic.session.identity(child)).guardians != adults);
}

TEST_CASE("A form that cannot count is refused whole: no alert and no adult is left behind",
          "[case-290]") {
  Clinic clinic;
  const auto child = clinic.childWithoutForm("Mina");
  const auto before = must(clinic.session.identity(child));
  FormEntry entry{clinic.form(child),
                  {alertOf(child, roster::FlagKind::heart)},
                  std::vector<session::Guardian>{{"Rosa Hollowell", "mother", "1", ""}}};
  entry.form.signedOn.reset();
  CHECK(codeOf(clinic.session.enterForm(clinic.by, entry)) == ErrorCode::ruleConsentForm);
  entry = {clinic.form(child), {alertOf(clinic.childWithoutForm("Lupe"), roster::FlagKind::heart)}};
  CHECK(codeOf(clinic.session.enterForm(clinic.by, entry)) == ErrorCode::notFound);
  CHECK(must(clinic.session.consents(child)).empty());
  CHECK(must(clinic.session.flags(child)).empty());
  CHECK(must(clinic.session.identity(child)) == before);
}

TEST_CASE("Adults of a form are not entered while the names are locked; the form alone is",
          "[case-290]") {
  Clinic clinic;
  const auto child = clinic.childWithoutForm("Mina");
  clinic.session.lock();
  FormEntry entry{clinic.form(child), {}, std::vector<session::Guardian>{{"Rosa", "", "", ""}}};
  CHECK(codeOf(clinic.session.enterForm(clinic.by, entry)) == ErrorCode::vaultLocked);
  entry.guardians.reset();
  must(clinic.session.enterForm(clinic.by, entry));
  const auto lines =
      must(clinic.session.formLines(clinic.term, clinic.clock.now().date(), clinic.school, true));
  REQUIRE(lines.size() == 1);
  CHECK(lines.front().name == lines.front().number);
  CHECK(lines.front().guardian.empty());
}

TEST_CASE("The same paper typed twice is asked about", "[case-291]") {
  Clinic clinic;
  const auto child = clinic.childWithoutForm("Mina");
  FormEntry entry{clinic.form(child)};
  must(clinic.session.enterForm(clinic.by, entry));
  entry.form.note = "second copy";
  entry.form.receivedOn = clinic.clock.now().date();
  CHECK(must(clinic.session.isEntered(entry.form)));
  CHECK(codeOf(clinic.session.enterForm(clinic.by, entry)) == ErrorCode::ruleConsentForm);
  must(clinic.session.enterForm(clinic.by, entry, {.isSecond = Confirmed::yes}));
  entry.form.allowed = entry.form.allowed.without({roster::Service::photo});
  CHECK_FALSE(must(clinic.session.isEntered(entry.form)));
  must(clinic.session.enterForm(clinic.by, entry));
}

TEST_CASE("A form typed wrong is corrected with a reason, and what it said stays to be read",
          "[case-291]") {
  Clinic clinic;
  const auto child = clinic.childWithoutForm("Mina");
  const auto id = must(clinic.session.enterForm(clinic.by, {clinic.form(child)}));
  auto right = clinic.form(child);
  right.state = ConsentState::no;
  right.allowed = {};
  const auto old = must(clinic.session.consents(child)).front();
  CHECK(codeOf(clinic.session.correctConsent(clinic.by, old, right, "")) == ErrorCode::ruleReason);
  must(clinic.session.correctConsent(clinic.by, old, right, "typed from the next form"));
  const auto revisions = must(clinic.session.formRevisions(id));
  REQUIRE(revisions.size() == 2);
  CHECK(revisions[0].value.state == ConsentState::yes);
  CHECK(revisions[1].value.state == ConsentState::no);
  CHECK(revisions[1].stamp.reason == "typed from the next form");
}

TEST_CASE("Handed out, back and missing forms are counted by room, and the list to chase is exact",
          "[case-292]") {
  Clinic clinic;
  auto& book = clinic.session;
  const auto today = clinic.clock.now().date();
  clinic.child("Yes");
  const auto no = clinic.childWithoutForm("No");
  auto said = clinic.form(no);
  said.state = ConsentState::no;
  said.allowed = {};
  must(book.enterForm(clinic.by, {said}));
  const auto half = clinic.childWithoutForm("Half");
  auto incomplete = clinic.form(half);
  incomplete.state = ConsentState::incomplete;
  must(book.enterForm(clinic.by, {incomplete}));
  const auto missing = clinic.childWithoutForm("Missing");
  const auto room = must(book.child(missing)).value.room;
  const auto line =
      must(book.enterHandout(clinic.by, {clinic.term, clinic.school, room, today, 26, "A"}));
  CHECK(codeOf(book.enterHandout(clinic.by, {clinic.term, clinic.school, room, today, 0})) ==
        ErrorCode::numberMalformed);
  CHECK(codeOf(book.enterHandout(clinic.by, {clinic.term, clinic.school, room, today.plusDays(1),
                                             5})) == ErrorCode::ruleDate);
  auto counts = must(book.formCounts(clinic.term, today));
  REQUIRE(counts.size() == 1);
  CHECK(counts[0].children == 4);
  CHECK(counts[0].handedOut == 26);
  CHECK(counts[0].yes == 1);
  CHECK(counts[0].no == 1);
  CHECK(counts[0].incomplete == 1);
  CHECK(counts[0].missing() == 1);
  must(book.correctHandout(clinic.by, line, {clinic.term, clinic.school, room, today, 24, "A"},
                           "two were spoiled"));
  CHECK(must(book.formCounts(clinic.term, today))[0].handedOut == 24);

  std::vector<roster::ChildId> chased;
  for (const auto& one : must(book.formLines(clinic.term, today)))
    if (roster::isToChase(one.of.state)) chased.push_back(one.of.child);
  std::ranges::sort(chased);
  auto expected = std::vector{half, missing};
  std::ranges::sort(expected);
  CHECK(chased == expected);
}
