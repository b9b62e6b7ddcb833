#include "reports/day/display_names.h"
#include "session/second_laptop.h"

#include <algorithm>

using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::must;
using test::Second;

namespace {

/// One child on two cards: the first was seen and has a form, the second has a form and a letter.
struct Twice {
  test::Clinic clinic;
  roster::ChildId first = clinic.child("Mina", "Tolliver");
  roster::ChildId second = clinic.child("Myna", "Tolliver");

  Twice() {
    clinic.standardVisit(first);
    must(clinic.session.enterLetters(clinic.by, {{.child = second,
                                                  .day = clinic.day,
                                                  .language = "English",
                                                  .facts = "variant: fine",
                                                  .templateDigest = std::string(64, 'a'),
                                                  .textDigest = std::string(64, 'b'),
                                                  .written = clinic.clock.now().date()}}));
  }
  std::string number(roster::ChildId child) {
    return must(clinic.session.revisions<roster::Child>(child)).front().value.number;
  }
};

std::size_t formsOf(session::Session& book, roster::ChildId child) {
  return must(book.consents(child)).size();
}

} // namespace

TEST_CASE("Two cards of one student are joined at the desk, and separated again as they were",
          "[case-286]") {
  Twice cards;
  auto& book = cards.clinic.session;
  const auto pair = must(book.cardPair(cards.second, cards.first));
  CHECK(pair.kept.child == cards.first); // whichever is named first
  CHECK(pair.kept.visits == 1);
  CHECK(pair.other.letters == 1);
  CHECK_FALSE(pair.onBoth.has_value());
  CHECK(pair.changes.size() >= 3);

  must(book.joinCards(cards.clinic.by, cards.second, cards.first, "the school has one student"));
  CHECK(codeOf(book.child(cards.second)) == ErrorCode::notFound);
  CHECK(formsOf(book, cards.first) == 2);
  CHECK(must(book.placements(cards.first)).size() == 4);
  // The slip of the other card finds the kept one.
  const auto found = must(book.findChildren(cards.number(cards.second)));
  REQUIRE(found.size() == 1);
  CHECK(found.front().child == cards.first);
  CHECK(must(book.findings()).empty());

  must(book.partCards(cards.clinic.by, cards.first, "twins after all"));
  CHECK(must(book.identity(cards.second)).first == "Myna");
  CHECK(formsOf(book, cards.first) == 1);
  CHECK(formsOf(book, cards.second) == 1);
  CHECK(must(book.placements(cards.first)).size() == 4);
  CHECK(codeOf(book.partCards(cards.clinic.by, cards.first, "again")) == ErrorCode::notFound);
  CHECK(must(book.findings()).empty());
}

TEST_CASE("Cards of two who were seen on one day are never joined, nor for a reason with a name",
          "[case-286]") {
  Twice cards;
  auto& book = cards.clinic.session;
  CHECK(codeOf(book.joinCards(cards.clinic.by, cards.first, cards.second, "Myna is Mina")) ==
        ErrorCode::textMalformed);
  CHECK(codeOf(book.joinCards(cards.clinic.by, cards.first, cards.first, "same")) ==
        ErrorCode::notFound);
  cards.clinic.standardVisit(cards.second);
  const auto pair = must(book.cardPair(cards.first, cards.second));
  CHECK(pair.onBoth == cards.clinic.clock.now().date());
  CHECK(codeOf(book.joinCards(cards.clinic.by, cards.first, cards.second, "one student")) ==
        ErrorCode::ruleSameChild);
  CHECK(must(book.placements(cards.second)).size() == 4);
}

TEST_CASE("Two laptops that join the same cards apart keep the same one", "[case-287]") {
  Twice cards;
  auto& book = cards.clinic.session;
  Second other(cards.clinic, "second.gkbook", 2);
  must(book.joinCards(cards.clinic.by, cards.first, cards.second, "one student"));
  cards.clinic.clock.advance(std::chrono::minutes(5));
  must(other.session.joinCards(cards.clinic.by, cards.second, cards.first, "same student"));
  const auto there = other.handOver();
  const auto here = *cards.clinic.folder / "here.gkbook";
  must(book.backUp(here));
  must(book.absorb(there));
  must(other.session.absorb(here));
  for (auto* each : {static_cast<session::Session*>(&book), &other.session}) {
    CHECK(must(each->child(cards.first)).value.number == cards.number(cards.first));
    CHECK(codeOf(each->child(cards.second)) == ErrorCode::notFound);
    CHECK(formsOf(*each, cards.first) == 2);
    CHECK(must(each->findings()).empty());
  }
  must(book.partCards(cards.clinic.by, cards.first, "two students"));
  CHECK(must(book.identity(cards.second)).first == "Myna");
  CHECK(formsOf(book, cards.first) == 1);
  CHECK(formsOf(book, cards.second) == 1);
}

