#include "session/keys/pins.h"
#include "session/rights/pin_tries.h"
#include "store/records/people_rows.h"

using namespace gk;
using base::ErrorCode;
using roster::PinState;
using session::OpenedBy;
using test::codeOf;
using test::must;
using test::PinClinic;

TEST_CASE("A PIN has four to six digits, and not those that are tried first", "[case-230]") {
  test::Clinic clinic;
  const auto set = [&](const char* pin) {
    return clinic.session.setPin({clinic.assistant, {}}, clinic.assistant, pin);
  };
  for (const char* pin : {"", "123", "1234567", "12a4", "1111", "000000", "1234", "4321", "0123",
                          "9876", "7890", "1212", "123123", "8901"})
    CHECK(codeOf(set(pin)) == ErrorCode::pinMalformed);
  CHECK(must(clinic.session.pinOf(clinic.assistant)) == PinState::none);
  must(set("1357"));
  CHECK(must(clinic.session.pinOf(clinic.assistant)) == PinState::set);
}

TEST_CASE("Her first PIN is set by herself or by one who keeps the team, and then by her alone",
          "[case-230]") {
  test::Clinic clinic;
  auto& book = clinic.session;
  CHECK(codeOf(book.setPin({clinic.assistant, {}}, clinic.coordinator, "2580")) ==
        ErrorCode::ruleCredential);
  must(book.setPin({clinic.coordinator, {}}, clinic.assistant, "2580"));
  CHECK(codeOf(book.setPin({clinic.coordinator, {}}, clinic.assistant, "3690")) ==
        ErrorCode::ruleCredential);
  must(book.signIn(clinic.assistant, "2580"));
  CHECK(codeOf(book.setPin({clinic.assistant, {}}, clinic.assistant, "3690")) ==
        ErrorCode::pinNeeded);
  must(book.setPin({clinic.assistant, {}}, clinic.assistant, "3690",
                   must(book.confirm(clinic.assistant, "2580"))));
  must(book.confirm(clinic.assistant, "3690"));
}

TEST_CASE("A forgotten PIN is reset with a reason, and she chooses again", "[case-231]") {
  PinClinic clinic;
  auto& book = clinic.session;
  const base::By coordinator{clinic.coordinator, {}};
  CHECK(codeOf(book.resetPin(coordinator, clinic.assistant, " ")) == ErrorCode::ruleReason);
  must(book.resetPin(coordinator, clinic.assistant, "forgot it over the summer"));
  CHECK(must(book.pinOf(clinic.assistant)) == PinState::toChoose);
  CHECK(codeOf(book.confirm(clinic.assistant, PinClinic::assistants)) == ErrorCode::pinNeeded);
  CHECK(codeOf(book.setPin(coordinator, clinic.assistant, "1470")) == ErrorCode::ruleCredential);
  must(book.setPin({clinic.assistant, {}}, clinic.assistant, "1470"));
  must(book.confirm(clinic.assistant, "1470"));
  // Her own she changes; she does not reset it past the question for the old one.
  must(book.signIn(clinic.hygienist, PinClinic::hers));
  CHECK(codeOf(book.resetPin({clinic.hygienist, {}}, clinic.hygienist, "forgot",
                             clinic.own(clinic.hygienist, PinClinic::hers))) ==
        ErrorCode::ruleCredential);
  CHECK(codeOf(book.resetOwnPin(clinic.hygienist, test::Clinic::passphrase, "forgot")) ==
        ErrorCode::ruleCredential);
}

TEST_CASE("Alone on the team, the passphrase stands for the other who would reset", "[case-231]") {
  PinClinic clinic;
  auto& book = clinic.session;
  auto coordinator = must(book.members()).back().value;
  for (const auto& one : must(book.members()))
    if (one.id == clinic.coordinator) coordinator = one.value;
  must(book.signIn(clinic.hygienist, PinClinic::hers));
  coordinator.may = {};
  must(book.correctMember({clinic.hygienist, {}}, clinic.coordinator, coordinator, "left"));
  CHECK(codeOf(book.resetOwnPin(clinic.hygienist, "quiet gym door", "forgot")) ==
        ErrorCode::vaultWrongPassphrase);
  CHECK(must(book.pinOf(clinic.hygienist)) == PinState::set);
  must(book.resetOwnPin(clinic.hygienist, test::Clinic::passphrase, "forgot"));
  CHECK(must(book.pinOf(clinic.hygienist)) == PinState::toChoose);
}

