#include "session/second_laptop.h"
#include "support/clinic.h"

// A correction is of what stands now, stays with its child and its day, and is written by those who
// may; what a person holds on a screen may be older.
using namespace gk;
using base::ErrorCode;
using base::Station;
using chairside::DayEnd;
using chairside::Step;
using chairside::StepResult;
using session::UndoAt;
using test::codeOf;
using test::must;

namespace {

/// One child in the chair, screened.
struct StandingDay : test::Clinic {
  roster::ChildId mina = child("Mina");
  roster::ChildId osei = child("Osei");

  [[nodiscard]] UndoAt chair(roster::ChildId who) const { return {Station::chair, day, who}; }
  base::Recorded<chairside::Screening> screened(roster::ChildId who) {
    seat(who);
    screenFour(who);
    return must(session.screenings(who)).front();
  }
  base::MemberId member(roster::Role role, const char* name, const char* initials) {
    return must(session.enterMember({hygienist, {}},
                                    {name, initials, role, "X-1", {}, roster::usualTasks(role)}));
  }
};

} // namespace

TEST_CASE("Findings are corrected as they stand, of their own child and day", "[case-133]") {
  StandingDay clinic;
  const auto old = clinic.screened(clinic.mina);
  auto newer = clinic.fourSound(clinic.mina);
  newer.note = "looked again";
  must(clinic.session.correctScreening(clinic.by, old, newer, "looked again"));
  newer.note = "from a screen that is older";
  CHECK(codeOf(clinic.session.correctScreening(clinic.by, old, newer, "late")) ==
        ErrorCode::recordChanged);
  auto stands = must(clinic.session.screenings(clinic.mina)).front();
  CHECK(stands.value.note == "looked again");

  clinic.seat(clinic.osei);
  CHECK(codeOf(clinic.session.correctScreening(clinic.by, stands, clinic.fourSound(clinic.osei),
                                               "another child")) == ErrorCode::ruleIdentity);
  // What the caller says the old row was changes nothing.
  stands.value.child = clinic.osei;
  CHECK(codeOf(clinic.session.correctScreening(clinic.by, stands, clinic.fourSound(clinic.osei),
                                               "another child")) == ErrorCode::recordChanged);
  CHECK(must(clinic.session.screenings(clinic.osei)).empty());
}

TEST_CASE("A signed day's findings are not corrected through another day", "[case-133]") {
  StandingDay clinic;
  const auto old = clinic.screened(clinic.mina);
  clinic.end(clinic.mina, DayEnd::screenedNotTreated, "went home");
  clinic.end(clinic.osei, DayEnd::absent);
  must(clinic.session.signDay({clinic.hygienist, {}},
                              {clinic.day, clinic.hygienist, clinic.coordinator}));
  clinic.clock.advance(std::chrono::hours(24));
  auto moved = clinic.fourSound(clinic.mina);
  moved.day = must(clinic.session.openDay(
      {clinic.hygienist, {}},
      {clinic.term, clinic.school, clinic.clock.now().date(), 1, {}, false}));
  CHECK(codeOf(clinic.session.correctScreening(clinic.by, old, moved, "around the signature")) ==
        ErrorCode::ruleIdentity);
}

TEST_CASE("A form, a referral, an incident and a light are corrected as they stand", "[case-133]") {
  StandingDay clinic;
  const auto form = must(clinic.session.consents(clinic.mina)).front();
  auto other = form.value;
  other.child = clinic.osei;
  CHECK(codeOf(clinic.session.correctConsent(clinic.by, form, other, "moved")) ==
        ErrorCode::ruleIdentity);
  auto newer = form.value;
  newer.note = "read again";
  must(clinic.session.correctConsent(clinic.by, form, newer, "read again"));
  CHECK(codeOf(clinic.session.correctConsent(clinic.by, form, newer, "twice")) ==
        ErrorCode::recordChanged);

  const auto today = clinic.clock.now().date();
  const followup::Referral asked{clinic.mina, clinic.day, chairside::Urgency::early, "decay",
                                 followup::referralDue(chairside::Urgency::early, today)};
  must(clinic.session.enterReferral(clinic.by, asked));
  const auto referral = must(clinic.session.dayRecords(clinic.day)).referrals.front();
  auto elsewhere = asked;
  elsewhere.child = clinic.osei;
  CHECK(codeOf(clinic.session.updateReferral(clinic.by, referral, elsewhere, "moved")) ==
        ErrorCode::ruleIdentity);

  must(clinic.session.enterIncident(
      clinic.by,
      {.day = clinic.day, .child = clinic.mina, .happened = clinic.clock.now(), .done = "rinsed"}));
  const auto incident = must(clinic.session.incidents(clinic.day)).front();
  auto said = incident.value;
  said.done = "rinsed, and the nurse was told";
  must(clinic.session.correctIncident(clinic.by, incident, said, "the nurse was told"));
  CHECK(codeOf(clinic.session.correctIncident(clinic.by, incident, said, "twice")) ==
        ErrorCode::recordChanged);

  const auto light = must(clinic.session.lights()).front();
  auto worn = light.value;
  worn.inService = false;
  must(clinic.session.correctLight(clinic.by, light, worn, "cracked tip"));
  CHECK(codeOf(clinic.session.correctLight(clinic.by, light, light.value, "an older screen")) ==
        ErrorCode::recordChanged);
  for (const auto& one : must(clinic.session.lights()))
    if (one.id == light.id) CHECK_FALSE(one.value.inService);
}

