#include "reports/day/close_out_tables.h"
#include "reports/print/render.h"
#include "reports/sample.h"
#include "support/samples/letter_samples.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace gk;
using namespace gk::reports;
using chairside::DayEnd;
using followup::Channel;
using followup::ContactResult;
using followup::LetterState;
using gk::roster::ConsentState;

namespace {

/// Nell was noted as absent, and her letter was written.
struct NellsDay : test::SampleDay {
  roster::ChildId nell = child("Nell Farrowgate", ConsentState::yes);

  explicit NellsDay(LetterState state) {
    end(nell, DayEnd::absent);
    const auto letters = due();
    REQUIRE(letters.size() == 1);
    write(letters.front(), state);
  }
  [[nodiscard]] std::vector<DayLetter> due() const {
    const LetterCards cards{{nell, {"Nell Farrowgate", "Nell", "6", {{0, "Tess", "English"}}}}};
    auto all = dayLetters(records, cards, test::shippedLetters());
    std::erase_if(all, [](const auto& one) { return !one.isDue(); });
    return all;
  }
  void write(const DayLetter& letter, LetterState state) {
    followup::Letter record{.child = nell,
                            .day = records.id,
                            .language = "English",
                            .variant = letter.facts.variant,
                            .facts = toLines(letter.facts),
                            .templateDigest = std::string(64, '0'),
                            .textDigest = std::string(64, '0'),
                            .written = test::date("2026-11-17"),
                            .state = state};
    if (letter.replaces) record.replaces = letter.written->id;
    records.letters.push_back(make.row(std::move(record)));
  }
  /// The outcome is corrected: a later word on the same thing.
  void correct(DayEnd right) {
    auto row = make.named(records.outcomes.back().id, records.outcomes.back().value);
    row.value.end = right;
    records.outcomes.back() = row;
  }
  void log(Channel channel, ContactResult result) {
    records.contacts.push_back(
        make.row<followup::ContactAttempt>({nell, records.id, channel, result, ""}));
  }
  [[nodiscard]] LetterLine line() const {
    const auto sheet = closeOut();
    REQUIRE(sheet.letters.size() == 1);
    return sheet.letters.front();
  }
  [[nodiscard]] bool isException() const {
    const auto sheet = closeOut();
    return std::ranges::any_of(sheet.exceptions, [](const auto& one) {
      return one.kind == ExceptionKind::letterInError && one.shown == "Nell Farrowgate";
    });
  }
};

} // namespace

TEST_CASE("a letter handed over in error stays on the list until the guardian was told",
          "[case-72]") {
  NellsDay day(LetterState::handed);
  CHECK(day.line().toDo().empty());
  day.correct(DayEnd::declined); // for whom no letter is due
  CHECK(day.line().stand == LetterStand::handedInError);
  CHECK(day.line().toDo() == "given out by mistake: tell the guardian");
  CHECK(day.line().handed == 1);
  CHECK(day.isException());
  CHECK(day.due().empty());
  CHECK(day.closeOut().mayClose());
  CHECK(toText(closeOutTables(day.closeOut())).find("by mistake: tell the guardian") !=
        std::string::npos);

  SECTION("a try, or the nurse, tells no guardian") {
    day.log(Channel::phone, ContactResult::noAnswer);
    day.log(Channel::nurse, ContactResult::reached);
    CHECK(day.isException());
  }
  SECTION("a guardian who was reached settles it") {
    day.log(Channel::phone, ContactResult::reached);
    CHECK(day.line().stand == LetterStand::told);
    CHECK_FALSE(day.isException());
  }
  SECTION("the letter that came back settles it") {
    const auto inError = lettersInError(day.records);
    REQUIRE(inError.size() == 1);
    day.records.letters.back().value.state = LetterState::returned;
    CHECK(day.line().stand == LetterStand::returned);
    CHECK_FALSE(day.isException());
    CHECK(lettersInError(day.records).empty());
  }
  SECTION("a call from before the correction was about something else") {
    day.log(Channel::phone, ContactResult::reached);
    day.correct(DayEnd::leftSchool);
    CHECK(day.isException());
  }
  SECTION("a child with no record of the day left is not forgotten") {
    day.records.outcomes.clear();
    CHECK(day.line().stand == LetterStand::handedInError);
  }
}

TEST_CASE("an absent child's letter is replaced when the child turns out to have been seen",
          "[case-72]") {
  NellsDay day(LetterState::handed);
  day.screen(day.nell);
  day.correct(DayEnd::screenedNoneNeeded);
  CHECK(day.line().stand == LetterStand::toReplace);
  CHECK(day.line().toDo().starts_with(
      "print and hand out the one that replaces the letter of November 17, 2026: "));
  CHECK_FALSE(day.isException());
  const auto due = day.due();
  REQUIRE(due.size() == 1);
  CHECK(due.front().replaces == test::date("2026-11-17"));
  day.write(due.front(), LetterState::printed);
  CHECK(day.line().stand == LetterStand::printed);
}

TEST_CASE("a letter printed in error is kept back") {
  NellsDay day(LetterState::printed);
  day.correct(DayEnd::declined);
  CHECK(day.line().stand == LetterStand::keepBack);
  CHECK(day.line().toDo() == "printed by mistake: do not hand it out");
  CHECK(day.isException());
}

TEST_CASE("letters of children seen and of absent ones are counted apart") {
  NellsDay day(LetterState::printed);
  const auto bo = day.child("Bo", ConsentState::yes);
  day.screen(bo);
  day.end(bo, DayEnd::screenedNoneNeeded);
  day.end(day.child("Cy", ConsentState::yes), DayEnd::absent);
  day.end(day.child("Di", ConsentState::yes), DayEnd::notReached); // gets none
  const auto sums = letterSums(day.closeOut().letters);
  CHECK(sums.words() == "0 of 1 student seen and 1 of 2 absent");
  CHECK(sums.missing() == 2);
}
