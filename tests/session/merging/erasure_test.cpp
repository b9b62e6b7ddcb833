#include "base/files/files.h"
#include "base/text/text.h"
#include "reports/term/term_tables.h"
#include "session/agreeing.h"
#include "session/rights/verbs.h"
#include "session/second_laptop.h"
#include "session/whole_content.h"
#include "store/erasing.h"
#include "store/sqlite/transaction.h"

#include <algorithm>
#include <set>

using namespace gk;
using base::ErrorCode;
using session::ErasureGrounds;
using test::codeOf;
using test::contentNow;
using test::must;
using test::Second;

namespace {

const ErasureGrounds asked{"the mother, letter of 12 November 2026", "state records law, section 4",
                           "she asked for it and nothing forbids it"};
constexpr auto note = "keeps forty bees in a blue hive";

void enterNote(session::Session& session, test::Clinic& clinic, roster::ChildId child) {
  must(session.enterFlag(clinic.by, {.child = child,
                                     .kind = roster::FlagKind::other,
                                     .action = roster::FlagAction::note,
                                     .detail = note,
                                     .decided = {}}));
}

std::int64_t eraseIn(session::Session& session, test::Clinic& clinic, roster::ChildId child) {
  const auto plan = must(session.erasurePlan(child));
  return must(session.eraseStudent(clinic.by, child, asked, plan.total)).rows;
}

/// The bytes of every sealed box that the copy has of the child.
std::vector<std::string> boxesIn(const base::Path& path, roster::ChildId child) {
  auto book = must(store::openBook(path, store::Access::readOnly, store::Durability::everyAct,
                                   base::Instant{base::Milliseconds(1'800'000'000'000)}));
  std::vector<std::string> boxes;
  auto rows = book.prepare("SELECT box FROM sealed_identity WHERE child = ?1");
  rows.bind(1, child);
  while (rows.step())
    boxes.emplace_back(rows.cell(0).bytes);
  return boxes;
}

bool isKnown(session::Session& session, roster::ChildId child, roster::DayId day) {
  const auto records = must(session.dayRecords(day));
  const auto isOf = [&](const auto& rows) {
    return std::ranges::any_of(rows, [&](const auto& row) { return row.value.child == child; });
  };
  return session.child(child).has_value() || isOf(records.screenings) || isOf(records.placements) ||
         isOf(records.outcomes);
}

} // namespace

TEST_CASE("An erased student is gone from the file, and the file verifies as erased",
          "[case-245]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  const auto wren = clinic.child("Wren");
  clinic.standardVisit(mina);
  clinic.standardVisit(wren);
  enterNote(clinic.session, clinic, mina);
  const auto number = must(clinic.session.child(mina)).value.number;
  const auto before = *clinic.folder / "before.gkbook";
  must(clinic.session.backUp(before));
  const auto boxes = boxesIn(before, mina);
  REQUIRE_FALSE(boxes.empty());
  const auto sealedOfWren = must(clinic.session.placements(wren)).size();

  const auto plan = must(clinic.session.erasurePlan(mina));
  CHECK(plan.number == number);
  CHECK(plan.rows.at("placement") == 4);
  CHECK(plan.rows.at("sealed_identity") == 1);
  CHECK(plan.counts.size() >= 4);
  const auto done = must(clinic.session.eraseStudent(clinic.by, mina, asked, plan.total));
  CHECK(done.rows == plan.total);
  CHECK(done.isForgotten);

  CHECK_FALSE(isKnown(clinic.session, mina, clinic.day));
  CHECK(must(clinic.session.findChildren(number)).empty());
  CHECK(must(clinic.session.placements(wren)).size() == sealedOfWren);
  CHECK(must(clinic.session.findings()).empty());
  const auto lines = must(clinic.session.erasures());
  REQUIRE(lines.size() == 1);
  CHECK(
      lines.front().words() ==
      "erased on November 17, 2026 by " + lines.front().by +
          " at the request of the mother, letter of 12 November 2026, " +
          base::counted(plan.total, "row", "rows") +
          " (state records law, section 4; she asked for it and nothing forbids it), by name only");
  const auto totals = reports::termTables(reports::termTotals(
      must(clinic.session.termRecords(clinic.term, *base::Date::parse("2026-12-18")))));
  CHECK(
      std::ranges::count(
          totals.front().notes,
          "1 student was erased from this logbook as the law required. No count includes them.") ==
      1);
  // The number on paper is not given to another student.
  CHECK(must(clinic.session.nextNumber()) > number);

  must(clinic.session.finish());
  const auto bytes = must(base::readFile(clinic.session.path()));
  const auto bytesBefore = must(base::readFile(before));
  for (const auto& box : boxes) {
    CHECK(bytesBefore.find(box) != std::string::npos); // looked for in the right way
    CHECK(bytes.find(box) == std::string::npos);
  }
  CHECK(bytesBefore.find(note) != std::string::npos);
  CHECK(bytes.find(note) == std::string::npos);
  const auto after = *clinic.folder / "after.gkbook"; // the logbook itself is held open
  must(clinic.session.backUp(after));
  CHECK(must(session::Session::inspect(after, {clinic.clock, clinic.random})).empty());
}

