#include "support/clinic.h"

using namespace gk;
using base::ErrorCode;
using chairside::AuthorizedHow;
using dentition::toothAt;
using test::codeOf;
using test::must;

namespace {

/// A clinic whose program waits for a dentist, and a child who is screened: four first molars.
struct Waiting : test::Clinic {
  Waiting() : Clinic(roster::Supervision::dentistExamRequired) {
    seat(mina);
    screenFour(mina);
  }
  roster::ChildId mina = child("Mina", "Tolliver-Reed");

  chairside::AuthorizationId authorized(const std::vector<int>& isoTeeth) {
    return must(session.authorize(by, {authorization(mina, isoTeeth)})).front();
  }
  base::Result<chairside::FieldId> isolated(const std::vector<int>& isoTeeth) {
    return session.isolate(by, field(mina, isoTeeth));
  }
  std::string card() { return must(session.identityCard(mina, day)).dentist; }
  bool isMarked() {
    const auto board = must(session.board(day));
    REQUIRE(board.size() == 1);
    return board.front().waitsForDentist;
  }
};

} // namespace

TEST_CASE("A program under another supervision asks for no dentist and shows none", "[case-82]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  clinic.standardVisit(mina);
  CHECK(must(clinic.session.identityCard(mina, clinic.day)).dentist.empty());
  CHECK_FALSE(must(clinic.session.board(clinic.day)).front().waitsForDentist);
}

TEST_CASE("No tooth is isolated before a dentist authorized it, and the refusal names it",
          "[case-82]") {
  Waiting clinic;
  CHECK(clinic.isMarked());
  CHECK(clinic.card() == "WAITING for the dentist's exam: no tooth is authorized");
  CHECK(codeOf(clinic.isolated({16, 46})) == ErrorCode::ruleAuthorization);
  clinic.authorized({16});
  CHECK_FALSE(clinic.isMarked());
  const auto refused = clinic.isolated({16, 46});
  REQUIRE(codeOf(refused) == ErrorCode::ruleAuthorization);
  CHECK(refused.error().detail == "no dentist has authorized: lower right first molar, 30");
  CHECK(must(clinic.session.fields(clinic.mina, clinic.day)).empty());
  CHECK(must(clinic.session.screenings(clinic.mina)).size() == 1); // nothing is lost
  clinic.sealAll(must(clinic.isolated({16})), {16});
  CHECK(must(clinic.session.placements(clinic.mina)).size() == 1);
}

TEST_CASE("A surface that was not authorized is not placed either", "[case-82]") {
  Waiting clinic;
  auto chewing = clinic.authorization(clinic.mina, {16});
  chewing.teeth.front().surfaces = {dentition::Surface::occlusal};
  must(clinic.session.authorize(clinic.by, {chewing}));
  const auto refused = clinic.isolated({16});
  REQUIRE(codeOf(refused) == ErrorCode::ruleAuthorization);
  CHECK(refused.error().detail ==
        "no dentist has authorized: upper right first molar, 3 (lingual groove)");
}

TEST_CASE("A call to the dentist adds a tooth, and undo takes the call back", "[case-82]") {
  Waiting clinic;
  clinic.authorized({16});
  auto call = clinic.authorization(clinic.mina, {46});
  call.how = AuthorizedHow::phoneCall;
  call.on = clinic.clock.now().date();
  must(clinic.session.authorize(clinic.by, {call}));
  CHECK(clinic.card().starts_with("authorized 2: "));
  CHECK(clinic.card().find("Dr. Selwyn Hartgrove, phone call, November 17, 2026, through June 30, "
                           "2027") != std::string::npos);
  CHECK(must(clinic.session.undo(clinic.by, {base::Station::board, clinic.day})) ==
        "Dentist's authorization, Mina T.");
  CHECK(codeOf(clinic.isolated({16, 46})) == ErrorCode::ruleAuthorization);
  CHECK(clinic.isolated({16}).has_value());
}

