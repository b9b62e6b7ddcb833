#include "reports/report.h"
#include "reports/sample.h"
#include "reports/services/referral_report.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::test;
using chairside::Urgency;
using followup::ReferralState;

namespace {

struct Referred : SampleTerm {
  roster::SchoolId cobble = school("Cobble Lantern Elementary", 40);
  roster::DayId autumn = day(cobble, "2026-09-15");
  roster::DayId later = day(cobble, "2026-11-17");

  roster::ChildId refer(Urgency urgency, ReferralState state = ReferralState::open) {
    const auto referred = child(cobble);
    make.setTime(noonOf("2026-09-25"));
    records.referrals.push_back(
        make.row(followup::Referral{referred, autumn, urgency, "untreated decay",
                                    followup::referralDue(urgency, date("2026-09-15")),
                                    followup::ReferredTo::ownDentist, state}));
    return referred;
  }
  void attempt(roster::ChildId child, followup::Channel channel, followup::ContactResult result) {
    records.contacts.push_back(
        make.row(followup::ContactAttempt{child, later, channel, result, ""}));
  }
};

} // namespace

TEST_CASE("referrals are counted by what became of them and no one is counted twice") {
  Referred term;
  term.refer(Urgency::urgent);
  term.refer(Urgency::early, ReferralState::treatedComplete);
  term.refer(Urgency::early, ReferralState::seenNoneNeeded);
  term.refer(Urgency::early, ReferralState::treatmentStarted);
  term.refer(Urgency::early, ReferralState::declined);
  const auto all = reports::referralCounts(term.records, date("2026-11-17"), std::nullopt);
  CHECK(all.made == 5);
  CHECK(all.complete == 2);
  CHECK(all.started == 1);
  CHECK(all.seen() == 3);
  CHECK(all.declined == 1);
  CHECK(all.open == 1);
  CHECK(all.made == all.complete + all.started + all.declined + all.moved + all.lost + all.open);
  const auto urgent = reports::referralCounts(term.records, date("2026-11-17"), Urgency::urgent);
  CHECK(urgent.made == 1);
  // From 15 September to 17 November are 63 days; what was only started is not finished either.
  CHECK(all.openLong == 2);
  const auto sooner = reports::referralCounts(term.records, date("2026-11-14"), std::nullopt);
  CHECK(sooner.openLong == 0); // 60 days are not over 60
}

TEST_CASE("a guardian counts as reached by phone and never by a letter alone") {
  Referred term;
  const auto lettered = term.refer(Urgency::early);
  const auto phoned = term.refer(Urgency::urgent);
  term.attempt(lettered, followup::Channel::letter, followup::ContactResult::reached);
  term.attempt(phoned, followup::Channel::phone, followup::ContactResult::noAnswer);
  term.attempt(phoned, followup::Channel::phone, followup::ContactResult::reached);
  CHECK(reports::referralCounts(term.records, date("2026-11-17"), std::nullopt).reached == 1);
}

TEST_CASE("the tracker lists open referrals first with their days, tries and whether overdue") {
  Referred term;
  term.refer(Urgency::early, ReferralState::treatedComplete);
  const auto urgent = term.refer(Urgency::urgent);
  term.attempt(urgent, followup::Channel::phone, followup::ContactResult::noAnswer);
  const auto tables = reports::referralReport(term.records, date("2026-11-17"));
  REQUIRE(tables.size() == 3);
  const auto& tracker = tables[1];
  REQUIRE(tracker.rows.size() == 2);
  const auto& open = tracker.rows[0];
  CHECK(open[2] == "urgent care");
  CHECK(open[6] == "1");
  CHECK(open[7] == "2026-11-17 phone: no answer");
  CHECK(open[8] == "NO");
  CHECK(open[10] == "63");
  CHECK(open[11] == "OVERDUE");
  // A finished one stopped counting when its outcome was noted, ten days on.
  CHECK(tracker.rows[1][10] == "10");
  CHECK(tracker.rows[1][11] == "–");
}

TEST_CASE("days open go on after the term ended") {
  Referred term;
  term.refer(Urgency::early);
  reports::ReportOptions options;
  options.today = date("2027-01-15");
  const auto tables = reports::reportOf(reports::ReportKind::followUp, term.records, options);
  CHECK(tables[1].rows[0][10] == "122");
}