TEST_CASE("A step takes a lot of its own kind", "[case-134]") {
  StandingDay clinic;
  clinic.screened(clinic.mina);
  const auto field = must(clinic.session.isolate(clinic.by, clinic.field(clinic.mina, {16})));
  auto etch = clinic.run(field, Step::etch, {16}, 22);
  etch.lot = clinic.resin;
  CHECK(codeOf(clinic.session.enterStep(clinic.by, etch)) == ErrorCode::ruleMaterial);
  etch.lot = clinic.etchant;
  must(clinic.session.enterStep(clinic.by, etch));
  must(clinic.session.enterStep(clinic.by, clinic.run(field, Step::rinse, {16}, 12)));
  must(clinic.session.enterStep(clinic.by, clinic.run(field, Step::dry, {16})));
  auto flow = clinic.run(field, Step::flow, {16});
  for (const auto wrong : {clinic.selfCure, clinic.etchant, clinic.varnish, clinic.ionomer}) {
    flow.lot = wrong;
    CHECK(codeOf(clinic.session.enterStep(clinic.by, flow)) == ErrorCode::ruleMaterial);
  }
  auto wrongField = clinic.field(clinic.mina, {26});
  wrongField.etchant = clinic.varnish;
  CHECK(codeOf(clinic.session.isolate(clinic.by, wrongField)) == ErrorCode::ruleMaterial);
  CHECK(codeOf(clinic.session.varnish(clinic.by, {clinic.mina, clinic.day, clinic.etchant},
                                      session::Confirmed::yes)) == ErrorCode::ruleMaterial);
}

TEST_CASE("Undo keeps the author whose words come back", "[case-135]") {
  StandingDay clinic;
  const auto other = clinic.member(roster::Role::hygienist, "Tamsin Reddick", "TR");
  const auto old = clinic.screened(clinic.mina);
  auto newer = clinic.fourSound(clinic.mina);
  newer.note = "another look";
  must(clinic.session.correctScreening({other, {}, Station::chair}, old, newer, "another look"));
  must(clinic.session.undo({other, {}}, clinic.chair(clinic.mina)));
  const auto back = must(clinic.session.screenings(clinic.mina)).front();
  CHECK(back.value.note.empty());
  CHECK(back.stamp.by.author == clinic.hygienist);
  CHECK(back.stamp.by.recorder == other);
}

TEST_CASE("What a child said at the seat of an allergy stays when the seating is undone",
          "[case-135]") {
  StandingDay clinic;
  chairside::Seating seating{clinic.mina,
                             clinic.day,
                             {chairside::Identifier::spokenName, chairside::Identifier::birthDate}};
  seating.historyUnchanged = false;
  seating.changed = "gloves make her hands itch";
  must(clinic.session.seat(clinic.by, seating,
                           {{clinic.mina, roster::FlagKind::latexAllergy, roster::FlagAction::stop,
                             "gloves", false, ""}}));
  const auto words = must(clinic.session.undo(clinic.by, clinic.chair(clinic.mina)));
  CHECK(words.ends_with("; the alert stays"));
  CHECK(must(clinic.session.flags(clinic.mina)).size() == 1);
}

TEST_CASE("An opened day and a new member are not undone, nor a student with a form",
          "[case-135]") {
  test::Clinic clinic;
  const UndoAt board{Station::board, clinic.day, {}};
  CHECK(codeOf(clinic.session.undo(clinic.by, board)) == ErrorCode::notFound);
  CHECK(codeOf(clinic.session.undo(clinic.by, {Station::team, {}, {}})) == ErrorCode::notFound);
  CHECK(must(clinic.session.members()).size() == 3);
  const auto mina = clinic.child("Mina");
  CHECK(codeOf(clinic.session.undo(clinic.by, board)) == ErrorCode::notFound);
  CHECK(must(clinic.session.child(mina)).id == mina);
  CHECK_FALSE(must(clinic.session.days(clinic.term)).empty());
}

