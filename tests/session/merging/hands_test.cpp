#include "session/book/book_facts.h"
#include "session/computers.h"
#include "session/merging/merge_orders.h"
#include "support/long_checks.h"

using namespace gk;
using test::allOrdersAgree;
using test::Computer;
using test::contentNow;
using test::County;
using test::must;

TEST_CASE("A restored backup goes on under a new hand, and takes in what it lost", "[case-240]") {
  County county(2);
  auto& here = county.at(0);
  county.note(here, county.children[0]);
  const auto backup = here.copyTo(county.fresh("backup"));
  here.close();
  county.note(here, county.children[1]);
  const auto carried = here.copyTo(county.fresh("carried"));
  auto& there = county.at(1);
  must(there.use().absorb(carried));
  here.restore(backup);
  CHECK(here.use().copyNotice().find("This logbook is an earlier copy. What this laptop recorded "
                                     "after Nov 17, 2026, ") != std::string::npos);
  county.note(here, county.children[2]);
  const auto mine = here.copyTo(county.fresh("mine"));
  CHECK(must(there.use().absorb(mine)).newEntries == 1);
  CHECK(must(here.use().absorb(there.copyTo(county.fresh("theirs")))).newEntries == 1);
  CHECK(contentNow(here.use(), here.folder) == contentNow(there.use(), there.folder));
  here.close();
  CHECK(here.use().copyNotice().empty());
}

TEST_CASE("A logbook that was restored by the program, or copied over by hand, is gone on with "
          "under a new hand",
          "[case-240]") {
  County county(1);
  auto& laptop = county.at(0);
  county.note(laptop, county.children[0]);
  const auto backup = laptop.copyTo(county.fresh("backup"));
  county.note(laptop, county.children[1]);
  const auto before = laptop.copyTo(county.fresh("before"));
  const bool byHand = GENERATE(false, true);
  CAPTURE(byHand);
  laptop.close();
  if (byHand)
    laptop.restore(backup);
  else
    must(session::restoreBackup(backup, laptop.book(), {laptop.clock, laptop.random}, {}));
  county.note(laptop, county.children[2]);
  CHECK(must(laptop.use().absorb(before)).newEntries == 1); // the same act under no other number
  CHECK(must(laptop.use().flags(county.children[1])).size() == 1);
  CHECK(must(laptop.use().findings()).empty());
}

namespace {

/// A laptop and the image of its disk, which kept the machine's identity: both go on under one
/// hand.
struct TwinDisks {
  County county{1};
  Computer& laptop = county.at(0);
  Computer twin{*county.clinic.folder / "twin", laptop.clock.now(), 300};

  TwinDisks() {
    county.note(laptop, county.children[0]);
    laptop.cloneTo(twin);
    twin.machine = laptop.machine;
    laptop.clock.advance(std::chrono::minutes(7));
    twin.clock.advance(std::chrono::minutes(3));
  }
  std::string number(std::size_t child) {
    return must(county.clinic.session.child(county.children[child])).value.number;
  }
  roster::ChildId enroll(Computer& on, const std::string& number, const std::string& name) {
    auto card = must(on.use().child(county.children[0])).value;
    card.number = roster::withCheckDigit(number);
    return must(on.use().enrollChild(
        county.clinic.by, card,
        {.first = name, .last = "Tidewater", .birth = *base::Date::parse("2018-03-04")}));
  }
};

} // namespace

TEST_CASE("Two copies of a disk that no one can tell apart: the merge shows both lines and changes "
          "neither until someone says that they are copies",
          "[case-243]") {
  TwinDisks disks;
  auto& [county, laptop, twin] = disks;
  county.note(laptop, county.children[1]);
  county.note(laptop, county.children[2]);
  county.note(twin, county.children[0]);
  const auto mine = laptop.copyTo(county.fresh("mine"));
  const auto theirs = twin.copyTo(county.fresh("theirs"));
  const auto before = test::contentIn(mine);
  const auto refused = [](Computer& on, const base::Path& other) {
    const auto merged = on.use().absorb(other);
    REQUIRE_FALSE(merged);
    CHECK(merged.error().code == base::ErrorCode::storeForked);
    return merged.error().detail;
  };
  const auto said = refused(laptop, theirs);
  CHECK(said.find("in this logbook 2 entries since " + laptop.clock.now().words() + ", students " +
                  disks.number(1) + ", " + disks.number(2)) != std::string::npos);
  CHECK(said.find("in the other one 1 entry since ") != std::string::npos);
  CHECK(said.find("student " + disks.number(0)) != std::string::npos);
  CHECK(said.find("Nothing is lost: both logbooks are whole") != std::string::npos);
  CHECK(said.find("merge again and say so") != std::string::npos);
  CHECK(refused(twin, mine).find("in the other one 2 entries since ") != std::string::npos);
  CHECK(contentNow(laptop.use(), laptop.folder) == before);
}

