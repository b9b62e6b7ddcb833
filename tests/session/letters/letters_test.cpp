#include "session/letters/letters.h"

#include "base/files/files.h"
#include "crypto/digest.h"
#include "reports/day/close_out.h"
#include "session/session.h"
#include "support/clinic.h"

#include <algorithm>

using namespace gk;
using base::ErrorCode;
using followup::LetterState;
using test::codeOf;
using test::must;

namespace {

class Desk : public test::Clinic {
 public:
  [[nodiscard]] base::Date today() { return clock.now().date(); }

  std::vector<session::ReadyLetter> letters() {
    return must(session::readyLetters(session, day, must(session::letterTemplates(session.path())),
                                      today()));
  }
  void printDue() {
    std::vector<followup::Letter> records;
    for (const auto& one : letters())
      if (one.letter.isDue()) records.push_back(one.record);
    must(session.enterLetters(by, records));
  }
  reports::CloseOut sheet() { return reports::closeOut(must(session.dayRecords(day))); }

  /// Sealed by the standard visit, with these guardians.
  roster::ChildId sealedChild(session::Identity identity) {
    const auto id =
        must(session.enrollChild(by,
                                 {.number = roster::withCheckDigit("2001"),
                                  .birth = {identity.birth.year(), identity.birth.month()},
                                  .school = school,
                                  .grade = identity.birth.year() < 2010 ? "12" : "2",
                                  .room = "6",
                                  .note = {}},
                                 identity, session::Confirmed::yes));
    must(session.enterConsent(by, form(id)));
    standardVisit(id);
    return id;
  }

  static session::Identity lupe() {
    return {.first = "Guadalupe",
            .last = "Saltmarsh",
            .nameUsed = "Lupe",
            .birth = base::Date::parse("2019-02-17").value(),
            .room = "6"};
  }
};

} // namespace

TEST_CASE("Every child seen has a letter due until it is printed") {
  Desk desk;
  const auto mina = desk.child("Mina");
  desk.standardVisit(mina);
  CHECK(desk.sheet().counts.letters == 0);
  desk.printDue();
  CHECK(desk.sheet().counts.letters == 1);
  const auto letters = desk.letters();
  REQUIRE(letters.size() == 1);
  CHECK_FALSE(letters.front().letter.isDue());
  const auto& kept = letters.front().letter.written->value;
  CHECK(kept.state == LetterState::printed);
  CHECK(kept.prints == 1);
  CHECK(kept.written == desk.today());
  CHECK(kept.textDigest == crypto::digest(reports::toText(letters.front().text)));
  must(desk.session.moveLetters(desk.by, {*letters.front().letter.written}, LetterState::handed));
  CHECK(desk.sheet().letters.front().stand == reports::LetterStand::handed);
}

TEST_CASE("Printed again counts up and nothing of the first is lost") {
  Desk desk;
  desk.standardVisit(desk.child("Mina"));
  desk.printDue();
  must(desk.session.moveLetters(desk.by, {*desk.letters().front().letter.written},
                                LetterState::printed));
  CHECK(desk.letters().front().letter.written->value.prints == 2);
}

TEST_CASE("The record of a letter holds no name") {
  Desk desk;
  desk.sealedChild(Desk::lupe());
  desk.printDue();
  const auto record = desk.letters().front().letter.written->value;
  CHECK(record.facts.find("Lupe") == std::string::npos);
  must(desk.session.finish());
  const auto bytes = must(base::readFile(desk.session.path()));
  CHECK(bytes.find("Guadalupe") == std::string::npos);
}

TEST_CASE("The language is the guardian's and two guardians of two languages get two letters",
          "[case-79]") {
  Desk desk;
  auto lupe = Desk::lupe();
  lupe.guardians = {{"Rosa Saltmarsh", "mother", "000-555-0145", "Spanish"},
                    {"Ted Marsh", "father", "000-555-0146", "English"},
                    {"Ana Saltmarsh", "grandmother", "000-555-0147", "spanish"}};
  desk.sealedChild(lupe);
  const auto letters = desk.letters();
  REQUIRE(letters.size() == 2);
  CHECK(letters[0].text.language == "Spanish");
  CHECK(letters[0].letter.reader.names == "Rosa Saltmarsh, Ana Saltmarsh");
  CHECK(letters[1].text.language == "English");
  CHECK(letters[1].letter.reader.names == "Ted Marsh");
  desk.printDue();
  CHECK(desk.sheet().counts.letters == 1); // the child is counted once
}

TEST_CASE("A language without a template gives the English letter and the interpreter line",
          "[case-80]") {
  Desk desk;
  auto lupe = Desk::lupe();
  lupe.guardians = {{"Lita Saltmarsh", "mother", "000-555-0145", "Tagalog"}};
  desk.sealedChild(lupe);
  const auto one = desk.letters().front();
  CHECK(one.text.language == "English");
  CHECK(one.record.interpreter);
  CHECK(reports::toText(one.text).find("You asked for Tagalog") != std::string::npos);
}

TEST_CASE("A student of age gets the letter", "[case-9]") {
  Desk desk;
  auto student = Desk::lupe();
  student.birth = base::Date::parse("2008-02-17").value();
  student.guardians = {{"Rosa Saltmarsh", "mother", "000-555-0145", "Spanish"}};
  const auto id = desk.sealedChild(student);
  const auto letters = desk.letters();
  REQUIRE(letters.size() == 1);
  CHECK(letters[0].letter.child == id);
  CHECK(letters[0].record.guardian == followup::toStudent);
  const auto text = reports::toText(letters[0].text);
  CHECK(text.find("Dear Lupe,") != std::string::npos);
  CHECK(text.find("Rosa") == std::string::npos);
}

