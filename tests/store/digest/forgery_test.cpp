#include "broken/broken_books.h"
#include "broken/digest_all.h"
#include "roster/program/program.h"
#include "store/records/every_table.h"
#include "support/scratch.h"

#include <algorithm>
#include <catch2/catch.hpp>

namespace gk::test {

using base::ErrorCode;
using store::Access;
using store::Book;
using store::Checkup;
using store::Durability;

namespace {

base::Result<Book> lookAt(const base::Path& path, Checkup checkup = Checkup::whole) {
  return Book::open(path, nobodysLaptop, Access::readOnly, Durability::everyAct, someMorning,
                    checkup);
}

base::Result<base::Done> addSchool(Book& book) {
  return book.act({}, {someMorning, std::chrono::minutes(-300)}, [](store::Act& act) {
    act.add(roster::School{"Cobble Lantern", "CL"});
  });
}

std::string allFaults(const base::Path& path) {
  auto book = lookAt(path, Checkup::skip);
  if (!book) return book.error().detail;
  const auto faults = book->faults().value();
  std::string all;
  for (const auto& fault : faults)
    all += store::sentence(fault) + '\n';
  return all;
}

} // namespace

TEST_CASE("A whole book of every table has no fault") {
  const Scratch folder;
  makeEveryTable(folder / "whole.gkbook");
  CHECK(lookAt(folder / "whole.gkbook"));
  CHECK(allFaults(folder / "whole.gkbook").empty());
}

TEST_CASE("A book that was tampered with is not opened, copied or merged, and check says where",
          "[case-152]") {
  const Scratch folder;
  const auto whole = folder / "whole.gkbook";
  const auto bad = folder / "bad.gkbook";
  makeEveryTable(whole);
  std::filesystem::copy_file(whole, bad);
  runUnguarded(bad, "UPDATE placement SET tooth = 17 WHERE tooth = 11");

  for (const auto access : {Access::readOnly, Access::readWrite}) {
    const auto opened = Book::open(bad, nobodysLaptop, access, Durability::everyAct, someMorning);
    REQUIRE_FALSE(opened);
    CHECK(opened.error().code == ErrorCode::storeDamaged);
    CHECK(opened.error().detail.find("student 1041-0") != std::string::npos);
  }
  {
    auto skipped = Book::open(bad, nobodysLaptop, Access::readOnly, Durability::everyAct,
                              someMorning, store::Checkup::skip);
    REQUIRE(skipped);
    const auto faults = skipped->faults().value();
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].child == "1041-0");
    REQUIRE(faults[0].since);
    CHECK(faults[0].since->date().iso() == "2026-11-17");
    CHECK(faults[0].what.find("not as it was written") != std::string::npos);
    CHECK(faults[0].what.find("placement") != std::string::npos);
    CHECK_FALSE(faults[0].doNow.empty());
    const auto copied = skipped->backUp(folder / "copy.gkbook");
    REQUIRE_FALSE(copied);
    CHECK(copied.error().code == ErrorCode::storeDamaged);
    CHECK_FALSE(std::filesystem::exists(folder / "copy.gkbook"));
  }
  const auto before = contentAt(whole);
  {
    auto mine =
        Book::open(whole, nobodysLaptop, Access::readWrite, Durability::everyAct, someMorning);
    REQUIRE(mine);
    const auto merged = mine->absorb(bad, someMorning);
    REQUIRE_FALSE(merged);
    CHECK(merged.error().code == ErrorCode::storeDamaged);
    CHECK(merged.error().detail.find("bad.gkbook") != std::string::npos);
  }
  CHECK(contentAt(whole) == before);
}

TEST_CASE("A history written again in one book is a fork to the other", "[case-153]") {
  const Scratch folder;
  const auto whole = folder / "whole.gkbook";
  const auto forged = folder / "forged.gkbook";
  makeEveryTable(whole);
  std::filesystem::copy_file(whole, forged);
  // What comes after the last signature; what is before it is held by it.
  runUnguarded(forged, "UPDATE school SET name = 'Another' WHERE code = 'AFTER'");
  {
    // Every digest from the changed act on is computed again: the file by itself looks whole.
    store::Connection book(forged, Access::readWrite, Durability::bulk);
    digestAll(book);
  }
  REQUIRE(looksWhole(forged));
  auto mine =
      Book::open(whole, nobodysLaptop, Access::readWrite, Durability::everyAct, someMorning);
  REQUIRE(mine);
  const auto merged = mine->absorb(forged, someMorning);
  REQUIRE_FALSE(merged);
  CHECK(merged.error().detail.find("an entry that both logbooks have differs between them") !=
        std::string::npos);
}

