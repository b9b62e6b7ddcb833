#include "session/keys/keyed_clinic.h"
#include "store/keys/key_wraps.h"

using namespace gk;
using base::ErrorCode;
using session::KeyStanding;
using session::SignerGives;
using test::codeOf;
using test::coordinatorsWords;
using test::hygienistsWords;
using test::KeyedClinic;
using test::must;

// A person's own passphrase opens the names as well.

namespace {

std::string nameOf(session::Session& session, roster::ChildId child) {
  return must(session.identity(child)).shownName();
}

std::vector<std::string> openers(session::Session& session) {
  std::vector<std::string> initials;
  for (const auto& member : must(session.whoOpens()))
    initials.push_back(member.value.initials);
  return initials;
}

} // namespace

TEST_CASE("A person's own passphrase opens the names, says who it was and opens her key for the "
          "day, but signs nothing by itself",
          "[keys][case-266]") {
  KeyedClinic clinic;
  auto& book = clinic.session;
  book.lock();
  REQUIRE(codeOf(book.identity(clinic.mina)) == ErrorCode::vaultLocked);
  must(book.unlock(hygienistsWords));
  CHECK(book.openedBy() == clinic.hygienist);
  CHECK(nameOf(book, clinic.mina) == "Mina Hollowell");
  CHECK(must(book.keyStanding(clinic.hygienist)) == KeyStanding::open);
  CHECK(must(book.keyStanding(clinic.coordinator)) == KeyStanding::stands);
  SECTION("without a PIN the signature asks for the passphrase") {
    CHECK(must(book.asksToSign(clinic.hygienist)) == SignerGives::passphrase);
  }
  SECTION("with one the PIN is enough that day") {
    must(book.setPin({clinic.hygienist, {}}, clinic.hygienist, "2580"));
    CHECK(must(book.asksToSign(clinic.hygienist)) == SignerGives::pin);
    must(book.showSigner(clinic.hygienist, "2580"));
    must(book.openKey(clinic.coordinator, coordinatorsWords));
    must(book.signDay({clinic.hygienist, {}}, clinic.closure()));
  }
  SECTION("and the logbook's passphrase is no one's") {
    book.lock();
    CHECK_FALSE(book.openedBy());
    must(book.unlock(test::Clinic::passphrase));
    CHECK_FALSE(book.openedBy());
    CHECK(must(book.keyStanding(clinic.hygienist)) == KeyStanding::stands);
  }
  CHECK(must(book.findings()).empty());
}

TEST_CASE("Where it is said who she is, hers alone is tried, with the waits of signing",
          "[keys][case-266]") {
  KeyedClinic clinic;
  auto& book = clinic.session;
  book.lock();
  CHECK(codeOf(book.unlock(hygienistsWords, clinic.coordinator)) ==
        ErrorCode::vaultWrongPassphrase);
  CHECK(codeOf(book.unlock(test::Clinic::passphrase, clinic.hygienist)) ==
        ErrorCode::vaultWrongPassphrase);
  CHECK(codeOf(book.unlock(hygienistsWords, clinic.assistant)) == ErrorCode::notFound);
  must(book.unlock(coordinatorsWords, clinic.coordinator));
  CHECK(book.openedBy() == clinic.coordinator);
  book.lock();
  // Tried without a name, a wrong one counts as a miss of each whose it might have been.
  for (int i = 0; i < 2; ++i)
    CHECK(codeOf(book.unlock("not one of the passphrases")) == ErrorCode::vaultWrongPassphrase);
  CHECK(codeOf(book.unlock(hygienistsWords, clinic.hygienist)) == ErrorCode::vaultWait);
  CHECK(codeOf(book.unlock(hygienistsWords)) == ErrorCode::vaultWrongPassphrase);
  must(book.unlock(test::Clinic::passphrase)); // the logbook's own waits for no one
  book.lock();
  clinic.clock.advance(std::chrono::seconds(10));
  must(book.unlock(hygienistsWords, clinic.hygienist));
}

