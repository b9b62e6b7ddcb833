#include "base/files/files.h"
#include "reports/day/close_out_tables.h"
#include "reports/day/close_out_words.h"
#include "session/rights/verbs.h"
#include "support/clinic.h"

#include <functional>
#include <map>

using namespace gk;
using base::ErrorCode;
using session::DayMust;
using session::Verb;
using test::codeOf;
using test::must;

namespace {

/// One child seen, one absent, signed by the hygienist and the coordinator.
struct SignedClinic : test::Clinic {
  roster::ChildId mina = child("Mina");
  SignedClinic() {
    standardVisit(mina);
    sign();
  }
  void sign() { must(session.signDay(by, {day, hygienist, coordinator})); }
  reports::CloseOut sheet() {
    const auto records = must(session.dayRecords(day));
    return reports::closeOut(records, must(session.names(records)));
  }
  base::By coordinating() const { return {coordinator, {}}; }
};

std::vector<std::string> notesOf(const reports::CloseOut& sheet, const std::string& title) {
  for (const auto& table : reports::closeOutTables(sheet))
    if (table.title.starts_with(title)) return table.notes;
  FAIL("no such part");
  return {};
}

bool holds(const std::vector<std::string>& notes, const std::string& words) {
  return std::ranges::any_of(notes,
                             [&](const auto& note) { return note.find(words) != note.npos; });
}

} // namespace

TEST_CASE("A signed day is reopened with a reason, changed and signed again, and the sheet says so",
          "[case-119]") {
  SignedClinic clinic;
  const auto screening = must(clinic.session.screenings(clinic.mina)).back();
  auto right = screening.value;
  right.urgency = chairside::Urgency::early;
  CHECK(codeOf(clinic.session.correctScreening(clinic.by, screening, right, "wrong line")) ==
        ErrorCode::ruleDayOpen);
  CHECK(codeOf(clinic.session.reopenDay(clinic.by, clinic.day, "  ")) == ErrorCode::ruleReason);
  clinic.clock.advance(std::chrono::hours(24));
  must(clinic.session.reopenDay(clinic.coordinating(), clinic.day, "urgency on the wrong line"));
  CHECK_FALSE(must(clinic.session.isSigned(clinic.day)));
  CHECK(must(clinic.session.openDayNow()).id == clinic.day);
  must(clinic.session.correctScreening(clinic.by, screening, right, "wrong line"));
  clinic.sign();

  const auto words = reports::signingWords(clinic.sheet());
  REQUIRE(words.size() == 3);
  CHECK(words[0].starts_with("Signed on November 17, 2026 at "));
  CHECK(words[1].starts_with("Reopened on November 18, 2026 at "));
  CHECK(words[1].ends_with("because: urgency on the wrong line"));
  CHECK(words[2].starts_with("Signed again on November 18, 2026 at "));
  CHECK(holds(notesOf(clinic.sheet(), "Close-out: "), "because: urgency on the wrong line."));
}

TEST_CASE("Only who may sign reopens a day, and only one that is signed", "[case-119]") {
  SignedClinic clinic;
  CHECK(codeOf(clinic.session.reopenDay({clinic.assistant, {}}, clinic.day, "why")) ==
        ErrorCode::ruleCredential);
  CHECK(codeOf(clinic.session.reopenDay({}, clinic.day, "why")) == ErrorCode::ruleCredential);
  must(clinic.session.reopenDay(clinic.by, clinic.day, "why"));
  CHECK(codeOf(clinic.session.reopenDay(clinic.by, clinic.day, "why")) == ErrorCode::ruleDayOpen);
}

TEST_CASE("Both laptops' signatures are taken back at once", "[case-119]") {
  SignedClinic clinic;
  const auto copy = *clinic.folder / "other.gkbook";
  must(clinic.session.backUp(copy));
  must(clinic.session.reopenDay(clinic.by, clinic.day, "why"));
  // The other laptop still has it signed; after the merge it is open on both.
  must(clinic.session.absorb(copy));
  CHECK_FALSE(must(clinic.session.isSigned(clinic.day)));
}

