#include "session/second_laptop.h"
#include "store/book.h"

// One thing corrected on two laptops while they were apart: it counts once, by a stated rule, and a
// person says which word stands.
using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::must;
using test::Second;
using test::sheetOf;

namespace {

/// A child screened before the two laptops part.
struct Apart : test::Clinic {
  roster::ChildId mina = child("Mina");
  std::optional<Second> other;

  void part() { other.emplace(*this, "other.gkbook", 7); }
  void meet() {
    must(session.absorb(other->handOver()));
    const auto back = *folder / ("back" + std::to_string(++met_));
    must(session.backUp(back));
    must(other->session.absorb(back));
  }
  void look(session::Session& at, const char* note) {
    clock.advance(std::chrono::minutes(3));
    const auto old = must(at.screenings(mina)).front();
    auto newer = old.value;
    newer.note = note;
    newer.teeth.front().decision = chairside::Decision::watch;
    must(at.correctScreening(by, old, newer, note));
  }
  std::size_t asked() { return sheetOf(*this).questions.size(); }

 private:
  int met_ = 0;
};

} // namespace

TEST_CASE("Findings corrected on two laptops count once, the later meanwhile, and are a question",
          "[case-141]") {
  Apart clinic;
  clinic.seat(clinic.mina);
  clinic.screenFour(clinic.mina);
  clinic.part();
  clinic.look(clinic.session, "here");
  clinic.look(clinic.other->session, "there");
  clinic.meet();
  for (auto* book : {&clinic.session, &clinic.other->session}) {
    const auto rows = must(book->screenings(clinic.mina));
    REQUIRE(rows.size() == 1);
    CHECK(rows.front().value.note == "there");
  }
  const auto questions = sheetOf(clinic).questions;
  REQUIRE(questions.size() == 1);
  CHECK(questions.front().what == "two laptops corrected the findings");
  CHECK(questions.front().child == clinic.mina);
  REQUIRE(questions.front().sides.size() == 2);
  CHECK(questions.front().sides.back().words.ends_with("(counts meanwhile)"));
  const auto note = std::ranges::find(questions.front().lines, "note", &reports::MergeLine::what);
  REQUIRE(note != questions.front().lines.end());
  CHECK(note->differs);
  CHECK(note->said == std::vector<std::string>{"here", "there"});
  const auto tooth = std::ranges::count_if(questions.front().lines, [](const auto& line) {
    return line.what.find("first molar") != std::string::npos;
  });
  CHECK(tooth == 4);
  CHECK_FALSE(sheetOf(clinic).mayClose());

  const auto kept = *questions.front().sides.front().word;
  CHECK(codeOf(clinic.session.settleWords({clinic.assistant, {}}, kept)) ==
        ErrorCode::ruleCredential);
  must(clinic.session.settleWords({clinic.hygienist, {}}, kept));
  CHECK(codeOf(clinic.session.settleWords({clinic.hygienist, {}}, kept)) ==
        ErrorCode::recordChanged);
  CHECK(clinic.asked() == 0);
  clinic.meet();
  CHECK(must(clinic.other->session.screenings(clinic.mina)).front().value.note == "here");
  CHECK(clinic.asked() == 0);
}

TEST_CASE("Two people who each keep another word are asked again, and neither word is lost",
          "[case-141]") {
  Apart clinic;
  clinic.seat(clinic.mina);
  clinic.screenFour(clinic.mina);
  clinic.part();
  clinic.look(clinic.session, "here");
  clinic.look(clinic.other->session, "there");
  clinic.meet();
  const auto sides = sheetOf(clinic).questions.front().sides;
  must(clinic.session.settleWords({clinic.hygienist, {}}, *sides.front().word));
  must(clinic.other->session.settleWords({clinic.hygienist, {}}, *sides.back().word));
  clinic.meet();
  CHECK(must(clinic.session.screenings(clinic.mina)).size() == 1);
  CHECK(clinic.asked() == 1);
}

