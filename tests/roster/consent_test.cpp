#include "forms.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::roster;
using gk::roster::test::day;
using gk::roster::test::Forms;

namespace {

const auto formsDay = day(2026, 11, 17);

Standing stands(const std::vector<base::Recorded<Consent>>& rows,
                Service service = Service::sealants, base::Date on = formsDay) {
  return standing(rows, service, on);
}

} // namespace

TEST_CASE("A yes in force allows what it ticks") {
  Forms forms;
  const auto yes = stands({forms.row(forms.yes())});
  CHECK(yes.allows);
  CHECK(yes.state == ConsentState::yes);
  CHECK(yes.why.empty());
  CHECK_FALSE(yes.historyOverAYearOld);
}

TEST_CASE("Without a form nothing is allowed") {
  for (std::size_t i = 0; i < base::enumCount<Service>; ++i) {
    const auto none = stands({}, static_cast<Service>(i));
    CHECK_FALSE(none.allows);
    CHECK(none.state == ConsentState::notReturned);
  }
}

TEST_CASE("Only yes and yes with limits reach the chair") {
  Forms forms;
  const auto state = GENERATE(ConsentState::no, ConsentState::notReturned, ConsentState::incomplete,
                              ConsentState::withdrawn, ConsentState::onHold);
  const auto refused = stands({forms.row(forms.in(state))});
  CHECK_FALSE(refused.allows);
  CHECK(refused.state == state);
  CHECK_FALSE(refused.why.empty());
}

TEST_CASE("A withdrawal stops the child with its time and how it came",
          "[case-1][case-2][case-3]") {
  Forms forms;
  auto withdrawn = forms.in(ConsentState::withdrawn);
  withdrawn.note = "by phone, taken by the coordinator";
  const auto at =
      base::atLocal(formsDay, std::chrono::minutes{10 * 60 + 42}, std::chrono::hours{-5});
  // The ticks are still on the row, and still allow nothing.
  const auto now = stands({forms.row(withdrawn, at)});
  CHECK_FALSE(now.allows);
  CHECK(now.state == ConsentState::withdrawn);
  REQUIRE(now.since.has_value());
  CHECK(now.since->text() == "2026-11-17 10:42");
  CHECK(now.why == "withdrawn Nov 17, 2026, 10:42 AM, by phone, taken by the coordinator");
}

TEST_CASE("A withdrawal stops rechecks and sharing as well", "[case-3]") {
  Forms forms;
  const auto row = forms.row(forms.in(ConsentState::withdrawn));
  for (auto service : {Service::recheckAndReplace, Service::shareWithNurse,
                       Service::shareWithDentist, Service::dataForReports})
    CHECK_FALSE(stands({row}, service).allows);
}

TEST_CASE("A withdrawal is not outvoted by another guardian's yes", "[case-1]") {
  Forms forms;
  const auto withdrawn = forms.row(forms.in(ConsentState::withdrawn));
  auto later = forms.yes();
  later.signedOn = day(2026, 10, 20);
  CHECK(stands({withdrawn, forms.row(later)}).state == ConsentState::withdrawn);
}

TEST_CASE("Two forms that disagree are on hold whichever came last", "[case-7]") {
  Forms forms;
  auto no = forms.in(ConsentState::no);
  no.signedOn = GENERATE(day(2026, 8, 30), day(2026, 10, 30));
  const auto first = forms.row(forms.yes());
  const auto second = forms.row(no);
  for (const auto& rows : {std::vector{first, second}, std::vector{second, first}}) {
    const auto held = stands(rows);
    CHECK(held.state == ConsentState::onHold);
    CHECK_FALSE(held.allows);
    CHECK(held.why.find("neither counts") != std::string::npos);
  }
}

TEST_CASE("Where both guardians say yes a service needs both ticks", "[case-7]") {
  Forms forms;
  auto later = forms.yes();
  later.signedOn = day(2026, 10, 30);
  const std::vector rows{forms.row(forms.yes({Service::varnish})), forms.row(later)};
  CHECK(stands(rows, Service::sealants).allows);
  const auto varnish = stands(rows, Service::varnish);
  CHECK_FALSE(varnish.allows);
  CHECK(varnish.why == "only one of two forms checks: fluoride varnish");
}

TEST_CASE("A hold outlasts every answer until it is lifted", "[case-7]") {
  Forms forms;
  const std::vector rows{forms.row(forms.in(ConsentState::onHold)), forms.row(forms.yes())};
  CHECK(stands(rows).state == ConsentState::onHold);
}

TEST_CASE("A signer of another relation counts only after a review", "[case-8]") {
  Forms forms;
  auto form = forms.yes();
  form.signer = Relation::other;
  const auto refused = checkForm(form, formsDay);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == base::ErrorCode::ruleConsentForm);
  form.signerReviewed = true;
  CHECK(checkForm(form, formsDay));
}

TEST_CASE("A student of age may sign alone", "[case-9]") {
  Forms forms;
  auto form = forms.yes();
  form.signer = Relation::selfOfAge;
  CHECK(checkForm(form, formsDay));
  CHECK(stands({forms.row(form)}).allows);
}

