#include "reports/day/close_out_tables.h"
#include "reports/records/inputs.h"
#include "ui/files/laptop_page.h"
#include "ui/fixtures/close_out_fixture.h"

#include <QListWidget>
#include <QTableView>

using namespace gk;
using namespace gk::test;

namespace {

constexpr int toFixPart = reports::close_out::blockers;
constexpr int mergeQuestions = reports::close_out::questions;
constexpr int urgentCalls = reports::close_out::urgent;
constexpr int letters = reports::close_out::letters;
constexpr int referrals = reports::close_out::referrals;

} // namespace

TEST_CASE("The close-out says the equation and what blocks and Enter goes to a child begun") {
  CloseOut desk;
  const auto child = desk.clinic.child("Mina");
  desk.clinic.seat(child);
  desk.clinic.screenFour(child);
  desk.open();
  CHECK(words(desk.page, u"closeOutEquation"_s).contains(u"Consented 1  =  screened 0"_s));
  CHECK(desk.verdict().startsWith(u"✖ Not ready to sign: "_s));
  press(desk.page, Qt::Key_Return); // from the names into the table
  press(desk.page, Qt::Key_Return);
  REQUIRE(desk.chosen.size() == 1);
  CHECK(desk.chosen.front() == child);
}

TEST_CASE("Enter on what blocks asks what fixes it") {
  CloseOut desk;
  SECTION("a child no one saw: the outcome") {
    desk.clinic.child("Mina");
    desk.open();
    press(desk.page, Qt::Key_Return);
    desk.prompter.choices = {0};
    press(desk.page, Qt::Key_Return);
    CHECK(desk.section(toFixPart) == u"Fix before signing  none"_s);
    CHECK(words(desk.page, u"closeOutEquation"_s).contains(u"absent 1"_s));
  }
  SECTION("an urgent child: the call, then the referral") {
    desk.urgentChild();
    desk.open();
    press(desk.page, Qt::Key_Return);
    desk.prompter.choices = {0, 0, 2};
    desk.prompter.texts = {u"will go today"_s, u"swelling"_s};
    press(desk.page, Qt::Key_Return);
    CHECK(desk.section(toFixPart) == u"Fix before signing  1 to do"_s);
    press(desk.page, Qt::Key_Return);
    CHECK(desk.section(toFixPart) == u"Fix before signing  none"_s);
    CHECK(desk.section(reports::close_out::referrals) == u"Referrals  1 made"_s);
  }
  SECTION("a tooth without a reason: why") {
    const auto child = desk.clinic.child("Mina");
    desk.clinic.seat(child);
    desk.clinic.screenFour(child);
    desk.open();
    CHECK(desk.section(toFixPart) ==
          u"Fix before signing  5 to do"_s); // no outcome, and four teeth
    press(desk.page, Qt::Key_Return);
    press(desk.page, Qt::Key_Down);
    desk.prompter.texts = {u"fire drill"_s};
    press(desk.page, Qt::Key_Return);
    CHECK(desk.section(toFixPart) == u"Fix before signing  1 to do"_s);
    CHECK(desk.chosen.empty());
  }
  CHECK(desk.troubles.join(u'|') == QString());
}

TEST_CASE("An outcome noted at the close-out takes its line away") {
  CloseOut desk;
  desk.clinic.child("Mina");
  desk.open();
  desk.prompter.choices = {0};
  press(desk.page, Qt::Key_O, Qt::AltModifier);
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(desk.section(toFixPart) == u"Fix before signing  none"_s);
  CHECK(words(desk.page, u"closeOutEquation"_s).contains(u"absent 1"_s));
  CHECK(desk.verdict().startsWith(u"✔"_s));
}

TEST_CASE("A day that reconciles is signed by two people and then closed") {
  CloseOut desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  desk.open();
  REQUIRE(part<QPushButton>(desk.page, u"closeOutSign"_s).isEnabled());
  desk.prompter.texts = {u"0"_s}; // no other sheets with names
  desk.prompter.choices = {0, 0};
  press(desk.page, Qt::Key_G, Qt::AltModifier);
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(must(desk.clinic.session.isSigned(desk.clinic.day)));
  CHECK(desk.verdict().startsWith(u"■ Signed by"_s));
  CHECK_FALSE(part<QPushButton>(desk.page, u"closeOutSign"_s).isEnabled());
}