TEST_CASE("A child who was rechecked or whose teeth were isolated was not absent", "[case-136]") {
  StandingDay clinic;
  clinic.seat(clinic.mina);
  CHECK(codeOf(clinic.session.endVisit(clinic.by, {clinic.mina, clinic.day, DayEnd::absent, {}})) ==
        ErrorCode::ruleOutcome);
  // The bell rang before anything was looked at.
  must(clinic.session.endVisit(clinic.by, {clinic.mina, clinic.day, DayEnd::notReached, "bell"}));
  must(clinic.session.varnish(clinic.by, {clinic.mina, clinic.day, clinic.varnish}));
  CHECK(codeOf(clinic.session.endVisit(clinic.by, {clinic.mina, clinic.day, DayEnd::notReached,
                                                   "bell"})) == ErrorCode::ruleOutcome);
}

TEST_CASE("Rights are given by those who sign and by no one to herself", "[case-137]") {
  StandingDay clinic;
  const auto volunteer = clinic.member(roster::Role::volunteer, "Wen Aldous", "WA");
  const auto all = roster::usualTasks(roster::Role::hygienist);
  const roster::Member herself{"Wen Aldous", "WA", roster::Role::volunteer, "", {}, all};
  CHECK(codeOf(clinic.session.correctMember({volunteer, {}}, volunteer, herself, "why not")) ==
        ErrorCode::ruleCredential);
  CHECK(codeOf(clinic.session.enterMember(
            {volunteer, {}}, {"Puppet", "PU", roster::Role::hygienist, "H-1", {}, all})) ==
        ErrorCode::ruleCredential);
  // The coordinator signs, but does not make a hygienist of herself while one could say so.
  auto coordinator = roster::Member{"Ines Marrowby", "IM", roster::Role::coordinator, "", {}, all};
  CHECK(codeOf(clinic.session.correctMember({clinic.coordinator, {}}, clinic.coordinator,
                                            coordinator, "more")) == ErrorCode::ruleCredential);
  must(clinic.session.correctMember({clinic.coordinator, {}}, volunteer, herself, "licensed now"));
  // A name or a license is anyone's who types.
  must(clinic.session.enterMember({volunteer, {}}, {"Ivo Pell",
                                                    "IP",
                                                    roster::Role::volunteer,
                                                    "",
                                                    {},
                                                    roster::usualTasks(roster::Role::volunteer)}));
}

TEST_CASE("A merge answer is to a question that the close-out asks, once", "[case-138]") {
  test::Clinic clinic;
  const auto mina = test::seenTwice(clinic);
  const auto osei = clinic.child("Osei");
  // Two cards that no one asked about.
  CHECK(codeOf(clinic.session.answerMerge({clinic.hygienist, {}},
                                          {.day = clinic.day,
                                           .child = mina,
                                           .other = osei,
                                           .verdict = followup::MergeVerdict::keptOne})) ==
        ErrorCode::notFound);
  const auto question = test::sheetOf(clinic).questions.front();
  const followup::MergeAnswer first{.day = clinic.day,
                                    .child = mina,
                                    .kept = question.sides.front().laptop,
                                    .verdict = followup::MergeVerdict::keptOne};
  must(clinic.session.answerMerge({clinic.hygienist, {}}, first, session::Confirmed::yes));
  auto second = first;
  second.kept = question.sides.back().laptop;
  CHECK(codeOf(clinic.session.answerMerge({clinic.hygienist, {}}, second,
                                          session::Confirmed::yes)) == ErrorCode::notFound);
  const auto answered = test::sheetOf(clinic).answered.front().answer;
  must(clinic.session.reopenMerge({clinic.hygienist, {}}, answered, "asked the hygienist"));
  CHECK(codeOf(clinic.session.reopenMerge({clinic.hygienist, {}}, answered, "twice")) ==
        ErrorCode::recordChanged);
}

TEST_CASE("Counts, hours and paper of a signed day wait for it to be reopened", "[case-139]") {
  StandingDay clinic;
  for (const auto who : {clinic.mina, clinic.osei})
    clinic.end(who, DayEnd::absent);
  must(clinic.session.signDay({clinic.hygienist, {}},
                              {clinic.day, clinic.hygienist, clinic.coordinator}));
  CHECK(codeOf(clinic.session.countPaper(
            clinic.by, {.day = clinic.day, .paper = followup::Paper::runnersList, .out = 1})) ==
        ErrorCode::ruleDayOpen);
  CHECK(codeOf(clinic.session.enterEffort(clinic.by, {.day = clinic.day, .people = {}})) ==
        ErrorCode::ruleDayOpen);
  CHECK(codeOf(clinic.session.countLot(clinic.by, {.day = clinic.day, .lot = clinic.resin})) ==
        ErrorCode::ruleDayOpen);
}