TEST_CASE("What another laptop wrote on a joined card meanwhile is joined by doing it again",
          "[case-287]") {
  Twice cards;
  auto& book = cards.clinic.session;
  Second other(cards.clinic, "second.gkbook", 2);
  must(book.joinCards(cards.clinic.by, cards.first, cards.second, "one student"));
  CHECK(codeOf(book.joinCards(cards.clinic.by, cards.first, cards.second, "again")) ==
        ErrorCode::notFound);
  must(other.session.enterFlag(cards.clinic.by, {.child = cards.second,
                                                 .kind = roster::FlagKind::asthma,
                                                 .action = roster::FlagAction::note,
                                                 .detail = "inhaler",
                                                 .decided = {}}));
  CHECK(must(book.lateOnCards()).empty());
  must(book.absorb(other.handOver()));
  CHECK(must(book.flags(cards.first)).empty());
  // It lies where no one looks, and that is said: at the close-out, which waits for it, and at the
  // desk.
  const auto late = must(book.lateOnCards());
  REQUIRE(late.size() == 1);
  CHECK(late.front().kept == cards.first);
  CHECK(late.front().other == cards.second);
  CHECK(late.front().entries == 1);
  const auto waits = [&] {
    const auto sheet = test::sheetOf(cards.clinic);
    return std::ranges::count(sheet.blockers, reports::BlockerKind::lateOnJoinedCard,
                              &reports::Blocker::kind);
  };
  const auto asked = [&] {
    const auto areas = must(book.setup(cards.clinic.clock.now().date()));
    const auto& open = areas.at(static_cast<std::size_t>(session::Area::rosters)).open;
    return std::ranges::any_of(open, [](const std::string& sentence) {
      return sentence.find("1 entry of another laptop came for card") == 0;
    });
  };
  CHECK(waits() == 1);
  CHECK(asked());
  // Files say it in words, by its place among the kinds.
  CHECK(base::nameOf(reports::BlockerKind::lateOnJoinedCard) == "late on a joined card");
  CHECK(base::displayName(reports::BlockerKind::lateOnJoinedCard) == "late on a joined card");
  const auto stray = must(book.cardNumbered(cards.number(cards.second)));
  SECTION("joined again") {
    must(book.joinCards(cards.clinic.by, cards.first, stray, "from the other laptop"));
    CHECK(must(book.flags(cards.first)).size() == 1);
  }
  SECTION("or separated, since they are two") {
    must(book.partCards(cards.clinic.by, cards.first, "two students after all"));
    CHECK(must(book.flags(cards.second)).size() == 1);
  }
  CHECK(waits() == 0);
  CHECK_FALSE(asked());
}

TEST_CASE("Entries for a card that was joined in two steps are put on the last one", "[case-325]") {
  Twice cards;
  auto& book = cards.clinic.session;
  const auto third = cards.clinic.child("Minna", "Tolliver");
  Second other(cards.clinic, "second.gkbook", 2);
  // The third to the second, and then the second to the first.
  must(book.joinCards(cards.clinic.by, cards.second, third, "one student"));
  must(book.joinCards(cards.clinic.by, cards.first, cards.second, "one student"));
  CHECK(must(book.lateOnCards()).empty());
  must(other.session.enterFlag(cards.clinic.by, {.child = third,
                                                 .kind = roster::FlagKind::asthma,
                                                 .action = roster::FlagAction::note,
                                                 .detail = "inhaler",
                                                 .decided = {}}));
  must(book.absorb(other.handOver()));
  const auto late = must(book.lateOnCards());
  REQUIRE(late.size() == 1);
  CHECK(late.front().kept == cards.first);
  must(book.joinCards(cards.clinic.by, late.front().kept, late.front().other, "once more"));
  CHECK(must(book.flags(cards.first)).size() == 1);
  CHECK(must(book.lateOnCards()).empty());
  CHECK(must(book.findings()).empty());
}