TEST_CASE(
    "A file that was not rewritten after an erasure, since the program was killed, says so and is "
    "rewritten when it is opened again",
    "[case-245]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  eraseIn(clinic.session, clinic, mina);
  const auto path = *clinic.folder / "killed.gkbook";
  must(clinic.session.backUp(path));
  {
    // What lay in pages that are free now.
    auto book = must(store::openBook(path, store::Access::readWrite, store::Durability::everyAct,
                                     clinic.clock.now().at));
    book.execute("PRAGMA secure_delete = OFF");
    book.execute("CREATE TABLE lain (words TEXT); INSERT INTO lain VALUES ('" + std::string(note) +
                 "'); DROP TABLE lain");
    store::Transaction transaction(book);
    store::noteTraces(book);
    transaction.commit();
  }
  const auto isThere = [&] { return must(base::readFile(path)).find(note) != std::string::npos; };
  const auto noticeOn = [&](store::Access access) {
    auto book = must(session::Session::open(path, clinic.laptop, {clinic.clock, clinic.random},
                                            access, session::BookKind::throwaway));
    CHECK(must(book.findings()).empty());
    return book.tracesNotice();
  };
  REQUIRE(isThere());
  CHECK(noticeOn(store::Access::readOnly) == session::tracesLeft);
  CHECK(isThere());
  CHECK(noticeOn(store::Access::readWrite).empty());
  CHECK_FALSE(isThere());
  CHECK(noticeOn(store::Access::readOnly).empty());
}

TEST_CASE("An erasure is confirmed by the number of rows, and says neither name nor nothing",
          "[case-245]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina", "Quarlesworth");
  const auto rows = must(clinic.session.erasurePlan(mina)).total;
  const auto erase = [&](const ErasureGrounds& grounds, std::int64_t confirmed) {
    return codeOf(clinic.session.eraseStudent(clinic.by, mina, grounds, confirmed));
  };
  CHECK(erase(asked, rows + 1) == ErrorCode::recordChanged);
  CHECK(erase({"Ms. Quarlesworth", "a rule", "asked"}, rows) == ErrorCode::textMalformed);
  CHECK(erase({" ", "a rule", "asked"}, rows) == ErrorCode::textMalformed);
  CHECK(erase({"a letter", "", "asked"}, rows) == ErrorCode::textMalformed);
  CHECK(erase({"a letter", "a rule", " "}, rows) == ErrorCode::ruleReason);
  CHECK(must(clinic.session.identity(mina)).last == "Quarlesworth");
  CHECK(must(clinic.session.erasures()).empty());
}

TEST_CASE("Undo takes nothing back that is older than an erasure", "[case-245]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  clinic.seat(mina);
  clinic.screenFour(mina);
  eraseIn(clinic.session, clinic, mina);
  CHECK(codeOf(clinic.session.undo(clinic.by, {base::Station::chair, clinic.day, mina})) ==
        ErrorCode::notFound);
}

TEST_CASE("Cards that are said to be one student's are erased together", "[case-245]") {
  test::Clinic clinic;
  Second second(clinic, "second.gkbook", 2);
  const auto here = test::enrollAda(clinic.session, clinic, "4001");
  const auto there = test::enrollAda(second.session, clinic, "4002");
  must(clinic.session.absorb(second.handOver()));
  clinic.seat(here);
  must(clinic.session.answerMerge(clinic.by, {.day = clinic.day,
                                              .child = here,
                                              .other = there,
                                              .verdict = followup::MergeVerdict::keptOne}));
  CHECK(must(clinic.session.erasurePlan(here)).cards == std::vector{here, there});
  eraseIn(clinic.session, clinic, here);
  CHECK(must(clinic.session.findings()).empty());
  must(clinic.session.finish());
  const auto rows = contentNow(clinic.session, clinic.folder->path());
  CHECK(std::ranges::none_of(rows, [](const auto& row) {
    return row.starts_with("sealed_identity|") || row.starts_with("child|");
  }));
}