TEST_CASE("A sealant moved to two teeth is one sealant", "[case-141]") {
  Apart clinic;
  clinic.seat(clinic.mina);
  clinic.screenFour(clinic.mina);
  clinic.sealAll(must(clinic.session.isolate(clinic.by, clinic.field(clinic.mina, {16}))), {16});
  clinic.part();
  const auto placed = must(clinic.session.placements(clinic.mina)).front();
  must(clinic.session.correctTooth(clinic.by, placed, dentition::toothAt(26), "left"));
  must(clinic.other->session.correctTooth(clinic.by, placed, dentition::toothAt(36), "lower"));
  clinic.meet();
  CHECK(must(clinic.session.placements(clinic.mina)).size() == 1);
  CHECK(sheetOf(clinic).questions.front().what == "two laptops corrected the sealant's tooth");
}

TEST_CASE("Of two words the more careful counts without being asked", "[case-142]") {
  Apart clinic;
  const auto form = must(clinic.session.consents(clinic.mina)).front();
  const auto flag =
      must(clinic.session.enterFlag(clinic.by, {clinic.mina, roster::FlagKind::latexAllergy,
                                                roster::FlagAction::ask, "", false, ""}));
  clinic.part();
  // Careful first, so that the later word is the other one.
  must(clinic.session.quarantineLot(clinic.by, clinic.resin, "recalled"));
  must(clinic.session.withdrawConsent(clinic.by, clinic.mina, "mother, by phone"));
  clinic.clock.advance(std::chrono::minutes(3));
  must(clinic.other->session.countLot(
      clinic.by, {.day = clinic.day, .lot = clinic.resin, .opened = 1, .left = 0}));
  auto noted = form.value;
  noted.note = "read again";
  must(clinic.other->session.correctConsent(clinic.by, form, noted, "read again"));
  const auto flags = must(clinic.other->session.flags(clinic.mina));
  must(
      clinic.other->session.resolveFlag({clinic.hygienist, {}}, flags.front(), "asked the doctor"));
  clinic.meet();
  for (auto* book : {&clinic.session, &clinic.other->session}) {
    for (const auto& lot : must(book->lots()))
      if (lot.id == clinic.resin) CHECK(lot.value.quarantined);
    CHECK(must(book->lots()).size() == 5);
    const auto forms = must(book->consents(clinic.mina));
    REQUIRE(forms.size() == 1);
    CHECK(forms.front().value.state == roster::ConsentState::withdrawn);
    // Only one laptop had a word on this one.
    CHECK(must(book->flags(clinic.mina)).front().id == flag);
    CHECK(must(book->flags(clinic.mina)).front().value.resolved);
  }
  CHECK(clinic.asked() == 0);
  // Nor may the less careful word be kept by a call past the window.
  for (const auto& lot : must(clinic.other->session.lots())) {
    if (lot.id != clinic.resin) continue;
    const auto words = must(clinic.other->session.revisions<kit::Lot>(clinic.resin));
    for (const auto& word : words)
      if (!word.value.quarantined && word.value.usedUpOn)
        CHECK(codeOf(clinic.other->session.settleWords({clinic.hygienist, {}}, word.stamp.entry)) ==
              ErrorCode::ruleReason);
  }
}

TEST_CASE(
    "Services taken off a form on one laptop are not allowed because another corrected its note",
    "[case-347]") {
  Apart clinic;
  const auto form = must(clinic.session.consents(clinic.mina)).front();
  clinic.part();
  auto fewer = form.value;
  fewer.allowed.remove(roster::Service::sealants);
  must(clinic.session.correctConsent(clinic.by, form, fewer, "mother by phone: no sealants"));
  clinic.clock.advance(std::chrono::minutes(3));
  auto noted = form.value;
  noted.note = "read again";
  must(clinic.other->session.correctConsent(clinic.by, form, noted, "read again"));
  clinic.meet();
  const auto today = clinic.clock.now().date();
  for (auto* book : {&clinic.session, &clinic.other->session}) {
    CHECK_FALSE(must(book->standing(clinic.mina, roster::Service::sealants, today)).allows);
    CHECK(must(book->standing(clinic.mina, roster::Service::screening, today)).allows);
  }
  const auto questions = sheetOf(clinic).questions;
  REQUIRE(questions.size() == 1);
  CHECK(questions.front().sides.back().words.ends_with("(counts meanwhile, as far as all allow)"));
  // Kept by a person, the later word counts whole.
  must(clinic.session.settleWords({clinic.hygienist, {}}, *questions.front().sides.back().word));
  CHECK(must(clinic.session.standing(clinic.mina, roster::Service::sealants, today)).allows);
}