TEST_CASE("A late entry is dated words on a signed day and changes no figure", "[case-120]") {
  SignedClinic clinic;
  const auto before = clinic.sheet();
  clinic.clock.advance(std::chrono::hours(24));
  CHECK(codeOf(clinic.session.addAddendum({}, {clinic.day, {}, "late"})) ==
        ErrorCode::ruleCredential);
  CHECK(codeOf(clinic.session.addAddendum(clinic.by, {clinic.day, {}, " "})) ==
        ErrorCode::textMalformed);
  must(clinic.session.addAddendum(clinic.by, {clinic.day, clinic.mina, "the rinse ran twice"}));
  must(clinic.session.addAddendum({clinic.assistant, {}}, {clinic.day, {}, "the lamp hummed"}));
  const auto after = clinic.sheet();
  REQUIRE(after.lateEntries.size() == 2);
  CHECK(after.lateEntries[0].child == clinic.mina);
  CHECK(after.lateEntries[0].shown.starts_with("Mina"));
  CHECK(after.lateEntries[0].text == "the rinse ran twice");
  CHECK(after.lateEntries[0].at.text().starts_with("2026-11-18"));
  CHECK(after.lateEntries[1].shown.empty());
  CHECK(after.counts.surfaces == before.counts.surfaces);
  CHECK(after.closed);
  CHECK(must(clinic.session.addenda(clinic.day)).size() == 2);
}

TEST_CASE("On an open day there is no late entry", "[case-120]") {
  test::Clinic clinic;
  CHECK(codeOf(clinic.session.addAddendum(clinic.by, {clinic.day, {}, "late"})) ==
        ErrorCode::ruleDayOpen);
}

TEST_CASE("A signed day that another laptop's entries unbalance no longer says that it is well",
          "[case-119]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  clinic.standardVisit(mina);
  const auto copy = *clinic.folder / "other.gkbook";
  must(clinic.session.backUp(copy));
  base::SeededRandom random(7);
  {
    auto other = must(session::Session::open(
        copy, base::LaptopId(base::makeUuid7(clinic.clock.now().at, random)),
        {clinic.clock, random}, store::Access::readWrite, session::BookKind::throwaway));
    must(other.endVisit(clinic.by,
                        {mina, clinic.day, chairside::DayEnd::sealedUnfinished, "left early"}));
    must(other.finish());
  }
  must(clinic.session.signDay(clinic.by, {clinic.day, clinic.hygienist, clinic.coordinator}));
  clinic.clock.advance(std::chrono::minutes(1));
  must(clinic.session.absorb(copy));
  const auto records = must(clinic.session.dayRecords(clinic.day));
  const auto words = reports::verdictOf(reports::closeOut(records));
  INFO(words);
  CHECK(words.find("Ready") == std::string::npos);
  CHECK(words.starts_with("Signed by"));
}

TEST_CASE("A third person cannot sign for two, and neither can one person", "[case-122]") {
  test::Clinic clinic;
  const roster::DayClosure closure{clinic.day, clinic.hygienist, clinic.coordinator};
  CHECK(codeOf(clinic.session.signDay({clinic.assistant, {}}, closure)) ==
        ErrorCode::ruleCredential);
  CHECK(codeOf(clinic.session.signDay({}, closure)) == ErrorCode::ruleCredential);
  CHECK(codeOf(clinic.session.signDay(clinic.by, {clinic.day, clinic.hygienist,
                                                  clinic.hygienist})) == ErrorCode::ruleCredential);
  CHECK(codeOf(clinic.session.signDay(clinic.by, {clinic.day, clinic.hygienist,
                                                  clinic.assistant})) == ErrorCode::ruleCredential);
  must(clinic.session.signDay({clinic.coordinator, {}}, closure));
}