TEST_CASE("CHECKs are looked at on a file that is open for reading alone", "[case-155]") {
  const Scratch folder;
  const auto path = folder / "whole.gkbook";
  makeEveryTable(path);
  runUnguarded(path, "UPDATE enrolment SET pupils = -1");
  auto book = Book::open(path, nobodysLaptop, Access::readOnly, Durability::everyAct, someMorning,
                         store::Checkup::skip);
  REQUIRE(book);
  const auto faults = book->faults().value();
  CHECK(std::ranges::any_of(faults, [](const store::Fault& fault) {
    return fault.what.find("CHECK constraint failed in enrolment") != std::string::npos;
  }));
}

TEST_CASE("A book without key, program, kinds or numbers in a row is not whole", "[case-156]") {
  for (const auto& [sql, said] : std::to_array<std::pair<const char*, const char*>>({
           {"DELETE FROM book", "key of the names is missing"},
           {"UPDATE book SET salt = x'0103'", "key of the names"},
           {"DELETE FROM program; DELETE FROM entry WHERE kind = (SELECT number FROM entry_kind "
            "WHERE "
            "name = 'program')",
            "program is missing"},
           {"DELETE FROM entry_kind WHERE name = 'wet'", "list of kinds"},
           {"DELETE FROM wet", "wet row of an entry is missing"},
           {"DELETE FROM entry WHERE id IN (SELECT entry FROM wet)", "belongs to no entry"},
           {"DELETE FROM hand WHERE number = 2", "belongs to no act of its laptop"},
           {"UPDATE hand SET number = 9 WHERE number = 1; UPDATE hand SET number = 1 WHERE number "
            "= "
            "2; UPDATE hand SET number = 2 WHERE number = 9",
            "not as it was written"},
           {"INSERT INTO hand VALUES (7, zeroblob(16))", "a laptop that wrote nothing"},
           {"DELETE FROM act WHERE first = (SELECT max(first) FROM act)", "has no digest"},
           {"DELETE FROM entry WHERE id IN (SELECT entry FROM wet); DELETE FROM wet; DELETE FROM "
            "wet_tooth",
            "or one of its act is missing"},
           {"DELETE FROM entry WHERE id = (SELECT first FROM act WHERE sequence = 4 LIMIT 1)",
            "belongs to no act"},
           {"UPDATE act SET sequence = sequence + 1000 WHERE sequence > 3",
            "an entry before this one is missing"},
       })) {
    INFO(sql);
    const Scratch folder;
    const auto path = folder / "hollow.gkbook";
    makeEveryTable(path);
    runUnguarded(path, sql);
    CHECK_FALSE(
        Book::open(path, nobodysLaptop, Access::readOnly, Durability::everyAct, someMorning));
    auto book = Book::open(path, nobodysLaptop, Access::readOnly, Durability::everyAct, someMorning,
                           store::Checkup::skip);
    std::string all;
    if (book) {
      const auto faults = book->faults();
      REQUIRE(faults);
      for (const auto& fault : *faults)
        all += store::sentence(fault) + '\n';
    } else {
      all = book.error().detail;
    }
    INFO(all);
    CHECK(all.find(said) != std::string::npos);
  }
}

TEST_CASE("A column that comes later changes no digest of earlier acts", "[case-157]") {
  const Scratch folder;
  makeEveryTable(folder / "whole.gkbook");
  auto steps = store::migrations();
  steps.push_back({static_cast<int>(steps.size()) + 1, "later",
                   "ALTER TABLE wet ADD COLUMN seen TEXT NOT NULL DEFAULT 'not said';"
                   "ALTER TABLE act ADD COLUMN room TEXT NOT NULL DEFAULT '';"
                   "ALTER TABLE entry ADD COLUMN place INTEGER;"});
  auto book = store::openBook(folder / "whole.gkbook", Access::readWrite, Durability::bulk,
                              someMorning, Checkup::whole, steps);
  REQUIRE(book);
  const auto own = store::ownTables(*book);
  CHECK(store::historyFaults(*book, "main", own).empty());
  book->execute("DROP TRIGGER wet_no_update; UPDATE wet SET seen = 'yes'");
  CHECK(store::historyFaults(*book, "main", own).size() == 2); // one act of each laptop
}