TEST_CASE("Sealants ticked without screening make no yes", "[case-10]") {
  Forms forms;
  const auto refused = checkForm(forms.yes({Service::screening}), formsDay);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().detail.find("incomplete") != std::string::npos);
  CHECK(checkForm(forms.yes({Service::screening, Service::sealants}), formsDay));
}

TEST_CASE("A blank health history makes no yes", "[case-10]") {
  Forms forms;
  auto form = forms.yes();
  form.history = HistoryAnswered::no;
  CHECK_FALSE(checkForm(form, formsDay));
  form.history = HistoryAnswered::partly;
  CHECK(checkForm(form, formsDay));
}

TEST_CASE("An incomplete form is entered as such and allows nothing", "[case-10]") {
  Forms forms;
  auto form = forms.in(ConsentState::incomplete);
  form.history = HistoryAnswered::no;
  form.signedOn = std::nullopt;
  CHECK(checkForm(form, formsDay));
  CHECK(stands({forms.row(form)}).state == ConsentState::incomplete);
  CHECK(stands({forms.row(form), forms.row(forms.yes())}).allows);
}

TEST_CASE("A yes needs its dates and they must be in order") {
  Forms forms;
  const auto broken = [&](auto change) {
    auto form = forms.yes();
    change(form);
    return !checkForm(form, formsDay).has_value();
  };
  CHECK(checkForm(forms.yes(), formsDay));
  CHECK(broken([](Consent& form) { form.signedOn.reset(); }));
  CHECK(broken([](Consent& form) { form.receivedOn.reset(); }));
  CHECK(broken([](Consent& form) { form.signedOn = day(2026, 9, 15); }));
  CHECK(broken([](Consent& form) { form.receivedOn = day(2026, 11, 18); }));
  CHECK(broken([](Consent& form) { form.validFrom.reset(); }));
  CHECK(broken([](Consent& form) { form.validUntil.reset(); }));
  CHECK(broken([](Consent& form) { form.validUntil = day(2026, 9, 7); }));
  CHECK(broken([](Consent& form) { form.allowed = {}; }));
}

TEST_CASE("A form holds from its first day to its last and no longer") {
  Forms forms;
  const std::vector rows{forms.row(forms.yes())};
  CHECK_FALSE(stands(rows, Service::sealants, day(2026, 9, 7)).allows);
  CHECK(stands(rows, Service::sealants, day(2026, 9, 8)).allows);
  CHECK(stands(rows, Service::sealants, day(2027, 6, 30)).allows);
  CHECK_FALSE(stands(rows, Service::sealants, day(2027, 7, 1)).allows);
}

TEST_CASE("Last year's form counts only where its own dates say so", "[case-11]") {
  Forms forms;
  auto form = forms.yes();
  form.signedOn = day(2025, 9, 12);
  form.receivedOn = day(2025, 9, 15);
  form.validFrom = day(2025, 9, 8);
  form.validUntil = day(2026, 6, 30);
  const auto lapsed = stands({forms.row(form)});
  CHECK_FALSE(lapsed.allows);
  CHECK(lapsed.state == ConsentState::notReturned);
  CHECK(lapsed.why == "the last form is not valid on this date");
  form.validUntil = day(2027, 6, 30); // "this and next school year"
  const auto holds = stands({forms.row(form)});
  CHECK(holds.allows);
  CHECK(holds.historyOverAYearOld);
}

TEST_CASE("Last year's no does not dispute this year's yes", "[case-11]") {
  Forms forms;
  auto no = forms.in(ConsentState::no);
  no.term = forms.otherTerm();
  no.signedOn = day(2026, 1, 12);
  no.receivedOn = day(2026, 1, 15);
  no.validFrom.reset();
  no.validUntil.reset();
  CHECK(stands({forms.row(no)}).state == ConsentState::no);
  CHECK(stands({forms.row(no), forms.row(forms.yes())}).allows);
  CHECK(stands({forms.row(no)}, Service::sealants, day(2027, 1, 16)).state ==
        ConsentState::notReturned);
}

TEST_CASE("A no of this year disputes a yes of last year that still holds", "[case-7][case-11]") {
  Forms forms;
  auto no = forms.in(ConsentState::no);
  no.term = forms.otherTerm();
  no.receivedOn = day(2026, 10, 1);
  no.validUntil.reset();
  CHECK(stands({forms.row(no), forms.row(forms.yes())}).state == ConsentState::onHold);
}

TEST_CASE("A recheck needs its own tick though the child was sealed before", "[case-12]") {
  Forms forms;
  const std::vector rows{forms.row(forms.yes({Service::recheckAndReplace}))};
  const auto recheck = stands(rows, Service::recheckAndReplace);
  CHECK_FALSE(recheck.allows);
  CHECK(recheck.why == "the form does not check: recheck and reseal");
  CHECK(stands(rows, Service::screening).allows);
}

TEST_CASE("Silence about a service is no") {
  Forms forms;
  for (std::size_t i = 0; i < base::enumCount<Service>; ++i) {
    const auto service = static_cast<Service>(i);
    CHECK_FALSE(stands({forms.row(forms.yes({service}))}, service).allows);
  }
}
