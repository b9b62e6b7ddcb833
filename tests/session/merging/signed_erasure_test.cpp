#include "session/agreeing.h"
#include "session/keys/keyed_clinic.h"
#include "session/second_laptop.h"
#include "session/values/erasure.h"

using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::faultsIn;
using test::forge;
using test::hygienistsWords;
using test::KeyedClinic;
using test::must;
using test::says;

namespace {

base::Result<session::ErasureDone> erase(session::Session& book, base::By by,
                                         roster::ChildId child) {
  const auto plan = must(book.erasurePlan(child));
  return book.eraseStudent(by, child,
                           {"the mother, letter of 12 November 2026",
                            "state records law, section 4", "she asked for it"},
                           plan.total);
}

} // namespace

TEST_CASE("Whoever has a key signs an erasure with it, and gives it for each one",
          "[keys][case-404]") {
  KeyedClinic clinic;
  auto& book = clinic.session;
  const auto first = clinic.child("Wren");
  const auto second = clinic.child("Robin");
  const auto refused = erase(book, clinic.by, first);
  CHECK(codeOf(refused) == ErrorCode::ruleSignature);
  CHECK(says(refused.error().detail, "Nothing was erased"));
  CHECK(book.child(first).has_value());

  must(book.openKey(clinic.hygienist, hygienistsWords));
  must(erase(book, clinic.by, first));
  const auto listed = must(book.erasures());
  REQUIRE(listed.size() == 1);
  CHECK(listed.front().record.value.key.has_value());
  CHECK(listed.front().record.value.signature.size() == 64);
  CHECK(must(book.findings()).empty());
  // Once given is for that one.
  CHECK(codeOf(erase(book, clinic.by, second)) == ErrorCode::ruleSignature);
  CHECK(book.child(second).has_value());
}

TEST_CASE("A revoked key erases nothing", "[keys][case-404]") {
  KeyedClinic clinic;
  const auto child = clinic.child("Wren");
  must(clinic.session.openKey(clinic.hygienist, hygienistsWords));
  must(clinic.session.revokeKey({clinic.coordinator, {}}, clinic.hygienist, "lost laptop"));
  const auto refused = erase(clinic.session, clinic.by, child);
  CHECK(codeOf(refused) == ErrorCode::ruleSignature);
  CHECK(says(refused.error().detail, "revoked"));
}

TEST_CASE("An erasure whose words, author, moment or signature was forged is named, and merged "
          "nowhere",
          "[keys][case-405]") {
  KeyedClinic clinic;
  const auto wren = clinic.child("Wren");
  const auto robin = clinic.child("Robin");
  const auto number = must(clinic.session.child(wren)).value.number;
  test::Second whole(clinic, "whole.gkbook", 2);
  must(clinic.session.openKey(clinic.hygienist, hygienistsWords));
  must(erase(clinic.session, clinic.by, wren));
  const auto erasure = "(SELECT entry FROM erasure)";
  const std::string forgeries[] = {
      "UPDATE erasure SET request = 'the school'",
      "UPDATE erasure SET authority = 'no rule'",
      "UPDATE erasure SET reason = 'because'",
      "UPDATE erasure SET signature = zeroblob(64)",
      "UPDATE erasure SET personal_key = NULL, signature = x''",
      "UPDATE erasure SET personal_key = (SELECT max(entry) FROM personal_key)",
      "UPDATE act SET at = at + 1000 WHERE first = " + std::string(erasure),
      "UPDATE act SET author = (SELECT p.member FROM personal_key AS p ORDER BY p.entry DESC LIMIT "
      "1) WHERE first = " +
          std::string(erasure),
  };
  int place = 0;
  for (const auto& forgery : forgeries) {
    INFO(forgery);
    const auto file = clinic.copy("forged" + std::to_string(++place) + ".gkbook");
    forge(file, forgery);
    const auto faults = faultsIn(file, clinic);
    INFO(faults);
    CHECK(says(faults, "the erasure of student " + number));
    CHECK(says(faults, "does not match its signature"));
    CHECK(codeOf(test::absorbAll(whole.session, clinic.by, file)) == ErrorCode::storeDamaged);
    CHECK(whole.session.child(wren).has_value());
    CHECK(whole.session.child(robin).has_value());
  }

  const auto honest = clinic.copy("honest.gkbook");
  const auto asked = whole.session.absorb(honest);
  REQUIRE(codeOf(asked) == ErrorCode::storeErases);
  CHECK(says(asked.error().detail, ", signed."));
  CHECK(must(test::absorbAll(whole.session, clinic.by, honest)).erased > 0);
  CHECK(must(whole.session.findings()).empty());
}

