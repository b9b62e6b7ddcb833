#include "reports/calls/urgent_form.h"
#include "reports/day/close_out_tables.h"
#include "reports/letters/letters_due.h"
#include "reports/print/render.h"
#include "reports/records/day_view.h"
#include "reports/sample.h"
#include "support/samples/letter_samples.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace gk;
using namespace gk::chairside;
using namespace gk::reports;
using followup::LetterState;
using followup::LetterVariant;
using gk::roster::ConsentState;
using gk::test::SampleDay;

namespace {

roster::ChildId childSealed(SampleDay& day, const std::string& name,
                            const std::string& room = "6") {
  const auto child = day.child(name, ConsentState::yes, room);
  day.screen(child, {test::toSeal(16)});
  day.place(child, 16);
  day.end(child, DayEnd::sealedComplete);
  return child;
}

LetterFacts factsOf(const SampleDay& day, roster::ChildId child) {
  const DayView view(day.records, day.names);
  const auto facts = letterFacts(view, child);
  REQUIRE(facts);
  return *facts;
}

LetterCard card(const std::string& name, std::vector<LetterReader> readers) {
  return {name, name, "6", std::move(readers)};
}

/// As it is written down when printed.
void print(SampleDay& day, const DayLetter& letter, const std::string& language,
           LetterState state = LetterState::printed) {
  followup::Letter record{.child = letter.child,
                          .day = day.records.id,
                          .guardian = letter.reader.guardian,
                          .language = language,
                          .interpreter = !letter.ownLanguage,
                          .variant = letter.facts.variant,
                          .facts = toLines(letter.facts),
                          .templateDigest = std::string(64, '0'),
                          .textDigest = std::string(64, '0'),
                          .written = test::date("2026-11-17"),
                          .state = state};
  if (letter.replaces) record.replaces = letter.written->id;
  day.records.letters.push_back(day.make.row(std::move(record)));
}

const LetterLine& lineOf(const CloseOut& sheet, roster::ChildId child) {
  const auto at = std::ranges::find(sheet.letters, child, &LetterLine::child);
  REQUIRE(at != sheet.letters.end());
  return *at;
}

bool isException(const CloseOut& sheet) {
  return std::ranges::any_of(
      sheet.exceptions, [](const auto& one) { return one.kind == ExceptionKind::letterMissing; });
}

} // namespace

TEST_CASE("each kind of day has its own kind of letter") {
  SampleDay day;
  const auto sealed = childSealed(day, "Mina");
  CHECK(factsOf(day, sealed).variant == LetterVariant::sealed);

  const auto fine = day.child("Bo", ConsentState::yes);
  day.screen(fine);
  day.end(fine, DayEnd::screenedNoneNeeded);
  CHECK(factsOf(day, fine).variant == LetterVariant::allFine);

  const auto early = day.child("Lupe", ConsentState::yes);
  auto& screening = day.screen(early, {test::found(46, Condition::cavitated)});
  screening.untreatedDecay = Tri::yes;
  screening.urgency = Urgency::early;
  const auto facts = factsOf(day, early);
  CHECK(facts.variant == LetterVariant::referralEarly);
  CHECK(facts.mayHaveDecay == std::vector{dentition::toothAt(46)});
  REQUIRE(facts.dentistBy);
  CHECK(facts.dentistBy->iso() == "2026-12-29"); // six weeks: Seal America, step 9

  const auto absent = day.child("Nell", ConsentState::yes);
  day.end(absent, DayEnd::absent);
  CHECK(factsOf(day, absent).variant == LetterVariant::absent);

  const auto declined = day.child("Cy", ConsentState::yes);
  day.end(declined, DayEnd::declined);
  CHECK_FALSE(letterFacts(DayView(day.records, day.names), declined));
}

TEST_CASE("teeth that a child did not let finish are told as unfinished and the done as done",
          "[case-42][case-43]") {
  SampleDay day;
  const auto child = day.child("Teodor", ConsentState::yes);
  day.screen(child, {test::toSeal(16), test::toSeal(26), test::toSeal(36)});
  day.place(child, 16);
  day.place(child, 26, Attempt::stoppedBeforeSealant);
  day.end(child, DayEnd::sealedUnfinished, "child declined");
  const auto facts = factsOf(day, child);
  CHECK(facts.variant == LetterVariant::sealedUnfinished);
  CHECK(facts.sealed == std::vector{dentition::toothAt(16)});
  CHECK(facts.unfinished == std::vector{dentition::toothAt(26), dentition::toothAt(36)});
}