TEST_CASE("Who left the team on one laptop may do nothing because another renewed the license",
          "[case-348]") {
  Apart clinic;
  clinic.part();
  must(clinic.session.retireMember({clinic.coordinator, {}}, clinic.hygienist, "moved away"));
  clinic.clock.advance(std::chrono::minutes(3));
  for (const auto& member : must(clinic.other->session.members()))
    if (member.id == clinic.hygienist) {
      auto renewed = member.value;
      renewed.license += "-2";
      must(clinic.other->session.correctMember({clinic.coordinator, {}}, member.id, renewed,
                                               "renewed"));
    }
  clinic.meet();
  for (auto* book : {&clinic.session, &clinic.other->session}) {
    for (const auto& member : must(book->members()))
      if (member.id == clinic.hygienist) CHECK(member.value.may.isEmpty());
    CHECK(codeOf(book->enterSchool({clinic.hygienist, {}}, {"Gorse Bank Elementary", "GB"})) ==
          ErrorCode::ruleCredential);
  }
}

TEST_CASE("A student moved to two schools is expected at one of them, once", "[case-497]") {
  Apart clinic;
  const auto dayAt = [&](const char* name, const char* code) {
    const auto school = must(clinic.session.enterSchool(clinic.by, {name, code}));
    const auto day = must(clinic.session.openDay(
        {clinic.hygienist, {}}, {clinic.term, school, clinic.clock.now().date(), 1, {}, false}));
    return std::pair(school, day);
  };
  const auto [near, nearDay] = dayAt("Gorse Bank Elementary", "GB");
  const auto [far, farDay] = dayAt("Heron Weir Elementary", "HW");
  clinic.part();
  must(clinic.session.moveChild(clinic.by, clinic.mina, near, "2", "4", "moved"));
  clinic.clock.advance(std::chrono::minutes(3));
  must(clinic.other->session.moveChild(clinic.by, clinic.mina, far, "2", "4", "moved"));
  clinic.meet();
  for (auto* book : {&clinic.session, &clinic.other->session}) {
    CHECK(must(book->board(clinic.day)).empty());
    CHECK(must(book->board(nearDay)).empty());
    CHECK(must(book->board(farDay)).size() == 1); // the later word, meanwhile
    CHECK(must(book->dayRecords(nearDay)).children.empty());
  }
}

TEST_CASE("A light corrected on both laptops is a question of no child", "[case-141]") {
  Apart clinic;
  clinic.part();
  const auto correct = [&](session::Session& at, const char* meter) {
    clinic.clock.advance(std::chrono::minutes(1));
    for (const auto& light : must(at.lights()))
      if (light.id == clinic.light) {
        auto other = light.value;
        other.meter = meter;
        must(at.correctLight(clinic.by, light, other, "another meter"));
        return;
      }
  };
  correct(clinic.session, "M-2");
  correct(clinic.other->session, "M-3");
  clinic.meet();
  CHECK(must(clinic.session.lights()).size() == 2);
  const auto question = sheetOf(clinic).questions.front();
  CHECK_FALSE(question.child.has_value());
  CHECK(question.shown == "curing light");
  const auto kept = *question.sides.front().word;
  must(clinic.session.settleWords({clinic.coordinator, {}}, kept));
  for (const auto& light : must(clinic.session.lights()))
    if (light.id == clinic.light) CHECK(light.value.meter == "M-2");
}