TEST_CASE("The letter carries the legal name and speaks of the name used", "[case-16]") {
  Desk desk;
  desk.sealedChild(Desk::lupe());
  const auto text = reports::toText(desk.letters().front().text);
  CHECK(text.find("This is about Guadalupe Saltmarsh.") != std::string::npos);
  CHECK(text.find("We looked at Lupe's teeth.") != std::string::npos);
}

TEST_CASE("A correction of a reopened day asks for a letter that replaces the first", "[case-72]") {
  Desk desk;
  const auto child = desk.child("Mina");
  desk.standardVisit(child);
  desk.printDue();
  must(desk.session.countPaper(
      desk.by, {.day = desk.day, .paper = followup::Paper::letters, .out = 1, .back = 1}));
  must(desk.session.signDay(desk.by, {desk.day, desk.hygienist, desk.coordinator}));
  const auto screening = must(desk.session.screenings(child)).back();
  auto right = screening.value;
  right.urgency = chairside::Urgency::early;
  must(desk.session.reopenDay(desk.by, desk.day, "the paper chart says early"));
  must(desk.session.correctScreening(desk.by, screening, right, "seen on the paper chart"));
  CHECK(desk.sheet().letters.front().stand == reports::LetterStand::toReplace);
  const auto again = desk.letters().front();
  REQUIRE(again.letter.isDue());
  CHECK(reports::toText(again.text).find("replaces our letter of November 17, 2026") !=
        std::string::npos);
  desk.printDue();
  CHECK(desk.sheet().letters.front().stand == reports::LetterStand::printed);
  CHECK(desk.letters().front().letter.written->value.replaces.has_value());
}

TEST_CASE("Letters and the nurse's sheets need the names unlocked") {
  Desk desk;
  desk.standardVisit(desk.child("Mina"));
  const auto templates = must(session::letterTemplates(desk.session.path()));
  desk.session.lock();
  CHECK(codeOf(session::readyLetters(desk.session, desk.day, templates, desk.today())) ==
        ErrorCode::vaultLocked);
  CHECK(codeOf(session::urgentForms(desk.session, desk.day)) == ErrorCode::vaultLocked);
  CHECK(desk.sheet().letters.size() == 1); // but how they stand can be seen
}

TEST_CASE("A template beside the logbook takes the place of ours and a wrong one is refused") {
  Desk desk;
  desk.standardVisit(desk.child("Mina"));
  const auto folder = desk.session.path().parent_path() / "letters";
  const auto written = must(session::copyTemplates(folder));
  CHECK(written == std::vector<std::string>{"english.txt", "spanish.txt"});
  CHECK(must(session::copyTemplates(folder)).empty()); // what was edited stays

  auto text = must(base::readFile(folder / "english.txt"));
  text.replace(text.find("We looked at"), 12, "We checked all of");
  must(base::replaceFile(folder / "english.txt", text));
  CHECK(reports::toText(desk.letters().front().text).find("We checked all of Mina's teeth.") !=
        std::string::npos);

  text.replace(text.find("{?varnish}"), 10, "{?varnich}");
  must(base::replaceFile(folder / "english.txt", text));
  const auto refused = session::letterTemplates(desk.session.path());
  CHECK(codeOf(refused) == ErrorCode::letterTemplate);
  CHECK(refused.error().detail.find("english.txt:") != std::string::npos);
}

TEST_CASE("A folder of letters that is no folder of letters is refused with its limit") {
  Desk desk;
  const auto folder = desk.session.path().parent_path() / "letters";
  std::filesystem::create_directory(folder);
  SECTION("too many files") {
    for (int i = 0; i <= 200; ++i)
      must(base::replaceFile(folder / (std::to_string(i) + ".txt"), "no template"));
  }
  SECTION("one that is too large") {
    must(base::replaceFile(folder / "english.txt", std::string(65 * 1024, 'a')));
  }
  const auto refused = session::letterTemplates(desk.session.path());
  CHECK(codeOf(refused) == ErrorCode::letterTemplate);
  CHECK(refused.error().detail.find("folder") != std::string::npos);
}

TEST_CASE("Two laptops' letters come together without one being lost", "[case-65]") {
  Desk desk;
  desk.standardVisit(desk.child("Mina"));
  const test::Scratch scratch;
  must(desk.session.backUp(scratch / "b.gkbook"));
  base::SeededRandom random(9);
  {
    auto other = must(session::Session::open(
        scratch / "b.gkbook", base::LaptopId(base::makeUuid7(desk.clock.now().at, random)),
        {desk.clock, random}, {}, session::BookKind::throwaway));
    must(other.unlock(test::Clinic::passphrase));
    const auto ready = must(session::readyLetters(
        other, desk.day, must(session::letterTemplates(other.path())), desk.today()));
    must(other.enterLetters(desk.by, {ready.front().record}));
    must(other.finish());
  }
  must(desk.session.absorb(scratch / "b.gkbook"));
  CHECK(desk.sheet().counts.letters == 1);
}

TEST_CASE("Of two siblings with one guardian each has its own consent and its own letter",
          "[case-6]") {
  Desk desk;
  const auto ada = desk.child("Ada");
  const auto ben = desk.childWithoutForm("Ben");
  const auto cleo = desk.child("Cleo"); // all of them with Rosa Hollowell
  desk.standardVisit(ada);
  desk.standardVisit(cleo);
  CHECK(codeOf(desk.session.seat(
            desk.by, {ben,
                      desk.day,
                      {chairside::Identifier::spokenName, chairside::Identifier::birthDate}})) ==
        ErrorCode::ruleConsent);
  const auto letters = desk.letters();
  REQUIRE(letters.size() == 2);
  for (const auto& letter : letters)
    CHECK(letter.letter.reader.names == "Rosa Hollowell");
  CHECK(letters[0].record.child != letters[1].record.child);
}