TEST_CASE("consent withdrawn in the middle keeps what was done in the letter", "[case-2]") {
  SampleDay day;
  const auto child = day.child("Jory", ConsentState::withdrawn);
  day.screen(child, {test::toSeal(16), test::toSeal(26)});
  day.place(child, 16);
  day.end(child, DayEnd::withdrawn);
  const auto facts = factsOf(day, child);
  CHECK(facts.variant == LetterVariant::stopped);
  CHECK(facts.sealed.size() == 1);
  CHECK(facts.unfinished.size() == 1);
}

TEST_CASE("a sealant that a check cannot judge is not told as lost or kept", "[case-58][case-60]") {
  SampleDay day;
  const auto child = day.child("Wren", ConsentState::yes);
  const auto check = [&](followup::Held held, followup::CannotAssess why) {
    day.records.checks.push_back(
        day.make.row<followup::RetentionCheck>({.placement = day.make.id<PlacementId>(),
                                                .child = child,
                                                .day = day.records.id,
                                                .kind = followup::CheckKind::longTerm,
                                                .occlusal = held,
                                                .why = why,
                                                .note = {}}));
  };
  check(followup::Held::whole, followup::CannotAssess::none);
  check(followup::Held::cannotAssess, followup::CannotAssess::crowned);
  day.end(child, DayEnd::recheckOnly);
  const auto facts = factsOf(day, child);
  CHECK(facts.variant == LetterVariant::recheckWhole);
  CHECK(facts.kept == 1);
  auto& placed = day.place(child, 26);
  placed.type = PlacementType::reseal;
  CHECK(factsOf(day, child).variant == LetterVariant::recheckRepaired);
  CHECK(factsOf(day, child).resealed.size() == 1);
}

TEST_CASE("a check at another school than the placing one has a letter all the same", "[case-57]") {
  SampleDay day;
  const auto child = day.child("Wren", ConsentState::yes);
  day.records.children.back().value.school = day.make.id<roster::SchoolId>();
  day.records.checks.push_back(
      day.make.row<followup::RetentionCheck>({.placement = day.make.id<PlacementId>(),
                                              .child = child,
                                              .day = day.records.id,
                                              .kind = followup::CheckKind::longTerm,
                                              .occlusal = followup::Held::whole,
                                              .note = {}}));
  day.end(child, DayEnd::recheckOnly);
  CHECK(factsOf(day, child).variant == LetterVariant::recheckWhole);
}

TEST_CASE("a day owes one letter for each child seen or absent and says so without holding up the "
          "signing") {
  SampleDay day;
  const auto mina = childSealed(day, "Mina");
  childSealed(day, "Bo");
  day.end(day.child("Nell", ConsentState::yes), DayEnd::absent);
  auto sheet = day.closeOut();
  CHECK(sheet.counts.children == 2);
  CHECK(sheet.counts.letters == 0);
  CHECK(sheet.letters.size() == 3);
  CHECK(isException(sheet));
  CHECK(sheet.mayClose());

  const auto letters = dayLetters(day.records, {{mina, card("Mina", {{0, "Tess", "English"}})}},
                                  test::shippedLetters());
  REQUIRE(letters.size() == 1);
  CHECK(letters.front().isDue());
  print(day, letters.front(), "English");
  sheet = day.closeOut();
  CHECK(sheet.counts.letters == 1);
  CHECK(lineOf(sheet, mina).stand == LetterStand::printed);
  const auto tables = closeOutTables(sheet);
  CHECK(toText(tables).find("1 of 2 students seen and 0 of 1 absent have their letter") !=
        std::string::npos);
}

TEST_CASE("a correction after the letter asks for one that replaces it", "[case-72]") {
  SampleDay day;
  const auto child = childSealed(day, "Mina");
  const LetterCards cards{{child, card("Mina", {{0, "Tess", "English"}})}};
  const auto templates = test::shippedLetters();
  print(day, dayLetters(day.records, cards, templates).front(), "English", LetterState::handed);
  CHECK_FALSE(dayLetters(day.records, cards, templates).front().isDue());

  day.place(child, 26);
  const auto sheet = day.closeOut();
  CHECK(lineOf(sheet, child).stand == LetterStand::toReplace);
  CHECK(lineOf(sheet, child).changes == std::vector<std::string>{"sealed: 16 26 instead of 16"});
  CHECK(isException(sheet));

  const auto again = dayLetters(day.records, cards, templates).front();
  CHECK(again.isDue());
  REQUIRE(again.replaces);
  CHECK(again.replaces->iso() == "2026-11-17");
  print(day, again, "English");
  CHECK(lineOf(day.closeOut(), child).stand == LetterStand::printed);
  CHECK_FALSE(dayLetters(day.records, cards, templates).front().isDue());
}