TEST_CASE("Only a dentist's word counts, and only from who may write it down", "[case-82]") {
  Waiting clinic;
  auto word = clinic.authorization(clinic.mina, {16});
  word.dentist = clinic.hygienist;
  CHECK(codeOf(clinic.session.authorize(clinic.by, {word})) == ErrorCode::ruleCredential);
  word.dentist = clinic.dentist.value();
  CHECK(codeOf(clinic.session.authorize({}, {word})) == ErrorCode::ruleCredential);
  word.until = word.on.plusDays(366);
  CHECK(codeOf(clinic.session.authorize(clinic.by, {word})) == ErrorCode::ruleAuthorization);
  CHECK(must(clinic.session.authorizations(clinic.mina)).empty());
}

TEST_CASE("A list with one word that cannot be is refused whole", "[case-82]") {
  Waiting clinic;
  const auto sound = clinic.authorization(clinic.mina, {16});
  auto wrong = sound;
  wrong.teeth.clear();
  CHECK(codeOf(clinic.session.authorize(clinic.by, {sound, wrong})) ==
        ErrorCode::ruleAuthorization);
  CHECK(must(clinic.session.authorizations(clinic.mina)).empty());
}

TEST_CASE("An authorization that ran out holds no longer", "[case-82]") {
  Waiting clinic;
  auto old = clinic.authorization(clinic.mina, {16});
  old.on = old.on.plusDays(-40);
  old.until = old.on.plusDays(30);
  must(clinic.session.authorize(clinic.by, {old}));
  CHECK(clinic.isMarked());
  CHECK(codeOf(clinic.isolated({16})) == ErrorCode::ruleAuthorization);
}

TEST_CASE("Withdrawn, it stops what is not begun and leaves what is placed", "[case-82]") {
  Waiting clinic;
  clinic.authorized({16, 46, 26, 36});
  clinic.sealAll(must(clinic.isolated({16, 46})), {16, 46});
  const auto left = must(clinic.isolated({26, 36}));
  const auto rows = must(clinic.session.authorizations(clinic.mina));
  CHECK(codeOf(clinic.session.withdrawAuthorization(clinic.by, rows.front(), "")) ==
        ErrorCode::ruleReason);
  must(clinic.session.withdrawAuthorization(clinic.by, rows.front(), "dentist called back"));
  CHECK(codeOf(clinic.session.enterStep(clinic.by,
                                        clinic.run(left, chairside::Step::etch, {26, 36}, 22))) ==
        ErrorCode::ruleAuthorization);
  must(clinic.session.stopTeeth(clinic.by, left, {toothAt(26), toothAt(36)}, "not authorized"));
  CHECK(must(clinic.session.placements(clinic.mina)).size() == 4);
  CHECK(clinic.isMarked());
}

TEST_CASE("Sealant that is on when the word is withdrawn is cured and checked", "[case-82]") {
  Waiting clinic;
  clinic.authorized({16});
  const auto field = must(clinic.isolated({16}));
  clinic.etchToFlow(field, {16});
  const auto rows = must(clinic.session.authorizations(clinic.mina));
  must(clinic.session.withdrawAuthorization(clinic.by, rows.front(), "dentist called back"));
  must(clinic.session.enterStep(clinic.by, clinic.run(field, chairside::Step::cure, {16}, 20)));
  must(clinic.session.enterStep(clinic.by, clinic.run(field, chairside::Step::check, {16})));
  CHECK(must(clinic.session.placements(clinic.mina)).front().value.attempt ==
        chairside::Attempt::complete);
}

TEST_CASE("Words taken down on two laptops add up when they are merged", "[case-82]") {
  Waiting clinic;
  const auto path = *clinic.folder / "second.gkbook";
  must(clinic.session.backUp(path));
  base::SeededRandom random(2);
  {
    auto second = must(session::Session::open(
        path, base::LaptopId(base::makeUuid7(clinic.clock.now().at, random)),
        {clinic.clock, random}, store::Access::readWrite, session::BookKind::throwaway));
    must(second.authorize(clinic.by, {clinic.authorization(clinic.mina, {46})}));
    must(second.finish());
  }
  clinic.authorized({16});
  must(clinic.session.absorb(path));
  must(clinic.session.absorb(path)); // twice changes nothing
  CHECK(must(clinic.session.authorizations(clinic.mina)).size() == 2);
  CHECK(clinic.isolated({16, 46}).has_value());
}
