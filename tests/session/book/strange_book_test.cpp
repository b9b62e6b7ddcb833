#include "reports/records/inputs.h"
#include "session/book/snapshot.h"
#include "store/book.h"
#include "support/clinic.h"

#include <sqlite3.h>

// Books that were made to hurt: what they hold is never run, and they are refused by name.

using namespace gk;
using namespace gk::test;
using base::ErrorCode;

namespace {

constexpr base::Instant someMorning{base::Milliseconds(1'794'900'000'000)}; // November 2026

/// A clinic's whole book, changed by plain SQL as someone else's program would.
class Strange {
 public:
  Strange() {
    Clinic clinic(path(), session::BookKind::throwaway);
    clinic.standardVisit(clinic.child("Mina", "Tolliver-Reed"));
    must(clinic.session.finish());
  }
  [[nodiscard]] base::Path path() const { return folder_ / "strange.gkbook"; }

  void run(const std::string& sql) const {
    sqlite3* db = nullptr;
    REQUIRE(sqlite3_open(path().c_str(), &db) == SQLITE_OK);
    char* why = nullptr;
    const int code = sqlite3_exec(db, sql.c_str(), nullptr, nullptr, &why);
    INFO(sql << ": " << (why ? why : ""));
    sqlite3_close(db);
    REQUIRE(code == SQLITE_OK);
  }
  [[nodiscard]] base::Result<store::Book> open(store::Access access) const {
    base::SeededRandom random(3);
    return store::Book::open(path(), base::LaptopId(base::makeUuid7(someMorning, random)), access,
                             store::Durability::bulk, someMorning);
  }

 private:
  Scratch folder_;
};

const auto hostile = std::to_array<std::pair<const char*, const char*>>({
    {"CREATE TABLE \"x; DELETE FROM main.placement; --\" (entry BLOB)", "table"},
    {"CREATE TABLE \"entry2\" (entry BLOB, payload TEXT)", "table \"entry2\""},
    {"CREATE VIEW birthday AS SELECT * FROM child", "view \"birthday\""},
    {"CREATE VIEW endless AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) "
     "SELECT i FROM n",
     "view \"endless\""},
    {"CREATE TRIGGER gone AFTER INSERT ON entry BEGIN DELETE FROM placement; END",
     "trigger \"gone\""},
    {"CREATE TEMP TABLE t(a); CREATE INDEX seen ON entry (reason)", "index \"seen\""},
    {"DROP TRIGGER entry_no_delete", "trigger \"entry_no_delete\" is missing"},
    {"DROP TRIGGER entry_no_delete; CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry BEGIN "
     "SELECT 1; END",
     "trigger \"entry_no_delete\" is not as"},
    {"DROP VIEW current_entry; CREATE VIEW current_entry AS SELECT * FROM entry",
     "view \"current_entry\" is not as"},
    {"ALTER TABLE lot ADD COLUMN note TEXT", "table \"lot\" is not as"},
    {"PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, 'CHECK', 'check') "
     "WHERE name = 'placement'",
     "table \"placement\" is not as"},
    {"PRAGMA writable_schema = ON; UPDATE sqlite_schema SET name = 'lots', tbl_name = 'lots', sql "
     "= replace(sql, 'TABLE lot ', 'TABLE lots ') WHERE name = 'lot'",
     "lot"},
    {"CREATE TABLE sheet AS SELECT 1 AS entry; ANALYZE", "table"},
});

} // namespace

TEST_CASE("A book with anything the program did not make is refused, and the thing is named",
          "[case-131]") {
  for (const auto& [sql, named] : hostile) {
    INFO(sql);
    Strange book;
    book.run(sql);
    for (const auto access : {store::Access::readOnly, store::Access::readWrite}) {
      const auto opened = book.open(access);
      REQUIRE_FALSE(opened);
      INFO(opened.error().detail);
      CHECK(opened.error().code == ErrorCode::storeDamaged);
      CHECK(opened.error().detail.find(named) != std::string::npos);
    }
  }
}

TEST_CASE("A hostile book that is merged changes nothing in the other", "[case-131]") {
  for (const auto& [sql, named] : hostile) {
    INFO(sql);
    const Scratch folder;
    Clinic clinic(folder / "mine.gkbook", session::BookKind::throwaway);
    clinic.standardVisit(clinic.child("Osei", "Brackwater"));
    const auto before = must(clinic.session.dayRecords(clinic.day)).placements.size();
    Strange book;
    book.run(sql);
    const auto merged = clinic.session.absorb(book.path());
    REQUIRE_FALSE(merged);
    CHECK(merged.error().code == ErrorCode::storeDamaged);
    CHECK(must(clinic.session.dayRecords(clinic.day)).placements.size() == before);
    CHECK(must(clinic.session.findings()).empty());
  }
}

TEST_CASE("A name in a foreign file is shown short and of plain signs", "[case-131]") {
  Strange book;
  book.run("CREATE TABLE \"a\nb" + std::string(300, 'x') + "\" (entry BLOB)");
  const auto opened = book.open(store::Access::readOnly);
  REQUIRE_FALSE(opened);
  CHECK(opened.error().detail.find("a?bxxx") != std::string::npos);
  CHECK(opened.error().detail.size() < book.path().string().size() + 200);
}

TEST_CASE("A book whose file was moved, deleted or replaced takes no more acts and can be saved",
          "[case-132]") {
  enum class Fate { moved, deleted, replaced };
  for (const auto fate : {Fate::moved, Fate::deleted, Fate::replaced}) {
    const Scratch folder;
    const auto path = folder / "day.gkbook";
    Clinic clinic(path, session::BookKind::throwaway);
    const auto child = clinic.child("Mina", "Tolliver-Reed");
    if (fate != Fate::deleted) std::filesystem::rename(path, folder / "elsewhere.gkbook");
    if (fate == Fate::deleted) std::filesystem::remove(path);
    if (fate == Fate::replaced) std::filesystem::copy_file(folder / "elsewhere.gkbook", path);
    const auto refused =
        clinic.session.endVisit(clinic.by, {child, clinic.day, chairside::DayEnd::absent, {}, {}});
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == ErrorCode::storeMoved);
    CHECK(must(clinic.session.dayRecords(clinic.day)).outcomes.empty());
    const auto saved = folder / "saved.gkbook";
    must(clinic.session.backUp(saved));
    base::SeededRandom random(3);
    auto again = must(session::Session::open(saved, clinic.laptop, {clinic.clock, random}));
    CHECK(must(again.child(child)).id == child);
    must(again.endVisit(clinic.by, {child, clinic.day, chairside::DayEnd::absent, {}, {}}));
  }
}

TEST_CASE("A book whose folder was moved too is still copied beside the work, and saved",
          "[case-132]") {
  const Scratch folder;
  const auto room = folder / "room";
  std::filesystem::create_directory(room);
  Clinic clinic(room / "day.gkbook", session::BookKind::throwaway);
  const auto child = clinic.child("Mina", "Tolliver-Reed");
  std::filesystem::rename(room, folder / "elsewhere");
  CHECK_FALSE(clinic.session.isInPlace());
  auto draft = must(clinic.session.snapshot());
  while (!must(draft->copy(64)))
    ;
  auto still = must(draft->finish());
  CHECK(must(still.findings({})).empty());
  const auto saved = folder / "saved.gkbook";
  must(still.backUp(saved, {}));
  CHECK_FALSE(std::filesystem::exists(room));
  base::SeededRandom random(3);
  auto again = must(session::Session::open(saved, clinic.laptop, {clinic.clock, random}));
  CHECK(must(again.child(child)).id == child);
}
