#include "base/text/text.h"
#include "reports/merges/merge_table.h"
#include "reports/print/render.h"
#include "session/cards/merge_rules.h"
#include "session/second_laptop.h"
#include "store/sqlite/connection.h"

#include <iostream>

using namespace gk;
using base::ErrorCode;
using followup::MergeVerdict;
using session::Confirmed;
using test::codeOf;
using test::enrollAda;
using test::must;
using test::seatOn;
using test::Second;
using test::sheetOf;

namespace {

/// Every table with a child in it, and how many current rows each has of this one: asked of the
/// file itself, so that a table no one thought of is counted too.
std::map<std::string, int> rowsAbout(session::Session& session, const base::Path& copy,
                                     roster::ChildId child) {
  must(session.backUp(copy));
  store::Connection file(copy, store::Access::readOnly, store::Durability::bulk);
  std::vector<std::string> tables;
  {
    auto found =
        file.prepare("SELECT m.name FROM sqlite_master AS m JOIN pragma_table_info(m.name) "
                     "AS c JOIN pragma_table_info(m.name) AS k WHERE m.type = 'table' AND c.name = "
                     "'child' AND k.name = 'entry'");
    while (found.step())
      tables.push_back(found.column<std::string>(0));
  }
  std::map<std::string, int> rows;
  for (const auto& table : tables) {
    const auto sql = "SELECT count(*) FROM " + table +
                     " AS t JOIN current_entry AS e ON e.id = t.entry WHERE t.child = ?1";
    auto counted = file.prepare(sql);
    counted.bind(1, child);
    REQUIRE(counted.step());
    rows[table] = static_cast<int>(counted.column<std::int64_t>(0));
  }
  return rows;
}

/// All that a logbook can say of a child.
void sayAll(session::Session& session, test::Clinic& clinic, roster::ChildId child) {
  must(session.enterFlag(
      clinic.by, {child, roster::FlagKind::latexAllergy, roster::FlagAction::stop, "", false, ""}));
  must(session.enterBackground(clinic.by,
                               {child, {roster::Ethnicity::white}, roster::Payer::medicaid}));
  must(session.enterPaper({clinic.hygienist, clinic.assistant},
                          {child, clinic.day, "17", clinic.coordinator}));
  must(session.enterContact(clinic.by, {child, clinic.day, followup::Channel::phone,
                                        followup::ContactResult::reached, ""}));
  must(session.enterReferral(
      clinic.by, {child, clinic.day, chairside::Urgency::early, "decay",
                  followup::referralDue(chairside::Urgency::early, clinic.clock.now().date())}));
  must(session.enterIncident(
      clinic.by,
      {.day = clinic.day, .child = child, .happened = clinic.clock.now(), .done = "rinsed"}));
  must(session.enterLetters(clinic.by, {{.child = child,
                                         .day = clinic.day,
                                         .language = "English",
                                         .facts = "variant: fine",
                                         .templateDigest = std::string(64, 'a'),
                                         .textDigest = std::string(64, 'b'),
                                         .written = clinic.clock.now().date()}}));
}

/// Rows that are of the card or of the merge, and stay where they are.
void forgetWhatStays(std::map<std::string, int>& rows) {
  rows.erase("sealed_identity");
  rows.erase("merge_answer");
}

/// Ada on two laptops' cards; the second has nearly all that can be said.
struct TwoCards {
  test::Clinic clinic;
  Second second{clinic, "second.gkbook", 2};
  roster::ChildId here = enrollAda(clinic.session, clinic, "4001");
  roster::ChildId there = enrollAda(second.session, clinic, "4002");