TEST_CASE("Two copies whose first differing acts were made in the same millisecond are copies, not "
          "damage",
          "[case-243]") {
  TwinDisks disks;
  auto& [county, laptop, twin] = disks;
  twin.clock.advance(std::chrono::minutes(4)); // to the other's moment
  REQUIRE(laptop.clock.now().at == twin.clock.now().at);
  county.note(laptop, county.children[1]);
  disks.enroll(twin, "2002", "Oddny");
  const auto merged = laptop.use().absorb(twin.copyTo(county.fresh("theirs")));
  REQUIRE_FALSE(merged);
  CHECK(merged.error().code == base::ErrorCode::storeForked);
  must(laptop.use().absorb(twin.copyTo(county.fresh("theirs")), {.copies = true}));
  CHECK(must(laptop.use().findings()).empty());
  CHECK(must(laptop.use().findChildren("Oddny")).size() == 1);
}

TEST_CASE("Copies that are joined lose nothing, double nothing and say the same, and need not be "
          "joined again",
          "[case-243]") {
  TwinDisks disks;
  auto& [county, laptop, twin] = disks;
  const auto wren = disks.enroll(laptop, "2001", "Wrenna");
  const auto odd = disks.enroll(twin, "2002", "Oddny");
  county.note(laptop, wren);
  county.note(twin, odd);
  const auto mine = laptop.copyTo(county.fresh("mine"));
  const auto theirs = twin.copyTo(county.fresh("theirs"));
  CHECK(must(laptop.use().absorb(theirs, {.copies = true})).lines == 2);
  must(twin.use().absorb(mine, {.copies = true}));
  // Whoever had the logbook open goes on with what was on the screen.
  CHECK(must(laptop.use().identity(wren)).first == "Wrenna");
  county.note(laptop, wren);
  county.note(twin, odd);
  // Asked about once: what each records from here on comes over by itself.
  must(laptop.use().absorb(twin.copyTo(county.fresh("theirs"))));
  must(twin.use().absorb(laptop.copyTo(county.fresh("mine"))));
  CHECK(contentNow(laptop.use(), laptop.folder) == contentNow(twin.use(), twin.folder));
  for (auto* const computer : {&laptop, &twin}) {
    computer->close();
    auto& book = computer->use();
    CHECK(must(book.findings()).empty());
    CHECK(book.copyNotice().find("Nothing is lost") != std::string::npos);
    CHECK(must(book.copiedLines()).size() == 2);
    // Names that were sealed in either are open in both.
    for (const auto* const name : {"Wrenna", "Oddny"}) {
      const auto found = must(book.findChildren(name));
      REQUIRE(found.size() == 1);
      CHECK(must(book.identity(found.front().child)).first == name);
      CHECK(must(book.flags(found.front().child)).size() == 2);
    }
  }
  // From now on each has a hand of its own.
  county.note(laptop, county.children[1]);
  county.note(twin, county.children[1]);
  must(laptop.use().absorb(twin.copyTo(county.fresh("theirs"))));
  CHECK(must(laptop.use().findings()).empty());
  // A backup from before, and a third copy of the disk, still fit in.
  must(laptop.use().absorb(mine));
  must(laptop.use().absorb(theirs));
}

TEST_CASE("Every pair of restored, cloned, stale and plain logbooks merges in both directions",
          "[case-244]") {
  enum class Kind { restored, cloned, forked, stale, plain, ahead };
  const auto make = [](County& county, Kind kind, std::size_t at,
                       std::vector<base::Path>& carried) {
    auto& laptop = county.at(at);
    county.note(laptop, county.children[0]);
    const auto early = laptop.copyTo(county.fresh("early"));
    county.note(laptop, county.children[1]);
    const auto late = laptop.copyTo(county.fresh("late"));
    if (kind == Kind::stale) return early;
    if (kind == Kind::ahead) return late;
    if (kind == Kind::restored) laptop.restore(early);
    if (kind == Kind::cloned || kind == Kind::forked) {
      Computer image(*county.clinic.folder / ("image" + std::to_string(at)), laptop.clock.now(),
                     200 + at);
      laptop.cloneTo(image);
      if (kind == Kind::forked) image.machine = laptop.machine;
      image.clock.advance(std::chrono::minutes(2));
      county.note(image, county.children[2]);
      const auto ofImage = image.copyTo(county.fresh("image"));
      county.note(laptop, county.children[2]); // both go on
      if (kind == Kind::forked) {              // they meet only where all do
        county.note(laptop, county.children[0]);
        carried.push_back(ofImage);
      } else {
        must(laptop.use().absorb(ofImage));
      }
    }
    county.note(laptop, county.children[2]);
    return laptop.copyTo(county.fresh("book"));
  };
  constexpr std::array kinds{Kind::restored, Kind::cloned, Kind::forked,
                             Kind::stale,    Kind::plain,  Kind::ahead};
  std::uint64_t pairs = 0;
  for (const auto one : kinds)
    for (const auto two : kinds) {
      if (two < one && !test::isLong()) continue; // the same pair the other way round
      if (pairs++ % test::oneOf(1) != 0) continue;
      County county(2);
      INFO(static_cast<int>(one) << " with " << static_cast<int>(two));
      std::vector<base::Path> files;
      for (const auto& [kind, at] : {std::pair(one, 0U), std::pair(two, 1U)}) {
        const auto book = make(county, kind, at, files);
        files.push_back(book);
      }
      if (files.size() < 4) files.push_back(county.at(0).copyTo(county.fresh("again")));
      allOrdersAgree(county, files, test::isLong() ? 24 : files.size());
    }
}