TEST_CASE("It opens from when it is set, changes with it and ends with the key",
          "[keys][case-266]") {
  KeyedClinic clinic;
  auto& book = clinic.session;
  const base::By her{clinic.hygienist, {}};
  CHECK(openers(book).size() == 2);
  SECTION("changed") {
    must(book.changeKey(her, hygienistsWords, "otters below the mill"));
    book.lock();
    CHECK(codeOf(book.unlock(hygienistsWords)) == ErrorCode::vaultWrongPassphrase);
    must(book.unlock("otters below the mill"));
  }
  SECTION("revoked") {
    must(book.revokeKey({clinic.coordinator, {}}, clinic.hygienist, "seen by others"));
    CHECK(openers(book).size() == 1);
    book.lock();
    CHECK(codeOf(book.unlock(hygienistsWords)) == ErrorCode::vaultWrongPassphrase);
    CHECK(codeOf(book.unlock(hygienistsWords, clinic.hygienist)) == ErrorCode::notFound);
  }
  SECTION("left the team") {
    must(book.retireMember({clinic.coordinator, {}}, clinic.hygienist, "moved away"));
    book.lock();
    CHECK(codeOf(book.unlock(hygienistsWords)) == ErrorCode::vaultWrongPassphrase);
  }
  SECTION("set while the names are locked, it opens them once it was entered with them open") {
    book.lock();
    must(book.enterKey({clinic.assistant, {}}, "a third set of words"));
    CHECK(codeOf(book.unlock("a third set of words")) == ErrorCode::vaultWrongPassphrase);
    CHECK(codeOf(book.unlock("a third set of words", clinic.assistant)) ==
          ErrorCode::vaultWrongPassphrase);
    must(book.unlock(test::Clinic::passphrase));
    must(book.openKey(clinic.assistant, "a third set of words"));
    book.lock();
    must(book.unlock("a third set of words"));
    CHECK(book.openedBy() == clinic.assistant);
  }
  CHECK(must(book.findings()).empty());
}

TEST_CASE(
    "A person's passphrase opens the names on every laptop that the logbook is merged to, and "
    "what was revoked on one opens them on none",
    "[keys][case-266]") {
  KeyedClinic clinic;
  test::Second second(clinic, "second.gkbook", 266);
  must(clinic.session.enterKey({clinic.assistant, {}}, "a third set of words"));
  must(second.session.absorb(clinic.copy("first.gkbook")));
  second.session.lock();
  must(second.session.unlock("a third set of words"));
  CHECK(nameOf(second.session, clinic.mina) == "Mina Hollowell");
  clinic.clock.advance(std::chrono::minutes(1));
  SECTION("revoked there") {
    must(second.session.revokeKey({clinic.coordinator, {}}, clinic.assistant, "left"));
    must(clinic.session.absorb(second.handOver()));
  }
  SECTION("revoked here, and merged both ways") {
    must(clinic.session.revokeKey({clinic.coordinator, {}}, clinic.assistant, "left"));
    must(second.session.absorb(clinic.copy("again.gkbook")));
    must(clinic.session.absorb(second.handOver()));
  }
  SECTION("revoked here, changed there") {
    must(clinic.session.revokeKey({clinic.coordinator, {}}, clinic.assistant, "left"));
    must(second.session.changeKey({clinic.assistant, {}}, "a third set of words",
                                  "a fourth set of words"));
    const auto theirs = second.handOver();
    must(second.session.absorb(clinic.copy("again.gkbook")));
    must(clinic.session.absorb(theirs));
  }
  for (auto* session : {&clinic.session, &second.session}) {
    session->lock();
    CHECK(codeOf(session->unlock("a third set of words")) == ErrorCode::vaultWrongPassphrase);
    CHECK(codeOf(session->unlock("a fourth set of words")) == ErrorCode::vaultWrongPassphrase);
    CHECK(must(session->findings()).empty());
    must(session->unlock(test::Clinic::passphrase));
  }
}