TEST_CASE("Nothing is taken out but what a listed erasure names", "[case-247]") {
  const Scratch folder;
  const auto path = folder / "whole.gkbook";
  makeEveryTable(path);
  REQUIRE(looksWhole(path));
  {
    store::Connection book(path, Access::readWrite, Durability::bulk);
    const auto refuses = [&](const std::string& sql) {
      INFO(sql);
      CHECK_FALSE(store::guarded([&] { book.execute(sql); }));
    };
    const std::string someChild = "(SELECT child FROM varnish ORDER BY entry LIMIT 1)";
    const std::string someEntry = "(SELECT entry FROM varnish ORDER BY entry LIMIT 1)";
    refuses("DELETE FROM varnish");
    refuses("DELETE FROM child_salt");
    refuses("DELETE FROM erased_entry");
    refuses("INSERT INTO erased_entry VALUES (" + someEntry + ", " + someChild + ", zeroblob(32))");
    refuses("UPDATE entry SET reason = 'erased' WHERE reason IS NOT NULL AND reason <> 'erased'");
    refuses("UPDATE entry SET kind = kind + 1 WHERE id IN (SELECT id FROM erased_entry)");
    refuses("UPDATE entry SET reason = 'x' WHERE id IN (SELECT id FROM erased_entry)");
    refuses("DELETE FROM entry WHERE id IN (SELECT id FROM erased_entry)");
  }
  const auto isNamed = [&](const std::string& sql) {
    const auto bad = base::freeName(folder / "bad.gkbook");
    std::filesystem::copy_file(path, bad);
    runUnguarded(bad, sql);
    return !looksWhole(bad);
  };
  const std::string some = "(SELECT entry FROM varnish ORDER BY entry LIMIT 1)";
  const std::string pretend = "INSERT INTO erased_entry SELECT entry, ";
  CHECK(isNamed("DELETE FROM varnish WHERE entry = " + some));
  // Under the name of another erasure, or of none.
  CHECK(isNamed(pretend +
                "(SELECT whom FROM erasure LIMIT 1), zeroblob(32) FROM varnish WHERE "
                "entry = " +
                some + "; DELETE FROM varnish WHERE entry = " + some));
  CHECK(isNamed(pretend + "child, zeroblob(32) FROM varnish WHERE entry = " + some +
                "; DELETE FROM varnish WHERE entry = " + some));
  // What was erased is brought back, or its words are.
  CHECK(isNamed("INSERT INTO medical_flag SELECT (SELECT id FROM erased_entry AS x WHERE EXISTS "
                "(SELECT 1 FROM entry WHERE id = x.id AND kind = (SELECT number FROM entry_kind "
                "WHERE name = 'medical_flag')) LIMIT 1), child, "
                "flag, action, detail, resolved, decided FROM medical_flag LIMIT 1"));
  CHECK(isNamed("UPDATE entry SET reason = 'her words' WHERE reason = 'erased'"));
  CHECK(isNamed("INSERT INTO child_salt SELECT whom, zeroblob(16) FROM erasure LIMIT 1"));
}

// The bytes of docs/formats.md, Digests, put together and hashed by Python 3.11:
// hashlib.blake2b(bytes, digest_size=32).hexdigest().
TEST_CASE("The digest of an act is BLAKE2b-256 over the bytes that the formats page lays out",
          "[case-150]") {
  store::Connection book(":memory:", Access::readWrite, Durability::bulk);
  // 2026-11-17 14:00 UTC, the fourth of its millisecond, by hand 5.
  auto row = book.prepare("SELECT 7, '', x'0102', 'ä', 455264855654406149");
  REQUIRE(row.step());
  auto silence = book.prepare("SELECT ''");
  REQUIRE(silence.step());
  store::OwnTable jar;
  jar.name = "jar";
  jar.columns = {{"a"}, {"b", store::Cell(silence.cell(0))}, {"c"}, {"d"}, {"e", {}, true}};
  const auto uuidOf = [](std::uint8_t byte) {
    base::Uuid uuid;
    uuid.bytes.fill(byte);
    return uuid;
  };
  crypto::Hash previous;
  previous.fill(3);
  store::Hands hands;
  hands.add(5, base::LaptopId(uuidOf(2)));
  store::ActDigest digest({uuidOf(1), base::LaptopId(uuidOf(2))}, previous, hands);
  store::OwnSchema own;
  own.entry = jar;
  const store::RowBytes nothing(hands);
  digest.addEntry(own, row, nothing, {});
  const auto hexOf = [](const crypto::Hash& hash) {
    std::string hex;
    for (const auto byte : hash) {
      hex += "0123456789abcdef"[byte >> 4U];
      hex += "0123456789abcdef"[byte & 15U];
    }
    return hex;
  };
  CHECK(hexOf(digest.finish()) ==
        "7e6f7d9142a122754a9ca87f13ed740c69d1ebba152b6e680dab83b105480daf");

  // The same of what is a child's: its content is one salted hash, and that alone is needed.
  constexpr std::int64_t child = 455264855654406149;
  auto owned = book.prepare("SELECT 7, 'why'");
  REQUIRE(owned.step());
  own.entry.columns = {{"a"}, {"reason"}};
  own.reasonColumn = 1;
  auto kept = book.prepare("SELECT 9");
  REQUIRE(kept.step());
  store::OwnTable lid;
  lid.name = "lid";
  lid.columns = {{"a"}};
  store::RowBytes records(hands);
  records.add(lid, kept);
  const store::Salt salt(16, 8);
  const auto content = store::contentHash(own, owned, records, salt);
  CHECK(hexOf(content) == "2708c84be33ba5f8999cde6f9aa392240d84fac2f11bfd7b5c08b21754aef99d");
  const auto whole = "ff757b81f87433e269582e7273ee780e7f73596cc751cf10f507db0fa6e0945e";
  const store::Hand hand{uuidOf(1), base::LaptopId(uuidOf(2))};
  store::ActDigest there(hand, previous, hands);
  there.addEntry(own, owned, records, store::Owner{child, salt, {}});
  CHECK(hexOf(there.finish()) == whole);
  auto erased = book.prepare("SELECT 7, 'erased'");
  REQUIRE(erased.step());
  store::ActDigest gone(hand, previous, hands);
  gone.addEntry(own, erased, nothing, store::Owner{child, {}, content});
  CHECK(hexOf(gone.finish()) == whole);
}