  TwoCards() {
    sayAll(second.session, clinic, there);
    seatOn(second.session, clinic, there);
    must(second.session.screen(clinic.by, clinic.fourSound(there)));
    must(second.session.isolate(clinic.by, clinic.field(there, {16, 46})));
    must(second.session.stopTeeth(clinic.by,
                                  must(second.session.fields(there, clinic.day)).front().field.id,
                                  {*dentition::Tooth::fromIso(16)}, "coughed"));
    must(clinic.session.absorb(second.handOver()));
  }
  void fold() {
    must(clinic.session.answerMerge(
        clinic.by,
        {.day = clinic.day, .child = here, .other = there, .verdict = MergeVerdict::keptOne}));
  }
  std::map<std::string, int> of(roster::ChildId child) {
    return rowsAbout(clinic.session, *clinic.folder / ("copy" + std::to_string(++copies_)), child);
  }

 private:
  int copies_ = 0;
};

/// Mina on two laptops: sound on the first, and on the other what `second` changes.
template <class Change>
roster::ChildId screenedTwice(test::Clinic& clinic, Change change) {
  const auto mina = clinic.child("Mina");
  Second second(clinic, "second.gkbook", 2);
  clinic.standardVisit(mina);
  clinic.clock.advance(std::chrono::minutes(5));
  seatOn(second.session, clinic, mina);
  auto screening = clinic.fourSound(mina);
  change(screening);
  must(second.session.screen(clinic.by, screening));
  must(clinic.session.absorb(second.handOver()));
  return mina;
}

void aCavity(chairside::Screening& screening) {
  auto& tooth = screening.teeth.front();
  tooth.occlusal = {chairside::Condition::cavitated, chairside::Origin::notSealed};
  tooth.decision = chairside::Decision::refer;
  tooth.toSeal = {};
  screening.untreatedDecay = chairside::Tri::yes;
  screening.urgency = chairside::Urgency::urgent;
  screening.urgentReason = chairside::UrgentReason::pain;
}

followup::MergeAnswer keeping(const reports::MergeQuestion& question, std::size_t side,
                              roster::DayId day) {
  return {.day = day,
          .child = *question.child,
          .kept = question.sides.at(side).laptop,
          .verdict = MergeVerdict::keptOne};
}

} // namespace

TEST_CASE("Two cards that become one lose no record of any kind about the child", "[case-105]") {
  TwoCards cards;
  const auto before = cards.of(cards.there);
  int kinds = 0;
  for (const auto& [table, rows] : before)
    if (rows > 0) ++kinds;
  CHECK(kinds >= 13); // else the test says too little
  const auto ofKept = cards.of(cards.here);

  cards.fold();
  auto left = cards.of(cards.there);
  forgetWhatStays(left);
  for (const auto& [table, rows] : left) {
    INFO(table);
    CHECK(rows == 0);
  }
  auto together = before;
  for (const auto& [table, rows] : ofKept)
    together[table] += rows;
  auto now = cards.of(cards.here);
  forgetWhatStays(together);
  forgetWhatStays(now);
  CHECK(now == together);
  CHECK(must(cards.clinic.session.findings()).empty());

  const auto answer = sheetOf(cards.clinic).answered.front().answer;
  must(cards.clinic.session.reopenMerge(cards.clinic.by, answer, "twins after all"));
  CHECK(cards.of(cards.there) == before);
  CHECK(cards.of(cards.here) == ofKept);
}

TEST_CASE("What two forms say of one child's background is joined, and parted again",
          "[case-105]") {
  TwoCards cards;
  auto& session = cards.clinic.session;
  must(session.enterBackground(cards.clinic.by,
                               {cards.here, {roster::Ethnicity::asian}, roster::Payer::unknown}));
  const auto newest = [&] {
    const auto rows =
        must(session.termRecords(cards.clinic.term, cards.clinic.clock.now().date())).backgrounds;
    std::map<roster::ChildId, roster::Background> said;
    for (const auto& row : rows)
      said.insert_or_assign(row.value.child, row.value);
    return said;
  };
  cards.fold();
  const auto joined = newest().at(cards.here);
  CHECK(joined.groups == roster::EthnicitySet{roster::Ethnicity::asian, roster::Ethnicity::white});
  CHECK(joined.payer == roster::Payer::medicaid);
  must(
      session.reopenMerge(cards.clinic.by, sheetOf(cards.clinic).answered.front().answer, "twins"));
  CHECK(newest().at(cards.here).groups == roster::EthnicitySet{roster::Ethnicity::asian});
  CHECK(newest().at(cards.there).groups == roster::EthnicitySet{roster::Ethnicity::white});
}