TEST_CASE("After wrong PINs the wait grows, and one given too soon is not looked at",
          "[case-232]") {
  PinClinic clinic;
  auto& book = clinic.session;
  for (const auto wait : session::PinTries::waits) {
    CHECK(codeOf(book.confirm(clinic.hygienist, "9038")) == ErrorCode::pinWrong);
    CHECK(codeOf(book.confirm(clinic.hygienist, PinClinic::hers)) == ErrorCode::pinWait);
    clinic.clock.advance(wait - std::chrono::milliseconds(1));
    CHECK(codeOf(book.confirm(clinic.hygienist, PinClinic::hers)) == ErrorCode::pinWait);
    clinic.clock.advance(std::chrono::milliseconds(1));
  }
  must(book.confirm(clinic.hygienist, PinClinic::hers)); // the fifth was right
  CHECK(clinic.guess(clinic.hygienist, 1) == ErrorCode::pinWrong);
}

TEST_CASE("Setting the wall clock does not shorten the wait", "[case-232]") {
  PinClinic clinic;
  CHECK(codeOf(clinic.session.confirm(clinic.hygienist, "9038")) == ErrorCode::pinWrong);
  auto later = clinic.clock.now();
  later.at.utc += std::chrono::hours(3);
  clinic.clock.setWall(later);
  CHECK(codeOf(clinic.session.confirm(clinic.hygienist, PinClinic::hers)) == ErrorCode::pinWait);
}

TEST_CASE("After five wrong PINs, whoever's, the passphrase is asked for", "[case-232]") {
  PinClinic clinic;
  auto& book = clinic.session;
  CHECK(clinic.guess(clinic.hygienist, 3) == ErrorCode::pinWrong);
  CHECK(clinic.guess(clinic.assistant, 2) == ErrorCode::pinSpent);
  CHECK_FALSE(book.isUnlocked());
  CHECK(codeOf(book.unlockByPin(clinic.assistant, PinClinic::assistants)) == ErrorCode::pinSpent);
  must(book.unlock(test::Clinic::passphrase));
  CHECK_FALSE(book.signedIn().has_value());
  must(book.signIn(clinic.hygienist, PinClinic::hers));
  // A right PIN of one does not give another's back.
  clinic.guess(clinic.assistant, 4);
  must(book.confirm(clinic.hygienist, PinClinic::hers));
  CHECK(clinic.guess(clinic.assistant, 1) == ErrorCode::pinSpent);
}

TEST_CASE("A PIN opens the names after the lock, and signs in whose it is", "[case-233]") {
  PinClinic clinic;
  auto& book = clinic.session;
  const auto mina = clinic.child("Mina");
  CHECK(book.lockByPin() == OpenedBy::pin);
  CHECK_FALSE(book.isUnlocked());
  CHECK(codeOf(book.identity(mina)) == ErrorCode::vaultLocked);
  CHECK(codeOf(book.unlockByPin(clinic.assistant, PinClinic::hers)) == ErrorCode::pinWrong);
  clinic.clock.advance(std::chrono::seconds(2));
  must(book.unlockByPin(clinic.assistant, PinClinic::assistants));
  CHECK(book.signedIn() == clinic.assistant);
  CHECK(must(book.identity(mina)).first == "Mina");
}

TEST_CASE("Five wrong PINs at the lock take the key out of memory", "[case-233]") {
  PinClinic clinic;
  auto& book = clinic.session;
  book.lockByPin();
  for (int i = 0; i < session::PinTries::most; ++i) {
    CHECK_FALSE(book.unlockByPin(clinic.assistant, "9038"));
    clinic.clock.advance(std::chrono::seconds(31));
  }
  CHECK(codeOf(book.unlockByPin(clinic.assistant, PinClinic::assistants)) == ErrorCode::pinSpent);
  must(book.unlock(test::Clinic::passphrase));
}