TEST_CASE("A newest act that was changed is seen before a book opens, an old one before it is "
          "written to",
          "[case-158]") {
  const Scratch folder;
  base::SeededRandom random(3);
  const base::LaptopId laptop(base::makeUuid7(someMorning, random));
  const auto path = folder / "long.gkbook";
  {
    auto book = Book::create(path, laptop, Durability::bulk, someMorning,
                             {std::vector<std::uint8_t>(16, 1), 3, 65536,
                              std::vector<std::uint8_t>(24, 2), std::vector<std::uint8_t>(48, 3)},
                             random);
    REQUIRE(book);
    for (int i = 0; i < 300; ++i)
      REQUIRE(addSchool(*book));
    REQUIRE(book->finish());
  }
  const auto open = [&] {
    return Book::open(path, laptop, Access::readWrite, Durability::bulk, someMorning,
                      Checkup::meanwhile);
  };
  {
    auto book = open();
    REQUIRE(book);
    REQUIRE(addSchool(*book)); // goes on from the digest that the file has
  }
  CHECK(looksWhole(path));
  SECTION("the newest") {
    runUnguarded(path,
                 "UPDATE school SET code = 'XX' WHERE entry = (SELECT max(entry) FROM school)");
    const auto book = open();
    REQUIRE_FALSE(book);
    CHECK(book.error().code == ErrorCode::storeDamaged);
    CHECK(book.error().detail.find("an act (school) is not as it was written") !=
          std::string::npos);
  }
  SECTION("the first") {
    runUnguarded(path,
                 "UPDATE school SET code = 'XX' WHERE entry = (SELECT min(entry) FROM school)");
    auto book = open();
    REQUIRE(book);
    const auto written = addSchool(*book);
    REQUIRE_FALSE(written);
    CHECK(written.error().code == ErrorCode::storeDamaged);
    CHECK(written.error().detail.find("an act (school) is not as it was written") !=
          std::string::npos);
  }
}

TEST_CASE("Acts that come by merge bring their digests, and each laptop goes on from its own",
          "[case-159]") {
  const Scratch folder;
  base::SeededRandom random(3);
  const base::LaptopId one(base::makeUuid7(someMorning, random));
  const base::LaptopId two(base::makeUuid7(someMorning, random));
  const auto open = [&](const char* name, base::LaptopId laptop) {
    auto book = Book::open(folder / name, laptop, Access::readWrite, Durability::bulk, someMorning);
    if (!book) FAIL(book.error().detail);
    return std::move(*book);
  };
  makeEveryTable(folder / "one.gkbook");
  std::filesystem::copy_file(folder / "one.gkbook", folder / "two.gkbook");
  std::filesystem::copy_file(folder / "one.gkbook", folder / "old.gkbook");
  {
    auto mine = open("one.gkbook", one);
    auto theirs = open("two.gkbook", two);
    for (int i = 0; i < 3; ++i) {
      REQUIRE(addSchool(mine));
      REQUIRE(addSchool(theirs));
    }
  }
  {
    auto mine = open("one.gkbook", one);
    const auto merged = mine.absorb(folder / "two.gkbook", someMorning);
    REQUIRE(merged);
    CHECK(merged->newEntries == 3);
    REQUIRE(addSchool(mine));
  }
  {
    // An older copy that gets its own laptop's acts back by merge goes on after them.
    auto restored = open("old.gkbook", one);
    REQUIRE(restored.absorb(folder / "one.gkbook", someMorning));
    REQUIRE(addSchool(restored));
    CHECK(restored.lastSequence() == 5);
  }
  for (const char* name : {"one.gkbook", "two.gkbook", "old.gkbook"})
    CHECK(allFaults(folder / name).empty());
}

} // namespace gk::test
