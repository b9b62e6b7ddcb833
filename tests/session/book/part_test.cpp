#include "session/book/archive.h"
#include "session/second_laptop.h"
#include "session/whole_content.h"

#include <sqlite3.h>

// A logbook of one school's students alone, for a second laptop's day.

using namespace gk;
using base::ErrorCode;
using test::Clinic;
using test::codeOf;
using test::contentNow;
using test::must;
using test::Scratch;

namespace {

constexpr auto passphrase = "seven gray herons";
constexpr auto secretNote = "keeps forty bees in a blue hive";
constexpr auto corrected = "the aunt at the second house said so";

roster::ChildId childAt(Clinic& clinic, roster::SchoolId school, const char* number,
                        const char* first) {
  const auto child = must(clinic.session.enrollChild(
      clinic.by,
      {.number = roster::withCheckDigit(number),
       .birth = {2019, 3},
       .school = school,
       .grade = "2",
       .room = "6",
       .note = {}},
      {.first = first, .last = "Quill", .birth = must(base::Date::parse("2019-03-14"))}));
  must(clinic.session.enterConsent(clinic.by, clinic.form(child)));
  return child;
}

void enterNote(session::Session& session, const Clinic& clinic, roster::ChildId child,
               const char* detail = secretNote) {
  must(session.enterFlag(clinic.by, {.child = child,
                                     .kind = roster::FlagKind::other,
                                     .action = roster::FlagAction::note,
                                     .detail = detail,
                                     .decided = {}}));
}

/// Mina is at the clinic's school, Ada at another, with an alert and a correction with its reason.
struct TwoSchools {
  Clinic clinic;
  roster::SchoolId other =
      must(clinic.session.enterSchool(clinic.by, {"Thistle Hollow School", "TH"}));
  roster::ChildId mina = clinic.child("Mina");
  roster::ChildId ada = childAt(clinic, other, "2041", "Ada");
  Scratch drive;
  base::SeededRandom random{77};
  int made_ = 0;

  TwoSchools() {
    enterNote(clinic.session, clinic, ada);
    must(clinic.session.moveChild(clinic.by, ada, other, "2", "9", corrected));
  }
  base::Path fresh(const char* ending) { return drive / (std::to_string(++made_) + ending); }
  /// The day's logbook, as it lies on the second laptop.
  base::Path part() {
    const auto envelope = fresh(".gkday");
    must(clinic.session.sealDay(clinic.by, envelope, clinic.school, passphrase));
    auto book = fresh(".gkbook");
    must(
        session::Session::unpackEnvelope(envelope, passphrase, book, session::BookKind::throwaway));
    return book;
  }
  session::Session open(const base::Path& book) {
    auto two = must(session::Session::open(
        book, base::LaptopId(base::makeUuid7(clinic.clock.now().at, random)),
        {clinic.clock, random}, store::Access::readWrite, session::BookKind::throwaway));
    must(two.unlock(Clinic::passphrase));
    return two;
  }
  base::Path copyOf(session::Session& session) {
    auto path = fresh(".gkbook");
    must(session.backUp(path));
    return path;
  }
};

std::string bytesOf(const base::Path& file) {
  return must(base::readFile(file, std::size_t{1} << 28));
}

void run(const base::Path& book, const std::string& sql) {
  sqlite3* db = nullptr;
  REQUIRE(sqlite3_open(book.c_str(), &db) == SQLITE_OK);
  char* why = nullptr;
  const int code = sqlite3_exec(db, sql.c_str(), nullptr, nullptr, &why);
  INFO(sql << ": " << (why ? why : ""));
  sqlite3_close(db);
  REQUIRE(code == SQLITE_OK);
}

} // namespace