TEST_CASE("A day that does not reconcile cannot be signed") {
  CloseOut desk;
  desk.clinic.child("Mina");
  desk.open();
  press(desk.page, Qt::Key_G, Qt::AltModifier);
  CHECK(desk.prompter.asked.isEmpty());
  CHECK_FALSE(must(desk.clinic.session.isSigned(desk.clinic.day)));
}

TEST_CASE("An urgent child blocks until called and referred within 48 hours") {
  CloseOut desk;
  desk.urgentChild();
  desk.open();
  CHECK(desk.section(toFixPart) == u"Fix before signing  2 to do"_s);
  CHECK(desk.section(urgentCalls) == u"Urgent calls  1 of 1 to call"_s);
  desk.choose(urgentCalls);
  desk.prompter.choices = {0, 0, 2};
  desk.prompter.texts = {u"will go today"_s, u"swelling"_s};
  press(desk.page, Qt::Key_C, Qt::AltModifier);
  CHECK(desk.section(toFixPart) == u"Fix before signing  1 to do"_s);
  press(desk.page, Qt::Key_R, Qt::AltModifier);
  CHECK(desk.section(toFixPart) == u"Fix before signing  none"_s);
  CHECK(desk.troubles.join(u'|') == QString());
  const auto records = must(desk.clinic.session.dayRecords(desk.clinic.day));
  REQUIRE(records.referrals.size() == 1);
  // Within 48 hours: Seal America, step 9.
  CHECK(records.referrals.front().value.due.iso() == "2026-11-19");
  CHECK(records.referrals.front().value.to == followup::ReferredTo::emergency);

  desk.choose(referrals);
  desk.prompter.choices = {static_cast<int>(followup::ReferralState::treatedComplete)};
  desk.prompter.texts = {u"dentist"_s};
  press(desk.page, Qt::Key_Return);
  press(desk.page, Qt::Key_Return); // Enter on the line says what became of it
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(desk.prompter.asked.last().contains(u"Source:"_s));
  CHECK(must(desk.clinic.session.dayRecords(desk.clinic.day)).referrals.front().value.state ==
        followup::ReferralState::treatedComplete);
}

TEST_CASE("The report is saved whole by the ending of its name") {
  CloseOut desk;
  desk.clinic.child("Mina");
  desk.open();
  const Scratch folder;
  for (const auto* name : {"sheet.html", "sheet.txt", "part.csv", "sheet.pdf", "without an ending"})
    desk.prompter.files.push_back(ui::toQt((folder / name).string()));
  desk.prompter.choices.assign(5, 1); // plain
  for (int i = 0; i < 5; ++i)
    press(desk.page, Qt::Key_S, Qt::AltModifier);
  CHECK(desk.troubles.join(u'|') == QString());
  const auto html = must(base::readFile(folder / "sheet.html"));
  CHECK(html.find("<h2>Exceptions</h2>") != std::string::npos);
  CHECK(must(base::readFile(folder / "sheet.txt")).find("Exceptions\n") != std::string::npos);
  CHECK(must(base::readFile(folder / "part.csv")).starts_with("About,What is missing"));
  CHECK(must(base::readFile(folder / "sheet.pdf")).starts_with("%PDF-"));
  CHECK(must(base::readFile(folder / "without an ending.pdf")).starts_with("%PDF-"));
}

TEST_CASE("A report that cannot be written says so") {
  CloseOut desk;
  desk.open();
  const Scratch folder;
  desk.prompter.choices = {1};
  desk.prompter.files = {ui::toQt((folder / "none" / "sheet.html").string())};
  press(desk.page, Qt::Key_S, Qt::AltModifier);
  CHECK(desk.troubles.size() == 1);
}

TEST_CASE("A backup is a logbook that the same passphrase opens") {
  CloseOut desk;
  desk.clinic.child("Mina");
  desk.open();
  const Scratch folder;
  desk.prompter.files = {ui::toQt((folder / "copy.gkbook").string())};
  press(desk.page, Qt::Key_B, Qt::AltModifier);
  CHECK(desk.troubles.join(u'|') == QString());
  auto copy = must(session::Session::open(folder / "copy.gkbook", desk.clinic.laptop,
                                          {desk.clinic.clock, desk.clinic.random}, {},
                                          session::BookKind::throwaway));
  CHECK(copy.unlock(Clinic::passphrase).has_value());
}