TEST_CASE("An erasure is carried over by every merge, and what another laptop has comes back in "
          "none",
          "[case-246]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  const auto wren = clinic.child("Wren");
  clinic.standardVisit(mina);
  Second second(clinic, "second.gkbook", 2);
  Second third(clinic, "third.gkbook", 3);
  clinic.clock.advance(std::chrono::minutes(5));
  // What no one who erases knows of.
  enterNote(second.session, clinic, mina);
  test::seatOn(second.session, clinic, wren);
  eraseIn(clinic.session, clinic, mina);
  clinic.clock.advance(std::chrono::minutes(5));
  enterNote(third.session, clinic, mina);

  const auto a = *clinic.folder / "a.gkbook";
  must(clinic.session.backUp(a));
  const auto b = second.handOver();
  const auto c = third.handOver();
  std::vector<base::Path> files{a, b, c};
  std::set<std::vector<std::string>> contents;
  do {
    const auto path = base::freeName(*clinic.folder / "merged.gkbook");
    std::filesystem::copy_file(files.front(), path);
    auto merged = must(
        session::Session::open(path, base::LaptopId(base::Uuid{}), {clinic.clock, clinic.random},
                               store::Access::readWrite, session::BookKind::throwaway));
    for (int round = 0; round < 2; ++round)
      for (const auto& other : files)
        if (other != files.front()) must(test::absorbAll(merged, clinic.by, other));
    CHECK(must(merged.findings()).empty());
    CHECK_FALSE(isKnown(merged, mina, clinic.day));
    CHECK(isKnown(merged, wren, clinic.day));
    contents.insert(contentNow(merged, clinic.folder->path()));
    must(merged.finish());
    CHECK(must(base::readFile(path)).find(note) == std::string::npos);
  } while (std::ranges::next_permutation(files).found);
  CHECK(contents.size() == 1);

  // Both logbooks that still hold the student lose it when they take the erasure in.
  const auto merged = must(test::absorbAll(second.session, clinic.by, a));
  CHECK(merged.erased > 0);
  CHECK_FALSE(isKnown(second.session, mina, clinic.day));
  CHECK(must(second.session.findings()).empty());
}

TEST_CASE("A merge that would take students out changes nothing until one who may erase says so",
          "[case-403]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  const auto wren = clinic.child("Wren");
  const auto number = must(clinic.session.child(mina)).value.number;
  const auto author = test::memberName(clinic.session, clinic.hygienist);
  Second second(clinic, "second.gkbook", 2);
  test::seatOn(second.session, clinic, wren);
  enterNote(second.session, clinic, mina);
  const auto before = contentNow(second.session, clinic.folder->path());
  clinic.clock.advance(std::chrono::minutes(5));
  eraseIn(clinic.session, clinic, mina);
  const auto there = *clinic.folder / "there.gkbook";
  must(clinic.session.backUp(there));

  const auto refused = second.session.absorb(there);
  REQUIRE(codeOf(refused) == ErrorCode::storeErases);
  const auto& words = refused.error().detail;
  INFO(words);
  CHECK(words.find("1 student as erased") != std::string::npos);
  CHECK(words.find(", student " + number + ";") != std::string::npos);
  CHECK(words.find("by " + author + " on November 17, 2026, not signed.") != std::string::npos);
  CHECK(words.find("Mina") == std::string::npos);
  const auto unchanged = [&] {
    return contentNow(second.session, clinic.folder->path()) == before &&
           must(second.session.findings()).empty();
  };
  CHECK(unchanged());
  const auto entries = test::entriesAsked(refused.error());
  CHECK(entries == must(second.session.erasurePlan(mina)).total);
  // To have said yes to copies is no yes to this, nor is a yes to another number of entries.
  CHECK(codeOf(second.session.absorb(there, {.copies = true})) == ErrorCode::storeErases);
  using session::ErasureYes;
  for (const auto other : {entries - 1, entries + 1})
    CHECK(codeOf(second.session.absorb(there, {.erasures = ErasureYes{clinic.by, other}})) ==
          ErrorCode::storeErases);
  // The assistant may not erase, so she cannot agree to it either; nor can no one.
  CHECK(codeOf(second.session.absorb(there,
                                     {.erasures = ErasureYes{{clinic.assistant, {}}, entries}})) ==
        ErrorCode::ruleCredential);
  CHECK(codeOf(second.session.absorb(there, {.erasures = ErasureYes{{}, entries}})) ==
        ErrorCode::ruleCredential);
  CHECK(unchanged());

  CHECK(must(second.session.absorb(there, {.erasures = ErasureYes{clinic.by, entries}})).erased ==
        entries);
  CHECK_FALSE(isKnown(second.session, mina, clinic.day));
  CHECK(isKnown(second.session, wren, clinic.day));
  // What this logbook lists itself is not asked about again.
  CHECK(must(second.session.absorb(there)).newEntries == 0);
  CHECK_FALSE(isKnown(second.session, mina, clinic.day));
}