TEST_CASE("After two cards became one the day counts one child", "[case-105]") {
  TwoCards cards;
  CHECK(sheetOf(cards.clinic).equation.consented == 2);
  cards.fold();
  const auto sheet = sheetOf(cards.clinic);
  CHECK(sheet.equation.consented == 1);
  CHECK(sheet.counts.children == 1);
  CHECK(sheet.lines.size() == 1);
}

TEST_CASE("Every record type about a child has its merge rule") {
  CHECK(session::countOfMerged() >= 17);
}

TEST_CASE("An answer that drops a cavity is refused until it is confirmed, and says so",
          "[case-106]") {
  test::Clinic clinic;
  const auto mina = screenedTwice(clinic, aCavity);
  const auto question = sheetOf(clinic).questions.at(0);
  const auto refused = clinic.session.answerMerge(clinic.by, keeping(question, 0, clinic.day));
  CHECK(codeOf(refused) == ErrorCode::ruleSeriousFinding);
  CHECK(refused.error().detail.find("cavity, upper right first molar, 3") != std::string::npos);
  CHECK(refused.error().detail.find("urgent care, pain") != std::string::npos);
  CHECK(refused.error().detail.find("Mina") == std::string::npos);
  CHECK(must(clinic.session.screenings(mina)).size() == 2); // nothing was written
  CHECK(sheetOf(clinic).questions.size() == 1);

  SECTION("confirmed, the answer keeps what was dropped") {
    must(clinic.session.answerMerge(clinic.by, keeping(question, 0, clinic.day), Confirmed::yes));
    const auto sheet = sheetOf(clinic);
    CHECK(sheet.urgent.empty());
    REQUIRE(sheet.answered.size() == 1);
    CHECK(sheet.answered.front().answer.value.note ==
          "dropped: cavity, upper right first molar, 3; urgent care, pain; untreated decay");
    CHECK(sheet.answered.front().words.find("dropped: cavity") != std::string::npos);
    must(clinic.session.reopenMerge(clinic.by, sheet.answered.front().answer, "look again"));
    CHECK(sheetOf(clinic).urgent.size() == 1); // the finding is back
  }
  SECTION("the other visit is kept unasked") {
    must(clinic.session.answerMerge(clinic.by, keeping(question, 1, clinic.day)));
    CHECK(sheetOf(clinic).urgent.size() == 1);
  }
  SECTION("both happened") {
    must(clinic.session.answerMerge(clinic.by,
                                    {.day = clinic.day, .child = mina, .note = "after lunch"}));
    CHECK(sheetOf(clinic).urgent.size() == 1);
  }
}

TEST_CASE("A change of health heard at the seat is not dropped unasked", "[case-106]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  Second second(clinic, "second.gkbook", 2);
  clinic.standardVisit(mina);
  must(second.session.seat(clinic.by,
                           {mina,
                            clinic.day,
                            {chairside::Identifier::spokenName, chairside::Identifier::birthDate},
                            true,
                            false,
                            "a heart murmur, her father says"}));
  must(second.session.screen(clinic.by, clinic.fourSound(mina)));
  must(clinic.session.absorb(second.handOver()));
  const auto question = sheetOf(clinic).questions.at(0);
  const auto side = question.sides[0].laptop == clinic.laptop ? 0U : 1U;
  CHECK(codeOf(clinic.session.answerMerge(clinic.by, keeping(question, side, clinic.day))) ==
        ErrorCode::ruleSeriousFinding);
}

