#include "reports/day/close_out_tables.h"
#include "reports/day/close_out_words.h"
#include "reports/sample.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::reports;
using namespace gk::test;

namespace {

LaptopLine laptop(bool backedUp, bool sameDisk = false) {
  LaptopLine line;
  line.last = noonOf("2026-11-17");
  if (backedUp) line.backedUp = noonOf("2026-11-18");
  line.sameDisk = sameDisk;
  return line;
}

} // namespace

TEST_CASE("A day that adds up but is in no backup says both", "[case-123]") {
  SampleDay day;
  auto sheet = day.closeOut();
  REQUIRE(sheet.mayClose());
  sheet.laptops = {laptop(false)};
  CHECK(verdictOf(sheet) == "Everything adds up. Ready to sign. Not backed up yet.");
  sheet.laptops = {laptop(true), laptop(true, true)};
  CHECK(verdictOf(sheet) ==
        "Everything adds up. Ready to sign. Not backed up yet: 1 of 2 laptops.");
  sheet.laptops = {laptop(true)};
  CHECK(verdictOf(sheet) == "Everything adds up. Ready to sign.");
  sheet.closed = true;
  sheet.signedBy = "OF (clinical), IM";
  CHECK(verdictOf(sheet) ==
        "Signed by OF (clinical), IM. Locked: add a late entry, or reopen the day.");
}

TEST_CASE("One thing to fix is one thing", "[case-124]") {
  SampleDay day;
  const auto mina = day.child("Mina", roster::ConsentState::yes);
  day.screen(mina); // seen, and no one said how the day ended
  auto sheet = day.closeOut();
  REQUIRE(sheet.blockers.size() == 1);
  CHECK(verdictOf(sheet).starts_with("Not ready to sign: 1 thing to fix"));
  day.end(mina, chairside::DayEnd::screenedNoneNeeded);
  sheet = day.closeOut();
  CHECK(verdictOf(sheet).starts_with("Everything adds up"));
}

TEST_CASE("Letters that are all there for those seen are not told as \"only\"", "[case-124]") {
  SampleDay day;
  day.end(day.child("Mina", roster::ConsentState::yes), chairside::DayEnd::absent);
  const auto sheet = day.closeOut();
  std::string words;
  for (const auto& one : sheet.exceptions)
    if (one.kind == ExceptionKind::letterMissing) words = one.what;
  CHECK(words == "1 student without the right letter: 0 of 0 students seen and 0 of 1 absent have "
                 "theirs, printed or queued");
}

TEST_CASE("Late entries and what became of the signatures are printed", "[case-120]") {
  SampleDay day;
  const auto mina = day.child("Mina", roster::ConsentState::yes);
  day.end(mina, chairside::DayEnd::absent);
  const auto closure = [&](const char* on) {
    day.make.setTime(noonOf(on));
    return day.make.row<roster::DayClosure>(
        {day.records.id, day.hygienist, day.make.id<base::MemberId>()});
  };
  day.records.signatures = {closure("2026-11-17")};
  day.make.setTime(noonOf("2026-11-18"));
  day.records.reopenings = {day.make.row<roster::Reopening>({day.records.id, "a wrong tooth"})};
  day.records.signatures.push_back(closure("2026-11-19"));
  day.records.closures = {day.records.signatures.back()};
  day.make.setTime(noonOf("2026-11-20"));
  day.records.addenda = {day.make.row<roster::Addendum>({day.records.id, mina, "was ill"})};
  const auto sheet = day.closeOut();
  const auto words = signingWords(sheet);
  REQUIRE(words.size() == 3);
  CHECK(words[0].starts_with("Signed on November 17, 2026 at 12:00 PM by "));
  CHECK(words[1].starts_with("Reopened on November 18, 2026 at 12:00 PM"));
  CHECK(words[1].ends_with(" because: a wrong tooth"));
  CHECK(words[2].starts_with("Signed again on November 19, 2026 at 12:00 PM by "));
  const auto tables = closeOutTables(sheet);
  const auto late = std::ranges::find(tables, "Late entries", &Table::title);
  REQUIRE(late != tables.end());
  REQUIRE(late->rows.size() == 1);
  CHECK(late->rows.front().at(0) == "2026-11-20 12:00");
  CHECK(late->rows.front().at(2) == "was ill");
}