TEST_CASE("A day envelope for one school has nothing of another school's students, and is whole",
          "[case-424]") {
  TwoSchools two;
  const auto book = two.part();
  const auto bytes = bytesOf(book);
  for (const auto* of : {secretNote, corrected, "2041-"})
    CHECK(bytes.find(of) == std::string::npos);
  auto day = two.open(book);
  CHECK(must(day.findings()).empty());
  CHECK(day.child(two.mina).has_value());
  CHECK(codeOf(day.child(two.ada)) == ErrorCode::notFound);
  CHECK(codeOf(day.identity(two.ada)) == ErrorCode::notFound);
  CHECK(must(day.flags(two.ada)).empty());
  CHECK(must(day.findChildren("Ada")).empty());
  CHECK(must(day.board(two.clinic.day)).size() == 1);
  CHECK(must(day.oneSchool())->name == "Cobble Lantern Elementary");
  CHECK_FALSE(must(two.clinic.session.oneSchool()).has_value());
  // A new student gets no number that another one has there.
  CHECK(must(day.nextNumber()) == must(two.clinic.session.nextNumber()));
}

TEST_CASE("What needs every student is refused in a logbook of one school", "[case-425]") {
  TwoSchools two;
  auto& whole = two.clinic.session;
  const auto elsewhere = must(whole.openDay(
      two.clinic.by,
      {two.clinic.term, two.other, must(base::Date::parse("2026-11-16")), 1, {}, {}}));
  auto day = two.open(two.part());
  const auto today = two.clinic.clock.now().date();
  CHECK(codeOf(day.termRecords(two.clinic.term, today)) == ErrorCode::storePart);
  CHECK(codeOf(day.dayRecords(elsewhere)) == ErrorCode::storePart);
  CHECK(codeOf(day.openDay(two.clinic.by, {two.clinic.term, two.other, today, 1, {}, {}})) ==
        ErrorCode::storePart);
  CHECK(codeOf(session::archiveName(day, roster::YearId(base::Uuid{}), today)) ==
        ErrorCode::storePart);
  CHECK(codeOf(day.sealDay(two.clinic.by, two.fresh(".gkday"), two.other, passphrase)) ==
        ErrorCode::storePart);
  // Forms of the other school would be counted as missing: its students are not here.
  CHECK(codeOf(day.formLines(two.clinic.term, today, two.other)) == ErrorCode::storePart);
  CHECK(codeOf(day.formCounts(two.clinic.term, today, two.other)) == ErrorCode::storePart);
  const auto said = day.termRecords(two.clinic.term, today).error().detail;
  CHECK(said.find("has only Cobble Lantern Elementary's students") != std::string::npos);
  CHECK(day.dayRecords(two.clinic.day).has_value());
}

TEST_CASE("A school's day comes back into the whole logbook, which loses nothing by it",
          "[case-424]") {
  TwoSchools two;
  auto& whole = two.clinic.session;
  const auto book = two.part();
  const auto back = two.fresh(".gkday");
  {
    auto day = two.open(book);
    enterNote(day, two.clinic, two.mina, "was charted on the second laptop");
    must(day.sealDay(two.clinic.by, back, {}, passphrase));
    must(day.finish());
  }
  enterNote(whole, two.clinic, two.ada, "meanwhile here");
  CHECK(must(whole.absorbEnvelope(two.clinic.by, back, passphrase)).newEntries > 0);
  CHECK(must(whole.flags(two.mina)).size() == 1);
  CHECK(must(whole.flags(two.ada)).size() == 2);
  CHECK(must(whole.identity(two.ada)).first == "Ada");
  CHECK_FALSE(must(whole.oneSchool()).has_value());
  CHECK(must(whole.findings()).empty());
}