TEST_CASE("After the laptop slept, or in a book without PINs, the passphrase is asked for",
          "[case-233]") {
  PinClinic clinic;
  auto& book = clinic.session;
  CHECK_FALSE(book.noticeSleep());
  book.lockByPin();
  clinic.clock.advance(std::chrono::hours(1)); // awake all the while
  CHECK_FALSE(book.noticeSleep());
  clinic.clock.sleep(std::chrono::minutes(5));
  CHECK(codeOf(book.unlockByPin(clinic.assistant, PinClinic::assistants)) == ErrorCode::pinSpent);
  must(book.unlock(test::Clinic::passphrase));
  clinic.clock.sleep(std::chrono::minutes(5));
  CHECK(book.noticeSleep());
  CHECK_FALSE(book.isUnlocked());
  test::Clinic without;
  CHECK(without.session.lockByPin() == OpenedBy::passphrase);
}

TEST_CASE("No one types in the name of a member with a PIN who is not signed in", "[case-234]") {
  PinClinic clinic;
  auto& book = clinic.session;
  must(book.signIn(clinic.assistant, PinClinic::assistants));
  const auto child = clinic.child("Mina");
  const auto seen = [&](base::By by) { return book.enterBackground(by, {child, {}, {}}); };
  CHECK(codeOf(seen({clinic.hygienist, {}})) == ErrorCode::pinNeeded);
  CHECK(codeOf(seen({clinic.assistant, clinic.hygienist})) == ErrorCode::pinNeeded);
  must(seen({clinic.hygienist, clinic.assistant})); // the operator is a field, the typist is not
  must(seen({clinic.coordinator, {}}));             // she has none
  must(book.unlock(test::Clinic::passphrase));
  CHECK(codeOf(seen({clinic.hygienist, clinic.assistant})) == ErrorCode::pinNeeded);
  CHECK(codeOf(book.signIn(clinic.assistant, "3690")) == ErrorCode::pinWrong);
}

TEST_CASE("What one person answers for is confirmed by her PIN, once and for a short while",
          "[case-235]") {
  PinClinic clinic;
  auto& book = clinic.session;
  must(book.signIn(clinic.assistant, PinClinic::assistants));
  const auto child = clinic.childWithoutForm("Ada");
  const base::By by{clinic.hygienist, clinic.assistant};
  const auto override = [&](const session::OwnPin& pin) {
    return book.overrideConsent(
        by, {child, clinic.clock.now().date(), clinic.hygienist, "pain, mother on the phone"}, pin);
  };
  CHECK(codeOf(override({})) == ErrorCode::pinNeeded);
  CHECK(codeOf(override(clinic.own(clinic.assistant, PinClinic::assistants))) ==
        ErrorCode::pinNeeded);
  const auto stale = clinic.own(clinic.hygienist, PinClinic::hers);
  clinic.clock.advance(session::Keyboard::confirmationLasts + std::chrono::seconds(1));
  CHECK(codeOf(override(stale)) == ErrorCode::pinNeeded);
  const auto older = clinic.own(clinic.hygienist, PinClinic::hers);
  const auto own = clinic.own(clinic.hygienist, PinClinic::hers);
  CHECK(codeOf(override(older)) == ErrorCode::pinNeeded);
  must(override(own));
  CHECK(codeOf(override(own)) == ErrorCode::pinNeeded); // used

  // Undone, it does not stand again without her.
  const session::UndoAt chair{base::Station::chair, clinic.day, child};
  must(book.undo(by, chair));
  const auto again = book.redo(by, chair);
  REQUIRE(codeOf(again) == ErrorCode::notFound);
  CHECK(again.error().detail ==
        "only the one who answers for it may say this; do it again instead");
  CHECK_FALSE(
      must(book.standing(child, roster::Service::sealants, clinic.clock.now().date())).allows);
}

TEST_CASE("Of a member's PINs the newest counts", "[case-230]") {
  PinClinic clinic;
  auto& book = clinic.session;
  clinic.clock.advance(std::chrono::minutes(1));
  must(book.setPin({clinic.assistant, {}}, clinic.assistant, "1470",
                   clinic.own(clinic.assistant, PinClinic::assistants)));
  must(book.signIn(clinic.assistant, "1470"));
  CHECK(codeOf(book.signIn(clinic.assistant, PinClinic::assistants)) == ErrorCode::pinWrong);
}