TEST_CASE("Every verb that a signature stops is refused and says the two ways that are left",
          "[case-121]") {
  SignedClinic clinic;
  auto& book = clinic.session;
  const auto by = clinic.by;
  const auto day = clinic.day;
  const auto mina = clinic.mina;
  const auto screening = must(book.screenings(mina)).back();
  const auto placement = must(book.placements(mina)).front();
  const auto field = must(book.fields(mina, day)).front().field.id;
  const auto errorOf = [](const auto& result) -> std::optional<base::Error> {
    if (result) return std::nullopt;
    return result.error();
  };
  const base::Recorded<followup::MergeAnswer> answered{
      followup::MergeAnswerId(base::Uuid{}), screening.stamp, {.day = day, .child = mina}};
  using Call = std::function<std::optional<base::Error>()>;
  const std::map<Verb, Call> calls{
      {Verb::overrideConsent,
       [&] {
         return errorOf(book.overrideConsent(
             by, {mina, *base::Date::parse("2026-11-17"), clinic.hygienist, "pain"}));
       }},
      {Verb::cancelDay, [&] { return errorOf(book.cancelDay(by, day, "snow")); }},
      {Verb::signDay,
       [&] {
         return errorOf(book.signDay(by, {day, clinic.hygienist, clinic.coordinator}));
       }},
      {Verb::answerReadiness,
       [&] {
         return errorOf(book.answerReadiness(by, {day, {}, {}, {}, {}}));
       }},
      {Verb::passOverLight,
       [&] {
         return errorOf(book.passOverLight(by, {day, clinic.light, "no"}));
       }},
      {Verb::countPaper,
       [&] { return errorOf(book.countPaper(by, {.day = day, .paper = followup::Paper::other})); }},
      {Verb::enterEffort,
       [&] { return errorOf(book.enterEffort(by, {.day = day, .people = {}})); }},
      {Verb::countLot,
       [&] { return errorOf(book.countLot(by, {.day = day, .lot = clinic.resin})); }},
      {Verb::answerMerge, [&] { return errorOf(book.answerMerge(by, answered.value)); }},
      {Verb::reopenMerge, [&] { return errorOf(book.reopenMerge(by, answered, "why")); }},
      {Verb::overrideAgreement,
       [&] {
         return errorOf(book.overrideAgreement(by, {day, clinic.hygienist, "why"}));
       }},
      {Verb::enterAfterCure,
       [&] {
         return errorOf(book.enterAfterCure(by, {mina, day}));
       }},
      {Verb::seat,
       [&] {
         return errorOf(book.seat(
             by,
             {mina, day, {chairside::Identifier::spokenName, chairside::Identifier::slipScan}}));
       }},
      {Verb::screen, [&] { return errorOf(book.screen(by, clinic.fourSound(mina))); }},
      {Verb::correctScreening,
       [&] { return errorOf(book.correctScreening(by, screening, screening.value, "why")); }},
      {Verb::isolate,
       [&] {
         return errorOf(book.isolate(by, clinic.field(mina, {16, 46})));
       }},
      {Verb::startTimer,
       [&] {
         return errorOf(
             book.startTimer(by, {field, chairside::Step::etch, {}, base::Seconds(20), {}}));
       }},
      {Verb::enterStep,
       [&] {
         return errorOf(book.enterStep(by, clinic.run(field, chairside::Step::etch, {16}, 20)));
       }},
      {Verb::wet,
       [&] {
         return errorOf(book.wet(by, {.field = field,
                                      .teeth = {dentition::toothAt(16)},
                                      .stage = chairside::WetStage::afterEtch,
                                      .note = {}}));
       }},
      {Verb::stopTeeth,
       [&] { return errorOf(book.stopTeeth(by, field, {dentition::toothAt(16)}, "why")); }},
      {Verb::varnish,
       [&] {
         return errorOf(book.varnish(by, {mina, day, clinic.varnish}));
       }},
      {Verb::endVisit,
       [&] {
         return errorOf(book.endVisit(by, {mina, day, chairside::DayEnd::absent, {}}));
       }},
      {Verb::enterPaper,
       [&] {
         return errorOf(book.enterPaper(by, {mina, day, "7", clinic.coordinator}));
       }},
      {Verb::correctTooth,
       [&] { return errorOf(book.correctTooth(by, placement, dentition::toothAt(36), "why")); }},
      {Verb::enterCheck,
       [&] {
         return errorOf(book.enterCheck(by, {.placement = placement.id,
                                             .child = mina,
                                             .day = day,
                                             .kind = followup::CheckKind::longTerm,
                                             .note = {}}));
       }},
  };
  for (const auto& row : session::verbRules) {
    // Of a date, and of a day that a later visit may correct with a late entry.
    const bool isBesides = row.verb == Verb::overrideConsent || row.verb == Verb::correctTooth;
    if (row.day != DayMust::beOpen && !isBesides) continue;
    INFO(row.name);
    const auto call = calls.find(row.verb);
    REQUIRE(call != calls.end());
    const auto error = call->second();
    REQUIRE(error.has_value());
    CHECK(error->code == ErrorCode::ruleDayOpen);
    CHECK(error->detail.find("signed; reopen it with a reason, or write a late entry") !=
          std::string::npos);
  }
}

