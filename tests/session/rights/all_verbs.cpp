#include "session/rights/all_verbs.h"

namespace gk::test {

using session::Verb;

void AllVerbs::fillDesk() {
  using A = Ask;
  const auto born = must(base::Date::parse("2019-03-14"));
  const session::Identity identity{.first = "Ada", .last = "Quill", .birth = born};
  const session::NewChild fresh{{.number = roster::withCheckDigit("7001"),
                                 .birth = {2019, 3},
                                 .school = school,
                                 .grade = "2",
                                 .room = "6",
                                 .note = {}},
                                identity};
  const auto alert = [](roster::ChildId who) {
    return roster::MedicalFlag{.child = who,
                               .kind = roster::FlagKind::latexAllergy,
                               .action = roster::FlagAction::note,
                               .detail = "gloves",
                               .decided = {}};
  };
  auto& s = session;
  calls[Verb::enterProgram] = [&s](const A& a) {
    return codeIn(s.enterProgram(a.as, {.name = "P",
                                        .county = "L",
                                        .phone = "1",
                                        .authorizingDentist = {},
                                        .agreementUntil = {},
                                        .privacyFooting = {},
                                        .times = {}}));
  };
  calls[Verb::correctProgram] = [&s](const A& a) {
    return codeIn(s.correctProgram(a.as, must(s.program()).value, a.why));
  };
  calls[Verb::enterTerm] = [&s, born](const A& a) {
    return codeIn(s.enterTerm(a.as, {"T", born, born.plusDays(9), {}}));
  };
  calls[Verb::correctTerm] = [this](const A& a) {
    return codeIn(session.correctTerm(a.as, term, must(session.terms()).front().value, a.why));
  };
  calls[Verb::removeTerm] = [this](const A& a) {
    return codeIn(session.removeTerm(a.as, term, a.why));
  };
  calls[Verb::removeYear] = [this](const A& a) {
    return codeIn(session.removeYear(a.as, roster::YearId(base::Uuid{}), a.why));
  };
  calls[Verb::removeSchool] = [this](const A& a) {
    return codeIn(session.removeSchool(a.as, school, a.why));
  };
  calls[Verb::enterYear] = [&s, born](const A& a) {
    return codeIn(s.enterYear(a.as, {"Y", roster::YearKind::school, born, born.plusDays(300)}));
  };
  calls[Verb::correctYear] = [&s, born](const A& a) {
    return codeIn(s.correctYear(a.as, roster::YearId(base::Uuid{}),
                                {"Z", roster::YearKind::school, born, born.plusDays(300)}, a.why));
  };
  calls[Verb::enterSchool] = [&s](const A& a) { return codeIn(s.enterSchool(a.as, {"S", "S"})); };
  calls[Verb::correctSchool] = [this](const A& a) {
    return codeIn(session.correctSchool(a.as, school, {"S", "S"}, a.why));
  };
  calls[Verb::enterEnrollment] = [this](const A& a) {
    return codeIn(session.enterEnrollment(a.as, {term, school, "2", 90}));
  };
  calls[Verb::enterEligibility] = [this](const A& a) {
    return codeIn(session.enterEligibility(a.as, {term, school, 60, "state"}));
  };
  calls[Verb::enterMember] = [&s](const A& a) {
    return codeIn(s.enterMember(a.as, {"N", "NN", roster::Role::manager, "", {}, {}}));
  };
  calls[Verb::correctMember] = [this](const A& a) {
    return codeIn(
        session.correctMember(a.as, hygienist, must(session.members()).front().value, a.why));
  };
  calls[Verb::setPin] = [this](const A& a) {
    return codeIn(session.setPin(a.as, assistant, "2580"));
  };
  calls[Verb::resetPin] = [this](const A& a) {
    return codeIn(session.resetPin(a.as, assistant, a.why));
  };
  calls[Verb::retireMember] = [this](const A& a) {
    return codeIn(session.retireMember(a.as, assistant, a.why));
  };
  calls[Verb::enterKey] = [&s](const A& a) { return codeIn(s.enterKey(a.as, "own four words")); };
  calls[Verb::changeKey] = [&s](const A& a) {
    return codeIn(s.changeKey(a.as, "own four words", "other four words"));
  };
  calls[Verb::revokeKey] = [this](const A& a) {
    return codeIn(session.revokeKey(a.as, hygienist, a.why));
  };
  calls[Verb::makeRecoveryCode] = [&s](const A& a) { return codeIn(s.makeRecoveryCode(a.as)); };
  calls[Verb::withdrawRecoveryCode] = [&s](const A& a) {
    return codeIn(s.withdrawRecoveryCode(a.as, a.why));
  };
  calls[Verb::replaceBookKey] = [&s](const A& a) {
    return codeIn(s.replaceBookKey(a.as, {.confirmation = test::Clinic::passphrase,
                                          .passphrase = "a wholly new passphrase",
                                          .reason = a.why}));
  };
  calls[Verb::changePassphrase] = [&s](const A& a) {
    return codeIn(s.changePassphrase(a.as, Clinic::passphrase, "another gym floor"));
  };
  calls[Verb::enrollChild] = [&s, fresh](const A& a) {
    return codeIn(s.enrollChild(a.as, fresh, session::Confirmed::no, session::Confirmed::no));
  };
  calls[Verb::importRoster] = [&s, fresh](const A& a) {
    return codeIn(s.enrollRoster(a.as, {fresh}));
  };
  calls[Verb::takeBackImport] = [&s](const A& a) {
    return codeIn(s.takeBackImport(a.as, a.who, a.why));
  };
  calls[Verb::enterBackground] = [&s](const A& a) {
    return codeIn(s.enterBackground(a.as, {.child = a.who, .groups = {}}));
  };
  calls[Verb::correctStudent] = [this, identity](const A& a) {
    return codeIn(session.correctStudent(a.as, a.who, {identity}, a.why));
  };
  calls[Verb::enterConsent] = [this](const A& a) {
    return codeIn(session.enterConsent(a.as, form(a.who)));
  };
  calls[Verb::withdrawConsent] = [&s](const A& a) {
    return codeIn(s.withdrawConsent(a.as, a.who, a.why));
  };
  calls[Verb::correctConsent] = [this](const A& a) {
    return codeIn(session.correctConsent(a.as, recorded(form(a.who)), form(a.who), a.why));
  };
  calls[Verb::closeSchool] = [this](const A& a) {
    return codeIn(session.closeSchool(a.as, school, today().plusDays(400), a.why));
  };
  calls[Verb::reopenSchool] = [this](const A& a) {
    return codeIn(session.reopenSchool(a.as, school, a.why));
  };
  calls[Verb::enterHandout] = [this](const A& a) {
    return codeIn(session.enterHandout(a.as, {term, school, "6", today(), 24}));
  };
  calls[Verb::correctHandout] = [this](const A& a) {
    return codeIn(session.correctHandout(a.as, roster::HandoutId(base::Uuid{}),
                                         {term, school, "6", today(), 25}, a.why));
  };
  calls[Verb::noteEnvelope] = [this](const A& a) {
    const auto file = session.path().parent_path() / "day.gkday";
    return codeIn(session.sealDay(a.as, file, {}, "a passphrase for the day"));
  };
  calls[Verb::merge] = [&s](const A& a) { return codeIn(s.absorb("no.gkbook", {.by = a.as})); };
  calls[Verb::planDay] = [this](const A& a) {
    return codeIn(session.planDay(a.as, {term, school, today().plusDays(7)}));
  };
  calls[Verb::correctPlan] = [this](const A& a) {
    return codeIn(session.correctPlan(a.as, roster::PlannedDayId(base::Uuid{}),
                                      {term, school, today().plusDays(8)}, a.why));
  };
  calls[Verb::overrideConsent] = [this](const A& a) {
    return codeIn(
        session.overrideConsent(a.as, {a.who, today(), a.as.author.value_or(hygienist), a.why}));
  };
  calls[Verb::enterFlag] = [&s, alert](const A& a) {
    return codeIn(s.enterFlag(a.as, alert(a.who)));
  };
  calls[Verb::resolveFlag] = [this, alert](const A& a) {
    return codeIn(session.resolveFlag(a.as, recorded(alert(a.who)), a.why));
  };
  calls[Verb::enterLight] = [&s](const A& a) {
    return codeIn(s.enterLight(a.as, {"L-9", kit::LightType::led, {800}, {990}, true, "M-1"}));
  };
  calls[Verb::correctLight] = [&s](const A& a) {
    const auto old = must(s.lights()).front();
    return codeIn(s.correctLight(a.as, old, old.value, a.why));
  };
  calls[Verb::enterReading] = [this](const A& a) {
    return codeIn(session.enterReading(a.as, {light, today(), {1000}, true, "M-1", true}));
  };
  calls[Verb::enterLot] = [&s](const A& a) {
    auto lot = must(s.lots()).front().value;
    lot.lot = "X-1";
    return codeIn(s.enterLot(a.as, lot));
  };
  calls[Verb::correctLot] = [this](const A& a) {
    return codeIn(session.correctLot(a.as, resin, must(session.lots()).front().value, a.why));
  };
  calls[Verb::quarantineLot] = [this](const A& a) {
    return codeIn(session.quarantineLot(a.as, resin, a.why));
  };
  calls[Verb::enterCureTime] = [this](const A& a) {
    return codeIn(session.enterCureTime(a.as, {spare, "Resin Fern", base::Seconds(30)}));
  };
}

void AllVerbs::fillDay() {
  using A = Ask;
  auto& s = session;
  calls[Verb::openDay] = [this](const A& a) {
    return codeIn(
        session.openDay(a.as, {term, school, must(base::Date::parse("2026-11-16")), 1, {}, false}));
  };
  calls[Verb::cancelDay] = [this](const A& a) {
    return codeIn(session.cancelDay(a.as, day, a.why));
  };
  calls[Verb::overrideAgreement] = [this](const A& a) {
    return codeIn(session.overrideAgreement(a.as, {day, a.as.author.value_or(hygienist), a.why}));
  };
  calls[Verb::signDay] = [this](const A& a) {
    return codeIn(session.signDay(a.as, {day, hygienist, coordinator}));
  };
  calls[Verb::reopenDay] = [this](const A& a) {
    return codeIn(session.reopenDay(a.as, day, a.why));
  };
  calls[Verb::addAddendum] = [this](const A& a) {
    return codeIn(session.addAddendum(a.as, {day, {}, "late"}));
  };
  calls[Verb::answerReadiness] = [this](const A& a) {
    return codeIn(session.answerReadiness(
        a.as, {day, kit::ReadinessItem::clock, kit::ReadinessAnswer::done, {}, {}}));
  };
  calls[Verb::passOverLight] = [this](const A& a) {
    return codeIn(session.passOverLight(a.as, {day, light, a.why}));
  };
  calls[Verb::countPaper] = [this](const A& a) {
    return codeIn(session.countPaper(a.as, {.day = day, .paper = followup::Paper::other}));
  };
  calls[Verb::enterEffort] = [this](const A& a) {
    return codeIn(session.enterEffort(
        a.as, {.day = day, .chairs = 1, .open = roster::minutes(60), .people = {}}));
  };
  calls[Verb::enterCosts] = [this](const A& a) {
    return codeIn(session.enterCosts(a.as, {.day = day, .lines = {}}));
  };
  calls[Verb::countLot] = [this](const A& a) {
    return codeIn(session.countLot(a.as, {.day = day, .lot = resin}));
  };
  calls[Verb::noteBackup] = [this](const A& a) {
    return codeIn(session.noteBackup(a.as, {day, "copy.gkbook"}));
  };
  calls[Verb::countOut] = [this](const A& a) {
    return codeIn(session.countOut(a.as, day, followup::Paper::other, 1));
  };
  calls[Verb::answerMerge] = [this](const A& a) {
    return codeIn(session.answerMerge(a.as, {.day = day, .child = a.who}));
  };
  calls[Verb::reopenMerge] = [this](const A& a) {
    return codeIn(session.reopenMerge(
        a.as, recorded(followup::MergeAnswer{.day = day, .child = a.who}), a.why));
  };
  const base::EntryId none{base::Uuid{}};
  calls[Verb::eraseListed] = [&s](const A& a) {
    return codeIn(s.admitMerge({.erasures = session::ErasureYes{a.as, 1}}));
  };
  calls[Verb::eraseStudent] = [&s](const A& a) {
    return codeIn(s.eraseStudent(a.as, a.who, {"the mother, by letter", "a rule", a.why}, -1));
  };
  calls[Verb::settleWords] = [&s, none](const A& a) { return codeIn(s.settleWords(a.as, none)); };
  const followup::Incident splash{.day = day, .happened = clock.now(), .done = "flushed the eye"};
  calls[Verb::confirmPlacements] = [this](const A& a) {
    return codeIn(session.confirmPlacements(a.as, day));
  };
  calls[Verb::enterIncident] = [&s, splash](const A& a) {
    return codeIn(s.enterIncident(a.as, splash));
  };
  calls[Verb::correctIncident] = [this, splash](const A& a) {
    return codeIn(session.correctIncident(a.as, recorded(splash), splash, a.why));
  };
  const auto letter = [this](roster::ChildId who) {
    return followup::Letter{.child = who,
                            .day = day,
                            .language = "English",
                            .facts = {},
                            .templateDigest = {},
                            .textDigest = {},
                            .written = today()};
  };
  const followup::IssuedReport issued{.term = term,
                                      .report = "term",
                                      .choice = {},
                                      .issued = today(),
                                      .figures = {},
                                      .digest = {},
                                      .release = {}};
  const auto referral = [this](roster::ChildId who) {
    return followup::Referral{.child = who,
                              .day = day,
                              .urgency = chairside::Urgency::early,
                              .reason = "cavity",
                              .due = today()};
  };
  calls[Verb::enterReferral] = [&s, referral](const A& a) {
    return codeIn(s.enterReferral(a.as, referral(a.who)));
  };
  calls[Verb::updateReferral] = [this, referral](const A& a) {
    return codeIn(session.updateReferral(a.as, recorded(referral(a.who)), referral(a.who), a.why));
  };
  calls[Verb::enterContact] = [this](const A& a) {
    return codeIn(session.enterContact(
        a.as, {a.who, day, followup::Channel::phone, followup::ContactResult::reached, "told"}));
  };
  calls[Verb::enterLetters] = [this, letter](const A& a) {
    return codeIn(session.enterLetters(a.as, {letter(a.who)}));
  };
  calls[Verb::moveLetters] = [this, letter](const A& a) {
    return codeIn(
        session.moveLetters(a.as, {recorded(letter(a.who))}, followup::LetterState::handed));
  };
  calls[Verb::enterIssue] = [this, issued](const A& a) {
    return codeIn(session.enterIssue(a.as, issued));
  };
}

void AllVerbs::fillChair() {
  using A = Ask;
  auto& s = session;
  calls[Verb::authorize] = [&s](const A& a) { return codeIn(s.authorize(a.as, {})); };
  calls[Verb::withdrawAuthorization] = [this](const A& a) {
    return codeIn(session.withdrawAuthorization(
        a.as,
        recorded(chairside::Authorization{.child = a.who,
                                          .teeth = {},
                                          .dentist = hygienist,
                                          .how = chairside::AuthorizedHow::phoneCall,
                                          .on = today(),
                                          .until = must(base::Date::parse("2026-12-17"))}),
        a.why));
  };
  calls[Verb::seat] = [this](const A& a) {
    return codeIn(session.seat(
        a.as, {a.who, day, {chairside::Identifier::spokenName, chairside::Identifier::birthDate}}));
  };
  calls[Verb::screen] = [this](const A& a) {
    return codeIn(session.screen(a.as, fourSound(a.who)));
  };
  calls[Verb::correctScreening] = [this](const A& a) {
    return codeIn(
        session.correctScreening(a.as, recorded(fourSound(a.who)), fourSound(a.who), a.why));
  };
  calls[Verb::isolate] = [this](const A& a) {
    return codeIn(session.isolate(a.as, field(a.who, {26, 36})));
  };
  calls[Verb::startTimer] = [this](const A& a) {
    return codeIn(
        session.startTimer(a.as, {inHand(a.who),
                                  chairside::Step::etch,
                                  run(inHand(a.who), chairside::Step::etch, {16, 46}).teeth,
                                  base::Seconds(20),
                                  {}}));
  };
  calls[Verb::enterStep] = [this](const A& a) {
    return codeIn(session.enterStep(a.as, run(inHand(a.who), chairside::Step::etch, {16, 46}, 22)));
  };
  calls[Verb::wet] = [this](const A& a) {
    return codeIn(session.wet(a.as, {.field = inHand(a.who),
                                     .teeth = {dentition::toothAt(16)},
                                     .stage = chairside::WetStage::beforeEtch,
                                     .note = {}}));
  };
  calls[Verb::stopTeeth] = [this](const A& a) {
    return codeIn(session.stopTeeth(a.as, inHand(a.who), {dentition::toothAt(16)}, a.why));
  };
  calls[Verb::enterAfterCure] = [this](const A& a) {
    return codeIn(session.enterAfterCure(a.as, {a.who, day}));
  };
  calls[Verb::varnish] = [this](const A& a) {
    return codeIn(session.varnish(a.as, {a.who, day, this->Clinic::varnish}));
  };
  calls[Verb::endVisit] = [this](const A& a) {
    return codeIn(session.endVisit(a.as, {a.who, day, chairside::DayEnd::absent, {}}));
  };
  calls[Verb::enterPaper] = [this](const A& a) {
    return codeIn(session.enterPaper(a.as, {a.who, day, "7", coordinator}));
  };
  const auto placed = [this](roster::ChildId who) {
    const auto state = must(session.fields(mina, day)).front();
    auto placement =
        chairside::summarize(state.field.value, state.protocol.teeth().front(), state.field.id,
                             chairside::PlacementType::fresh, hygienist, "stopped");
    placement.child = who;
    return recorded(placement);
  };
  calls[Verb::correctTooth] = [&s, placed](const A& a) {
    return codeIn(s.correctTooth(a.as, placed(a.who), dentition::toothAt(26), a.why));
  };
  calls[Verb::enterCheck] = [this, placed](const A& a) {
    return codeIn(session.enterCheck(a.as, {.placement = placed(a.who).id,
                                            .child = a.who,
                                            .day = day,
                                            .kind = followup::CheckKind::longTerm,
                                            .note = {}}));
  };
  const session::UndoAt at{base::Station::chair, day, mina};
  calls[Verb::undo] = [&s, at](const A& a) { return codeIn(s.undo(a.as, at, a.why)); };
  calls[Verb::redo] = [&s, at](const A& a) { return codeIn(s.redo(a.as, at)); };
}

} // namespace gk::test