TEST_CASE("A logbook that never had a student takes the erasure of it in without a question",
          "[case-403]") {
  test::Clinic clinic;
  Second second(clinic, "second.gkbook", 2);
  const auto mina = clinic.child("Mina");
  clinic.clock.advance(std::chrono::minutes(5));
  eraseIn(clinic.session, clinic, mina);
  const auto there = *clinic.folder / "there.gkbook";
  must(clinic.session.backUp(there));
  CHECK(must(second.session.absorb(there)).newEntries > 0);
  CHECK(must(second.session.erasures()).size() == 1);
  CHECK(must(second.session.findings()).empty());
}

TEST_CASE("An erasure lists the copies that may still hold the student", "[case-248]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  const auto wren = clinic.child("Wren");
  Second second(clinic, "second.gkbook", 2);
  test::seatOn(second.session, clinic, wren);
  must(clinic.session.noteBackup(clinic.by, {.day = clinic.day, .file = "stick/tuesday.gkbook"}));
  must(clinic.session.absorb(second.handOver()));
  clinic.clock.advance(std::chrono::minutes(5));
  eraseIn(clinic.session, clinic, mina);
  must(clinic.session.noteBackup(clinic.by, {.day = clinic.day, .file = "stick/later.gkbook"}));
  const auto copies = must(clinic.session.erasures()).front().copies;
  const auto names = [&](const std::string& words) {
    return std::ranges::any_of(
        copies, [&](const auto& copy) { return copy.find(words) != std::string::npos; });
  };
  CHECK(names("stick/tuesday.gkbook"));
  CHECK_FALSE(names("stick/later.gkbook"));
  CHECK(names("the logbook of the laptop ..."));
}

TEST_CASE("A card that another laptop joined with an erased student meanwhile is named until it is "
          "erased too",
          "[case-387]") {
  test::Clinic clinic;
  auto& book = clinic.session;
  const auto older = clinic.child("Mina");
  const auto younger = clinic.child("Myna");
  enterNote(book, clinic, younger);
  Second other(clinic, "second.gkbook", 2);
  must(other.session.joinCards(clinic.by, older, younger, "one student"));
  const auto numberOf = [&](roster::ChildId child) {
    return must(other.session.revisions<roster::Child>(child)).front().value.number;
  };
  // Whichever of the two is erased here, all of the student is on the other card there.
  const bool isOlder = GENERATE(false, true);
  const auto erased = isOlder ? older : younger;
  const auto left = isOlder ? younger : older;
  const auto number = numberOf(left);
  eraseIn(book, clinic, erased);
  CHECK(must(book.erasures()).front().copies.size() == 0);
  must(book.absorb(other.handOver()));
  const auto said = base::join(must(book.erasures()).front().copies, "\n");
  CHECK(said.find("student " + number + " of this logbook") != std::string::npos);
  CHECK(must(book.findings()).empty());
  const auto card = must(book.cardNumbered(number));
  CHECK(card == left);
  eraseIn(book, clinic, card);
  for (const auto& line : must(book.erasures()))
    CHECK(base::join(line.copies, "\n").find("of this logbook,") == std::string::npos);
  const auto copy = *clinic.folder / "after.gkbook";
  must(book.backUp(copy));
  CHECK(boxesIn(copy, older).empty());
  CHECK(boxesIn(copy, younger).empty());
  CHECK(must(book.findings()).empty());
}

TEST_CASE("Who asked for an erasure and why name neither of two joined cards", "[case-387]") {
  test::Clinic clinic;
  auto& book = clinic.session;
  const auto older = clinic.child("Mina");
  must(book.joinCards(clinic.by, older, clinic.child("Rosamund"), "one student"));
  auto named = asked;
  named.request = "the mother of Rosamund";
  const auto rows = must(book.erasurePlan(older)).total;
  CHECK(codeOf(book.eraseStudent(clinic.by, older, named, rows)) == ErrorCode::textMalformed);
}
