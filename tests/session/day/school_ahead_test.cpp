#include "session/day/school_ahead.h"

#include "support/clinic.h"

// What a planned day expects: forms that say yes, of those not seen yet.
using namespace gk;
using test::must;

namespace {

struct Ahead : test::Clinic {
  base::Date today = clock.now().date();
  std::set<roster::ChildId> seen() {
    return must(session::seenInTerm(session, term, school, today));
  }
  session::FormsAhead forms() {
    return must(session::formsAhead(session, term, school, today, seen()));
  }
};

} // namespace

TEST_CASE("Forms back, yes and not seen yet are counted of one school, and enrollment where it is "
          "more",
          "[case-452]") {
  Ahead ahead;
  const auto mina = ahead.child("Mina");
  ahead.child("Osei");
  ahead.childWithoutForm("Lupe");
  auto no = ahead.form(ahead.childWithoutForm("Nell"));
  no.state = roster::ConsentState::no;
  no.allowed = {};
  must(ahead.session.enterConsent(ahead.by, no));
  auto counts = ahead.forms();
  CHECK(counts.yes == 2);
  CHECK(counts.back == 3);
  CHECK(counts.students == 4); // no one said how many are enrolled
  CHECK(counts.seen == 0);
  must(ahead.session.enterEnrollment(ahead.by, {ahead.term, ahead.school, "2", 90}));
  CHECK(ahead.forms().students == 90);
  ahead.standardVisit(mina);
  counts = ahead.forms();
  CHECK(ahead.seen() == std::set{mina});
  CHECK(counts.yes == 1);
  CHECK(counts.back == 3);
  CHECK(counts.seen == 1);
  const auto other = must(ahead.session.enterSchool(ahead.by, {"Fennel Ridge Elementary", "FR"}));
  const auto none = must(session::formsAhead(ahead.session, ahead.term, other, ahead.today, {}));
  CHECK(none.yes + none.back + none.students == 0);
}

TEST_CASE("Seen is screened or checked on a day of the term, not seated alone", "[case-452]") {
  Ahead ahead;
  const auto mina = ahead.child("Mina");
  ahead.seat(mina);
  CHECK(ahead.seen().empty());
  ahead.screenFour(mina);
  CHECK(ahead.seen() == std::set{mina});
  const auto next = must(ahead.session.enterTerm(ahead.by, {"Spring 2027",
                                                            must(base::Date::parse("2027-01-11")),
                                                            must(base::Date::parse("2027-06-11")),
                                                            {}}));
  CHECK(must(session::seenInTerm(ahead.session, next, ahead.school, ahead.today)).empty());
}