TEST_CASE(
    "What the question says of students and signers is what this logbook knew before, whatever "
    "the other one calls them",
    "[keys][case-405]") {
  KeyedClinic clinic;
  const auto wren = clinic.child("Wren");
  const auto number = must(clinic.session.child(wren)).value.number;
  const auto known = test::memberName(clinic.session, clinic.hygienist);
  test::Second whole(clinic, "whole.gkbook", 2);
  test::Second there(clinic, "there.gkbook", 3);
  const auto question = [&](const base::Path& file) {
    const auto asked = whole.session.absorb(file);
    REQUIRE(codeOf(asked) == ErrorCode::storeErases);
    return asked.error().detail;
  };

  SECTION("a member who was renamed there") {
    must(there.session.openKey(clinic.hygienist, hygienistsWords));
    must(erase(there.session, clinic.by, wren));
    for (const auto& member : must(there.session.members()))
      if (member.id == clinic.hygienist) {
        auto other = member.value;
        other.name = "Doctor Nobody";
        must(there.session.correctMember({clinic.coordinator, {}}, member.id, other, "renamed"));
      }
    const auto words = question(there.handOver());
    INFO(words);
    CHECK(says(words, ", student " + number + ";"));
    CHECK(says(words, "listed by " + known + " on "));
    CHECK(says(words, ", signed."));
    CHECK_FALSE(says(words, "Nobody"));
  }
  SECTION("a key that was revoked here meanwhile") {
    must(whole.session.openKey(clinic.coordinator, test::coordinatorsWords));
    must(whole.session.revokeKey({clinic.coordinator, {}}, clinic.hygienist, "left the program"));
    must(there.session.openKey(clinic.hygienist, hygienistsWords));
    must(erase(there.session, clinic.by, wren));
    const auto words = question(there.handOver());
    INFO(words);
    CHECK(says(words, ", signed with a key that was revoked here."));
  }
  SECTION("the name of one who has a key, under a laptop that never had it") {
    must(there.session.openKey(clinic.hygienist, hygienistsWords));
    must(erase(there.session, clinic.by, wren));
    const auto file = there.handOver();
    forge(file, "UPDATE erasure SET personal_key = NULL, signature = x''");
    const auto words = question(file);
    INFO(words);
    CHECK(says(words, ", not signed, though that person has a key."));
  }
  CHECK(whole.session.child(wren).has_value());
  CHECK(must(whole.session.findings()).empty());
}

TEST_CASE("A key that comes with the other logbook is said to be unknown", "[keys][case-405]") {
  test::Clinic clinic;
  const auto wren = clinic.child("Wren");
  test::Second there(clinic, "there.gkbook", 3);
  must(there.session.enterKey({clinic.hygienist, {}}, hygienistsWords));
  must(there.session.openKey(clinic.hygienist, hygienistsWords));
  must(erase(there.session, clinic.by, wren));
  const auto asked = clinic.session.absorb(there.handOver());
  REQUIRE(codeOf(asked) == ErrorCode::storeErases);
  INFO(asked.error().detail);
  CHECK(says(asked.error().detail, ", signed with a key that this logbook does not know."));
}