TEST_CASE("One key packs a verified backup and the papers for the office") {
  CloseOut desk;
  desk.urgentChild();
  desk.open();
  const Scratch folder;
  desk.prompter.files = {ui::toQt((folder / "copy.gkbook").string())};
  press(desk.page, Qt::Key_P, Qt::AltModifier);
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(desk.news.startsWith(u"Backed up and verified"_s));
  const auto sealed = must(base::readFile(folder / "copy-papers.gkpapers"));
  CHECK(sealed.find("Hana") == std::string::npos);
  CHECK(std::distance(std::filesystem::directory_iterator(folder.path()),
                      std::filesystem::directory_iterator()) == 2);
  SECTION("and opens them again, or writes nothing where they were changed") {
    const auto isCut = GENERATE(false, true);
    const auto file = folder / "copy-papers.gkpapers";
    must(base::replaceFile(file, sealed.substr(0, sealed.size() - (isCut ? 1 : 0))));
    ui::LaptopPage page(desk.context, nullptr);
    desk.listen(page);
    desk.prompter.files = {ui::toQt(file.string()), ui::toQt(folder.path().string())};
    showActive(page);
    press(page, Qt::Key_A, Qt::AltModifier);
    CHECK(desk.news.contains(u"delete the folder"_s) == !isCut);
    CHECK(desk.prompter.asked.back().endsWith(ui::plainFileWords) == !isCut);
    CHECK(std::filesystem::exists(folder / "copy-papers" / "referrals.pdf") == !isCut);
  }
  auto copy = must(session::Session::open(folder / "copy.gkbook", desk.clinic.laptop,
                                          {desk.clinic.clock, desk.clinic.random}, {},
                                          session::BookKind::throwaway));
  CHECK(copy.openPapers(sealed).error().code == base::ErrorCode::vaultLocked);
  CHECK(copy.unlock(Clinic::passphrase).has_value());
  std::map<std::string, std::string> papers;
  for (const auto& paper : must(copy.openPapers(sealed)))
    papers[paper.name] = paper.bytes;
  for (const auto* pdf : {"close-out.pdf", "unfinished-teeth.pdf", "referrals.pdf"})
    CHECK(papers[pdf].starts_with("%PDF-"));
  CHECK(papers["close-out.html"].find("Hana") != std::string::npos);
  CHECK(papers["unfinished-teeth.csv"].starts_with("Student,Room,Tooth"));
}

TEST_CASE("What the other laptop's entries disagree on is asked and answered with one key",
          "[case-65]") {
  CloseOut desk;
  const auto child = desk.clinic.child("Mina");
  const Scratch folder;
  must(desk.clinic.session.backUp(folder / "b.gkbook"));
  base::SeededRandom random(7);
  {
    auto other = must(session::Session::open(
        folder / "b.gkbook", base::LaptopId(base::makeUuid7(desk.clinic.clock.now().at, random)),
        {desk.clinic.clock, random}, {}, session::BookKind::throwaway));
    must(other.endVisit(desk.clinic.by, {child, desk.clinic.day, chairside::DayEnd::declined, {}}));
    must(other.finish());
  }
  desk.clinic.end(child, chairside::DayEnd::absent);
  desk.open();
  desk.prompter.files = {ui::toQt((folder / "b.gkbook").string())};
  press(desk.page, Qt::Key_T, Qt::AltModifier);
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(desk.news == u"Merged: 1 new entry. Laptop conflicts to resolve: 1."_s);
  const auto acts = must(desk.clinic.session.bookActs());
  REQUIRE(acts.size() == 1);
  CHECK(acts[0].find(" by OF, laptop ...") != std::string::npos);
  CHECK(desk.section(toFixPart) == u"Fix before signing  none"_s);
  CHECK(desk.section(mergeQuestions) == u"Laptop conflicts  1 to do"_s);
  CHECK(desk.verdict().startsWith(u"✖"_s));
  press(desk.page, Qt::Key_Return); // from the names into the table
  desk.prompter.choices = {1};
  press(desk.page, Qt::Key_Return);
  CHECK(desk.prompter.asked.back().contains(u"an outcome on both"_s));
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(desk.section(mergeQuestions) == u"Laptop conflicts  none"_s);
  CHECK(desk.verdict().startsWith(u"✔"_s));
}