TEST_CASE("The question shows both records tooth by tooth with what differs marked", "[case-106]") {
  test::Clinic clinic;
  screenedTwice(clinic, aCavity);
  const auto question = sheetOf(clinic).questions.at(0);
  const auto lineOf = [&](const std::string& what) {
    for (const auto& line : question.lines)
      if (line.what == what) return line;
    FAIL("no line of " << what);
    return reports::MergeLine();
  };
  const auto three = lineOf("upper right first molar, 3");
  CHECK(three.differs);
  CHECK(three.said.at(0).starts_with("sound; seal "));
  CHECK(three.said.at(0).find("SEALED") != std::string::npos);
  CHECK(three.said.at(1).starts_with("occlusal CAVITY"));
  CHECK(three.said.at(1).ends_with("REFER"));
  CHECK(lineOf("Urgency").said ==
        std::vector<std::string>{"no obvious problem", "URGENT care: pain"});
  CHECK_FALSE(lineOf("Assent and health").differs);
  CHECK(question.sides.at(0).wouldLose.size() == 3);
  CHECK(question.sides.at(1).wouldLose.empty());
  const auto table = reports::mergeTable(question);
  CHECK(table.columns.at(2).heading == "9:00 AM OF");
  CHECK(table.columns.at(3).heading == "9:05 AM OF");
}

TEST_CASE("The question of two cards shows what each says of the child", "[case-105]") {
  TwoCards cards;
  const auto question = sheetOf(cards.clinic).questions.at(0);
  REQUIRE(question.other);
  std::map<std::string, reports::MergeLine> lines;
  for (const auto& line : question.lines)
    lines[line.what] = line;
  CHECK(lines.at("Number").differs);
  CHECK_FALSE(lines.at("Birth month").differs);
  CHECK(lines.at("Health alert").differs);
  CHECK(lines.at("upper right first molar, 3").differs);
}

TEST_CASE("Shows a merge whose answer would drop a cavity", "[.shows]") {
  test::Clinic clinic;
  screenedTwice(clinic, aCavity);
  const auto question = sheetOf(clinic).questions.at(0);
  const auto tell = [&](const char* when) {
    const auto sheet = sheetOf(clinic);
    std::cout << "\n== " << when << "\nquestions open " << sheet.questions.size()
              << ", urgent to call " << sheet.urgent.size() << ", first molars sealed "
              << sheet.counts.firstMolars << ", may be signed " << sheet.mayClose() << '\n';
    for (const auto& one : sheet.answered)
      std::cout << "answered: " << one.shown << ": " << one.words << '\n';
  };
  const std::vector table{reports::mergeTable(question)};
  std::cout << question.shown << ": " << question.what << '\n' << reports::toText(table);
  for (const auto& side : question.sides)
    std::cout << "Keep " << side.words
              << (side.wouldLose.empty() ? "" : ". DROPS: " + base::join(side.wouldLose, "; "))
              << '\n';
  tell("asked");
  const auto reopen = [&] {
    must(clinic.session.reopenMerge(clinic.by, sheetOf(clinic).answered.front().answer, "shown"));
  };
  const auto refused = clinic.session.answerMerge(clinic.by, keeping(question, 0, clinic.day));
  std::cout << "\n" << base::errorName(refused.error().code) << ": " << refused.error().detail;
  tell("keep the visit without the cavity: refused");
  must(clinic.session.answerMerge(clinic.by, keeping(question, 0, clinic.day), Confirmed::yes));
  tell("the same, confirmed");
  reopen();
  must(clinic.session.answerMerge(clinic.by, keeping(question, 1, clinic.day)));
  tell("keep the visit with the cavity");
  reopen();
  must(clinic.session.answerMerge(
      clinic.by, {.day = clinic.day, .child = *question.child, .note = "after lunch"}));
  tell("both happened");
}