TEST_CASE("Work that comes after the day goes on when it is signed", "[case-121]") {
  SignedClinic clinic;
  auto& book = clinic.session;
  must(book.enterContact(clinic.by, {clinic.mina, clinic.day, followup::Channel::phone,
                                     followup::ContactResult::reached, "told"}));
  must(book.noteBackup(clinic.by, {clinic.day, "copy.gkbook"}));
  must(book.enterIncident(
      clinic.by, {.day = clinic.day, .happened = clinic.clock.now(), .done = "flushed the eye"}));
  must(book.withdrawConsent(clinic.by, clinic.mina, "mother, by phone"));
  CHECK(must(book.isSigned(clinic.day)));
}

TEST_CASE("Sheets printed and costs entered after the signatures are late entries of the day",
          "[case-349]") {
  SignedClinic clinic;
  auto& book = clinic.session;
  const auto before = clinic.sheet().papers;
  must(book.countOut(clinic.by, clinic.day, followup::Paper::nurseSheets, 1));
  const auto after = clinic.sheet().papers;
  REQUIRE(after.size() == before.size());
  must(book.enterCosts(clinic.by, {clinic.day, {{roster::CostKind::supplies, 4500}}}));
  const auto entries = clinic.sheet().lateEntries;
  REQUIRE(entries.size() == 2);
  CHECK(entries.front().text.ends_with("printed after the signatures: nurse's sheets, 1"));
  CHECK(entries.back().text.find("costs entered after the signatures") != std::string::npos);
  CHECK(must(book.isSigned(clinic.day)));
}

TEST_CASE("A tooth that a later visit finds elsewhere changes the signed day with a late entry",
          "[case-120][case-102]") {
  SignedClinic clinic;
  const auto placement = must(clinic.session.placements(clinic.mina)).front();
  clinic.clock.advance(std::chrono::hours(24));
  const auto later = must(clinic.session.openDay(clinic.by, {.term = clinic.term,
                                                             .school = clinic.school,
                                                             .date = clinic.clock.now().date(),
                                                             .reason = {}}));
  must(clinic.session.seat(
      clinic.by,
      {clinic.mina, later, {chairside::Identifier::spokenName, chairside::Identifier::birthDate}}));
  must(clinic.session.correctTooth(clinic.by, placement, dentition::toothAt(37), "seen there"));
  const auto entries = clinic.sheet().lateEntries;
  REQUIRE(entries.size() == 1);
  CHECK(entries.front().child == clinic.mina);
  CHECK(entries.front().text.ends_with(": seen there"));
}