TEST_CASE("A name, a school and a lot say what their correction changes, before it is made",
          "[case-288]") {
  Twice cards;
  auto& book = cards.clinic.session;
  const auto says = [&](session::Area area, const base::Uuid& thing, const std::string& words) {
    const auto sentences = must(book.changesWith(area, thing));
    CHECK_FALSE(sentences.empty());
    return std::ranges::any_of(sentences, [&](const std::string& sentence) {
      return sentence.find(words) != std::string::npos;
    });
  };
  using session::Area;
  CHECK(says(Area::rosters, cards.second.uuid(), "1 letter already printed does not change"));
  CHECK_FALSE(says(Area::rosters, cards.first.uuid(), "already printed"));
  CHECK(says(Area::schools, cards.clinic.school.uuid(), "2 students and 1 school day"));
  CHECK(says(Area::terms, cards.clinic.term.uuid(), "1 school day stays"));
  CHECK(says(Area::lots, cards.clinic.resin.uuid(), "Sealants placed with this lot"));
  CHECK(says(Area::lights, cards.clinic.light.uuid(), "compared with the first reading"));
  CHECK(says(Area::team, cards.clinic.hygienist.uuid(), "keeps its operator"));
  CHECK(says(Area::program, must(book.program()).id.uuid(), "printed ones do not change"));
  CHECK(says(Area::years, base::Uuid{}, "Issued reports do not change"));
}

TEST_CASE("A school, a term or a year entered by mistake is removed unless something is of it",
          "[case-288]") {
  test::Clinic clinic;
  clinic.child("Mina");
  auto& book = clinic.session;
  CHECK(codeOf(book.removeSchool(clinic.by, clinic.school, "typed twice")) ==
        ErrorCode::ruleReason);
  CHECK(codeOf(book.removeTerm(clinic.by, clinic.term, "typed twice")) == ErrorCode::ruleReason);
  const auto school = must(book.enterSchool(clinic.by, {"Heron Bend Elementary", "HB"}));
  must(book.removeSchool(clinic.by, school, "typed twice"));
  CHECK(must(book.schools()).size() == 1);
  CHECK(must(book.revisions<roster::School>(school)).size() == 1); // its history stays
  const auto spring = must(book.enterTerm(clinic.by, {"Spring 2027",
                                                      must(base::Date::parse("2027-01-11")),
                                                      must(base::Date::parse("2027-05-28")),
                                                      {}}));
  must(book.removeTerm(clinic.by, spring, "typed twice"));
  CHECK(must(book.terms()).size() == 1);
  const auto year = must(book.enterYear(clinic.by, {"2026-27", roster::YearKind::school,
                                                    must(base::Date::parse("2026-07-01")),
                                                    must(base::Date::parse("2027-06-30"))}));
  must(book.removeYear(clinic.by, year, "typed twice"));
  CHECK(must(book.years()).empty());
}

TEST_CASE("A slip finds the student across cards that were joined one after another",
          "[case-386]") {
  test::Clinic clinic;
  auto& book = clinic.session;
  const auto one = clinic.child("Mina", "Tolliver");
  const auto two = clinic.child("Myna", "Tolliver");
  const auto three = clinic.child("Minna", "Tolliver");
  const auto number = [&](roster::ChildId child) {
    return must(book.revisions<roster::Child>(child)).front().value.number;
  };
  must(book.joinCards(clinic.by, two, three, "one student"));
  must(book.joinCards(clinic.by, one, two, "one student"));
  for (const auto child : {two, three}) {
    const auto found = must(book.findChildren(number(child)));
    REQUIRE(found.size() == 1);
    CHECK(found.front().child == one);
  }
  must(book.partCards(clinic.by, one, "two students"));
  CHECK(must(book.findChildren(number(three))).front().child == two);
  must(book.partCards(clinic.by, two, "two students"));
  CHECK(must(book.findChildren(number(three))).front().child == three);
}

TEST_CASE("Neither student is named in the reason of joining or separating, by any name there was",
          "[case-386]") {
  Twice cards;
  auto& book = cards.clinic.session;
  const auto by = cards.clinic.by;
  must(book.joinCards(by, cards.first, cards.second, "one student"));
  CHECK(codeOf(book.partCards(by, cards.first, "Myna is another")) == ErrorCode::textMalformed);
  book.lock();
  CHECK(codeOf(book.partCards(by, cards.first, "Myna is another")) == ErrorCode::vaultLocked);
  CHECK(codeOf(book.child(cards.second)) == ErrorCode::notFound);
}