TEST_CASE("A logbook of one school that takes in the whole one is whole, to the last reason",
          "[case-426]") {
  TwoSchools two;
  auto& whole = two.clinic.session;
  auto day = two.open(two.part());
  enterNote(whole, two.clinic, two.ada, "meanwhile there");
  enterNote(day, two.clinic, two.mina, "was charted on the second laptop");
  // By the part's own number for that laptop the whole logbook calls a third one.
  test::Second third(two.clinic, "third.gkbook", 3);
  enterNote(third.session, two.clinic, two.ada, "on a third laptop");
  must(whole.absorb(third.handOver()));
  must(day.absorb(two.copyOf(whole)));
  CHECK_FALSE(must(day.oneSchool()).has_value());
  CHECK(must(day.findings()).empty());
  CHECK(must(day.flags(two.ada)).size() == 3);
  CHECK(must(day.child(two.ada)).stamp.reason == corrected);
  must(whole.absorb(two.copyOf(day)));
  CHECK(contentNow(day, two.drive.path()) == contentNow(whole, two.drive.path()));
}

TEST_CASE("A merge that would bring entries without their content changes nothing", "[case-427]") {
  TwoSchools two;
  auto& whole = two.clinic.session;
  const auto earlier = two.copyOf(whole);
  enterNote(whole, two.clinic, two.ada, "later");
  const auto part = two.part();
  const auto tries = [&](session::Session& into, const base::Path& other) {
    const auto before = into.edition();
    CHECK(codeOf(into.absorb(other)) == ErrorCode::storePart);
    CHECK(into.edition() == before);
    CHECK(must(into.findings()).empty());
  };
  {
    auto old = two.open(earlier); // knows nothing of Ada's later note
    tries(old, part);
    CHECK(must(old.flags(two.ada)).size() == 1);
    must(old.finish());
  }
  auto day = two.open(part);
  tries(day, earlier); // has not all that was left out
  CHECK(codeOf(day.child(two.ada)) == ErrorCode::notFound);
  enterNote(whole, two.clinic, two.ada, "later still");
  tries(day, two.part()); // leaves out what this one has never heard of
}

TEST_CASE("A student who is erased in the whole logbook is erased in the part too", "[case-426]") {
  TwoSchools two;
  auto& whole = two.clinic.session;
  auto day = two.open(two.part());
  const auto plan = must(whole.erasurePlan(two.ada));
  must(whole.eraseStudent(two.clinic.by, two.ada,
                          {"the mother, letter of 12 November 2026", "state records law, section 4",
                           "she asked for it"},
                          plan.total));
  must(day.absorb(two.copyOf(whole)));
  CHECK_FALSE(must(day.oneSchool()).has_value());
  CHECK(must(day.findings()).empty());
  CHECK(codeOf(day.child(two.ada)) == ErrorCode::notFound);
  must(whole.absorb(two.copyOf(day)));
  CHECK(must(whole.findings()).empty());
}

// Each row and column of a part is changed, taken out and added to by
// tests/store/digest/tamper_test.cpp.
TEST_CASE("A logbook is no part by another program's word", "[case-428]") {
  TwoSchools two;
  const auto faultsOf = [&](const base::Path& from, const std::string& sql) {
    const auto path = two.fresh(".gkbook");
    must(base::replaceFile(path, bytesOf(from)));
    run(path, sql);
    return must(session::Session::inspect(path, {two.clinic.clock, two.random}));
  };
  const auto whole = two.copyOf(two.clinic.session);
  const auto part = two.part();
  CHECK(faultsOf(part, "SELECT 1").empty());
  const std::string school = "(SELECT e.id FROM entry AS e JOIN entry_kind AS k ON k.number = "
                             "e.kind WHERE k.name = 'school' ORDER BY e.id LIMIT 1)";
  const std::string child = "(SELECT child FROM child_salt LIMIT 1)";
  for (const auto& [from, sql] : std::vector<std::pair<base::Path, std::string>>{
           {whole, "INSERT INTO part VALUES (" + school + ", 1, zeroblob(32))"},
           {whole, "INSERT INTO part VALUES (" + school +
                       ", 1, zeroblob(32)); INSERT INTO child_elsewhere VALUES (" + child + ")"},
           {part, "INSERT INTO child_elsewhere VALUES (" + child + ")"}}) {
    INFO(sql);
    CHECK_FALSE(faultsOf(from, sql).empty());
  }
}