TEST_CASE("a call made after the letter needs no other letter", "[case-81]") {
  SampleDay day;
  const auto child = day.child("Hana", ConsentState::yes);
  auto& screening = day.screen(child);
  screening.urgency = Urgency::urgent;
  screening.urgentReason = UrgentReason::swelling;
  day.end(child, DayEnd::screenedNotTreated, "swelling");
  const auto before = factsOf(day, child);
  CHECK(before.phoned == Phoned::no);
  day.records.contacts.push_back(day.make.row<followup::ContactAttempt>(
      {child, day.records.id, followup::Channel::phone, followup::ContactResult::reached, ""}));
  const auto after = factsOf(day, child);
  CHECK(after.phoned == Phoned::reached);
  CHECK(changedFacts(toLines(before), toLines(after)).empty());
}

TEST_CASE("guardians of two languages get a letter each", "[case-79]") {
  SampleDay day;
  const auto child = childSealed(day, "Lupe");
  const auto templates = test::shippedLetters();
  const LetterCards cards{{child, card("Lupe", {{0, "Rosa", "Spanish"}, {1, "Ted", "English"}})}};
  auto letters = dayLetters(day.records, cards, templates);
  REQUIRE(letters.size() == 2);
  print(day, letters[0], "Spanish");
  letters = dayLetters(day.records, cards, templates);
  CHECK_FALSE(letters[0].isDue());
  CHECK(letters[1].isDue());
}

TEST_CASE("an English letter with the interpreter line is not the English one", "[case-80]") {
  SampleDay day;
  const auto child = childSealed(day, "Lupe");
  const auto templates = test::shippedLetters();
  const LetterCards cards{{child, card("Lupe", {{0, "Ann", "English"}, {1, "Ted", "Tagalog"}})}};
  auto letters = dayLetters(day.records, cards, templates);
  REQUIRE(letters.size() == 2);
  CHECK_FALSE(letters[1].ownLanguage);
  print(day, letters[0], "English");
  letters = dayLetters(day.records, cards, templates);
  CHECK_FALSE(letters[0].isDue());
  CHECK(letters[1].isDue());
}

TEST_CASE("letters come by room and then by name") {
  SampleDay day;
  const auto wren = childSealed(day, "Wren", "7");
  const auto mina = childSealed(day, "Mina", "6");
  const auto bo = childSealed(day, "Bo", "7");
  LetterCards cards;
  for (const auto& [child, name] : day.names)
    cards.emplace(child, card(name, {{0, "", "English"}}));
  std::vector<roster::ChildId> order;
  for (const auto& letter : dayLetters(day.records, cards, test::shippedLetters()))
    order.push_back(letter.child);
  CHECK(order == std::vector{mina, bo, wren});
}

TEST_CASE("the nurse's sheet has the finding in plain words and the people and room for calls",
          "[case-81]") {
  SampleDay day;
  childSealed(day, "Mina Tolliver-Reed");
  const auto child = day.child("Hana Brookmere", ConsentState::yes, "7");
  auto& screening = day.screen(child);
  screening.urgency = Urgency::urgent;
  screening.urgentReason = UrgentReason::swelling;
  day.end(child, DayEnd::screenedNotTreated, "swelling");
  day.records.contacts.push_back(day.make.row<followup::ContactAttempt>(
      {child, day.records.id, followup::Channel::phone, followup::ContactResult::noAnswer, ""}));
  const LetterFrame frame{"Larkmere County School Sealant Team", "000-555-0142",
                          "Cobble Lantern Elementary", day.records.day.date};
  const LetterCards cards{{child, card("Hana Brookmere", {{0, "Yuki Brookmere", "English"}})}};
  const CallPeople people{{child,
                           {{"Yuki Brookmere", "mother", "000-555-0152", "English"},
                            {"Kenji Brookmere", "uncle", "000-555-0199", "English"}}}};
  const auto forms = urgentForms(day.records, frame, cards, people);
  REQUIRE(forms.size() == 1);
  const auto& form = forms.front();
  CHECK(form.finding == "swelling in the mouth or face");
  CHECK(form.dentistBy.iso() == "2026-11-19");
  CHECK_FALSE(form.reached);
  REQUIRE(form.attempts.size() == 1);
  CHECK(form.attempts.front().result == "no answer");
  const auto html = toHtml(form);
  for (const auto* words : {"Hana Brookmere", "Yuki Brookmere", "000-555-0199", "NOT YET",
                            "no answer", "What was said", "call the next person"})
    CHECK(html.find(words) != std::string::npos);
  for (const auto* words : {"Mina", "HY-", "fistula", "abscess"})
    CHECK(html.find(words) == std::string::npos);
}