namespace {

/// A copy in which another laptop took this word back.
base::Path undoneElsewhere(Apart& clinic, base::EntryId word) {
  const auto path = *clinic.folder / "undone.gkbook";
  must(clinic.session.backUp(path));
  base::SeededRandom random(77);
  auto book = must(
      store::Book::open(path, base::LaptopId(base::makeUuid7(clinic.clock.now().at, random)),
                        store::Access::readWrite, store::Durability::bulk, clinic.clock.now().at));
  must(book.act(
      {clinic.assistant, {}}, clinic.clock.now(),
      [&](store::Act& act) { act.retract(word, "undone"); }, "undo"));
  must(book.finish());
  clinic.clock.advance(std::chrono::minutes(3));
  return path;
}

} // namespace

TEST_CASE("A consent form that one laptop took back and another corrected allows nothing until a "
          "person says which is kept",
          "[case-357]") {
  Apart clinic;
  const auto keepsBack = GENERATE(true, false);
  CAPTURE(keepsBack);
  clinic.part();
  const auto form = must(clinic.session.consents(clinic.mina)).front();
  const auto undone = undoneElsewhere(clinic, form.stamp.entry);
  auto noted = form.value;
  noted.note = "read again";
  must(clinic.session.correctConsent(clinic.by, form, noted, "read again"));
  must(clinic.session.absorb(undone));
  clinic.meet();
  const auto today = clinic.clock.now().date();
  for (auto* book : {&clinic.session, &clinic.other->session}) {
    CHECK(must(book->consents(clinic.mina)).empty());
    CHECK_FALSE(must(book->standing(clinic.mina, roster::Service::sealants, today)).allows);
  }
  const auto questions = sheetOf(clinic).questions;
  REQUIRE(questions.size() == 1);
  CHECK(questions.front().what == "one laptop undid what another corrected: the consent form");
  REQUIRE(questions.front().sides.size() == 2);
  const auto& back = questions.front().sides.back();
  CHECK(back.heading.starts_with("undone "));
  CHECK(back.words.ends_with("(counts meanwhile)"));
  CHECK_FALSE(questions.front().sides.front().words.ends_with("(counts meanwhile)"));
  const auto kept = *(keepsBack ? back : questions.front().sides.front()).word;
  must(clinic.session.settleWords({clinic.hygienist, {}}, kept));
  CHECK(clinic.asked() == 0);
  clinic.meet();
  for (auto* book : {&clinic.session, &clinic.other->session}) {
    const auto forms = must(book->consents(clinic.mina));
    REQUIRE(forms.size() == (keepsBack ? 0 : 1));
    if (!keepsBack) CHECK(forms.front().value.note == "read again");
  }
  CHECK(clinic.asked() == 0);
}

TEST_CASE("An alert that one laptop took back and another corrected counts as corrected "
          "meanwhile, and is a question",
          "[case-357]") {
  Apart clinic;
  must(clinic.session.enterFlag(clinic.by, {clinic.mina, roster::FlagKind::latexAllergy,
                                            roster::FlagAction::stop, "", false, ""}));
  const auto flag = must(clinic.session.flags(clinic.mina)).front();
  const auto undone = undoneElsewhere(clinic, flag.stamp.entry);
  must(clinic.session.resolveFlag({clinic.hygienist, {}}, flag, "asked the doctor"));
  must(clinic.session.absorb(undone));
  REQUIRE(must(clinic.session.flags(clinic.mina)).size() == 1);
  const auto questions = sheetOf(clinic).questions;
  REQUIRE(questions.size() == 1);
  CHECK(questions.front().sides.front().words.ends_with("(counts meanwhile)"));
  must(clinic.session.settleWords({clinic.hygienist, {}}, *questions.front().sides.back().word));
  CHECK(must(clinic.session.flags(clinic.mina)).empty());
  CHECK(clinic.asked() == 0);
}