TEST_CASE("What one laptop recorded in two copies is joined only when someone says that it was "
          "copied",
          "[case-243]") {
  CloseOut desk;
  const auto child = desk.clinic.child("Mina");
  const Scratch folder;
  must(desk.clinic.session.backUp(folder / "b.gkbook"));
  {
    auto other = must(session::Session::open(folder / "b.gkbook", desk.clinic.laptop,
                                             {desk.clinic.clock, desk.clinic.random}, {},
                                             session::BookKind::throwaway));
    must(other.endVisit(desk.clinic.by, {child, desk.clinic.day, chairside::DayEnd::declined, {}}));
    must(other.finish());
  }
  desk.clinic.clock.advance(std::chrono::minutes(1));
  desk.clinic.end(child, chairside::DayEnd::absent);
  desk.open();
  const auto merge = [&](int answer) {
    desk.prompter.files = {ui::toQt((folder / "b.gkbook").string())};
    desk.prompter.choices = {answer};
    press(desk.page, Qt::Key_T, Qt::AltModifier);
    CHECK(desk.prompter.asked.back().contains(u"was used as two copies"_s));
    CHECK(desk.prompter.asked.back().contains(u"Nothing is lost"_s));
    CHECK(desk.troubles.join(u'|') == QString());
  };
  merge(1);
  CHECK(desk.section(mergeQuestions) == u"Laptop conflicts  none"_s);
  merge(0);
  CHECK(desk.news == u"Merged: 1 new entry. The copies are joined, each under its own name, and it "
                     "is not asked again. Laptop conflicts to resolve: 1."_s);
  CHECK(desk.section(mergeQuestions) == u"Laptop conflicts  1 to do"_s);
}

TEST_CASE("One key and Enter print every letter that is due and then none is") {
  CloseOut desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  desk.clinic.standardVisit(desk.clinic.child("Wren"));
  desk.open();
  CHECK(desk.section(letters) == u"Letters home  0 of 2 printed"_s);
  const Scratch folder;
  desk.prompter.choices = {0, 1, 0};
  desk.prompter.files = {ui::toQt((folder / "letters.pdf").string())};
  press(desk.page, Qt::Key_L, Qt::AltModifier);
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(desk.news.startsWith(u"2 letters in the file: print it."_s));
  CHECK(desk.news.contains(u"DRAFTS"_s));
  CHECK(must(base::readFile(folder / "letters.pdf")).starts_with("%PDF-"));
  CHECK(desk.section(letters) == u"Letters home  2 of 2 printed"_s);
  press(desk.page, Qt::Key_L, Qt::AltModifier);
  CHECK(desk.news.startsWith(u"No letter is due"_s));
}

TEST_CASE("Letters that were not printed stay due") {
  CloseOut desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  desk.open();
  desk.prompter.choices = {0, 1, 0, 1, 1};
  const Scratch folder;
  desk.prompter.files = {ui::toQt((folder / "none" / "letters.pdf").string())};
  press(desk.page, Qt::Key_L, Qt::AltModifier); // into a folder that is not there
  CHECK(desk.troubles.size() == 1);
  press(desk.page, Qt::Key_L, Qt::AltModifier); // backed out of the name
  CHECK(desk.news.startsWith(u"Not printed"_s));
  press(desk.page, Qt::Key_L, Qt::AltModifier); // backed out of the printer
  CHECK(desk.section(letters) == u"Letters home  0 of 1 printed"_s);
}

TEST_CASE("A letter is printed again for one child and the handed and the returned are noted") {
  CloseOut desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  desk.open();
  desk.prompter.choices = {1, 2, 1, 3, 4};
  desk.prompter.prints = {true};
  press(desk.page, Qt::Key_L, Qt::AltModifier);
  CHECK(desk.prompter.printed.startsWith("%PDF-"));
  desk.choose(letters);
  const Scratch folder;
  desk.prompter.files = {ui::toQt((folder / "one.pdf").string())};
  const auto newest = [&] {
    return must(desk.clinic.session.dayRecords(desk.clinic.day)).letters.back().value;
  };
  press(desk.page, Qt::Key_L, Qt::AltModifier);
  CHECK(newest().prints == 2);
  press(desk.page, Qt::Key_L, Qt::AltModifier);
  CHECK(newest().state == followup::LetterState::handed);
  press(desk.page, Qt::Key_L, Qt::AltModifier);
  CHECK(newest().state == followup::LetterState::returned);
  CHECK(desk.troubles.join(u'|') == QString());
}

TEST_CASE("The nurse's sheet of an urgent child is printed from the close-out", "[case-81]") {
  CloseOut desk;
  desk.urgentChild();
  desk.open();
  desk.prompter.choices = {6};
  desk.prompter.prints = {true};
  press(desk.page, Qt::Key_L, Qt::AltModifier);
  CHECK(desk.news.startsWith(u"1 urgent sheet printed"_s));
  CHECK(desk.prompter.printed.startsWith("%PDF-"));
}
