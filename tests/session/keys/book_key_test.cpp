#include "session/book/snapshot.h"
#include "session/keys/keyed_clinic.h"
#include "store/digest/act_digest.h"
#include "store/keys/key_wraps.h"

#include <algorithm>

using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::coordinatorsWords;
using test::faultsIn;
using test::hygienistsWords;
using test::KeyedClinic;
using test::must;
using test::says;

// Another key of the names in the place of the one that someone knew who has left.

namespace {

constexpr const char* newWords = "nine kites on a line";
constexpr const char* otherWords = "a ferry at the far bank";

session::KeyReplacing replacing(const char* passphrase = newWords) {
  return {.confirmation = coordinatorsWords, .passphrase = passphrase, .reason = "someone left"};
}

/// A keyed clinic that replaced its key; someone kept a copy of before.
struct Replacing : KeyedClinic {
  base::By lead{coordinator, {}};
  base::Path before = copy("before.gkbook");

  session::KeyReplaced replace(const char* passphrase = newWords) {
    clock.advance(std::chrono::minutes(1));
    return must(session.replaceBookKey(lead, replacing(passphrase)));
  }
  session::Session open(const base::Path& path) {
    return must(session::Session::open(path, laptop, {clock, random}, store::Access::readOnly,
                                       session::BookKind::throwaway));
  }
};

base::Result<std::string> papersSealedBy(session::Session& session) {
  auto draft = must(session.snapshot());
  while (!must(draft->copy(64)))
    ;
  return must(draft->finish()).sealPapers({{"referrals.pdf", "Mina Hollowell"}});
}

std::vector<std::string> namesIn(session::Session& session) {
  std::vector<std::string> names;
  for (const auto& [child, name] : must(session.names()))
    names.push_back(name);
  std::ranges::sort(names);
  return names;
}

} // namespace

TEST_CASE("After the key of the names was replaced the old passphrase, code and own passphrases "
          "open nothing of the logbook, and every name is there",
          "[keys][case-267]") {
  Replacing clinic;
  auto& book = clinic.session;
  const auto code = must(book.makeRecoveryCode(clinic.lead));
  must(book.openKey(clinic.hygienist, hygienistsWords));
  must(book.enterKey({clinic.assistant, {}}, "a third set of words"));
  const auto done = clinic.replace();
  const auto ada = clinic.child("Ada");
  book.lock();
  for (const auto* words : {test::Clinic::passphrase, code.c_str(), "a third set of words"})
    CHECK(codeOf(book.unlock(words)) == ErrorCode::vaultWrongPassphrase);
  must(book.unlock(newWords));
  CHECK(namesIn(book) == std::vector<std::string>{"Ada Hollowell", "Mina Hollowell"});
  CHECK(must(book.identityRevisions(ada)).size() == 1);
  CHECK(must(book.identityRevisions(clinic.mina)).size() == 1);
  // Whose key was open keeps hers; who was not there enters it once.
  CHECK(done.toEnter.size() == 1);
  for (const auto* words : {hygienistsWords, coordinatorsWords, done.recoveryCode.c_str()}) {
    book.lock();
    must(book.unlock(words));
    CHECK(namesIn(book).size() == 2);
  }
  must(book.openKey(clinic.assistant, "a third set of words"));
  book.lock();
  must(book.unlock("a third set of words"));
  CHECK(book.openedBy() == clinic.assistant);
  CHECK(must(book.findings()).empty());
  // A backup of it is what it is.
  auto copy = clinic.open(clinic.copy("after.gkbook"));
  CHECK(codeOf(copy.unlock(test::Clinic::passphrase)) == ErrorCode::vaultWrongPassphrase);
  must(copy.unlock(newWords));
  CHECK(namesIn(copy).size() == 2);
}

TEST_CASE("The key is replaced by one who keeps the team, with a reason, the own passphrase and a "
          "new one for the logbook",
          "[keys][case-267]") {
  Replacing clinic;
  auto& book = clinic.session;
  const auto codeFor = [&](base::By by, const session::KeyReplacing& how) {
    return codeOf(book.replaceBookKey(by, how));
  };
  CHECK(codeFor({clinic.assistant, {}}, replacing()) == ErrorCode::ruleCredential);
  CHECK(codeFor({clinic.coordinator, clinic.assistant}, replacing()) == ErrorCode::ruleSignature);
  auto how = replacing();
  how.reason = " ";
  CHECK(codeFor(clinic.lead, how) == ErrorCode::ruleReason);
  how = replacing();
  how.confirmation = test::Clinic::passphrase; // she has her own
  CHECK(codeFor(clinic.lead, how) == ErrorCode::vaultWrongPassphrase);
  CHECK(codeFor(clinic.lead, replacing(test::Clinic::passphrase)) == ErrorCode::callMalformed);
  CHECK(codeFor(clinic.lead, replacing("short")) == ErrorCode::callMalformed);
  how = replacing();
  how.other = "no other laptop's passphrase";
  CHECK(codeFor(clinic.lead, how) == ErrorCode::vaultWrongPassphrase);
  book.lock();
  CHECK(codeFor(clinic.lead, replacing()) == ErrorCode::vaultLocked);
  must(book.unlock(test::Clinic::passphrase));
  CHECK(must(book.keyReplacements()).empty());
  SECTION("who has no passphrase of her own confirms with the logbook's") {
    must(book.revokeKey(clinic.lead, clinic.coordinator, "forgotten"));
    how = replacing();
    CHECK(codeFor(clinic.lead, how) == ErrorCode::vaultWrongPassphrase);
    how.confirmation = test::Clinic::passphrase;
    must(book.replaceBookKey(clinic.lead, how));
  }
  SECTION("with a PIN it asks for that as well") {
    must(book.setPin(clinic.lead, clinic.coordinator, "2580"));
    CHECK(codeFor(clinic.lead, replacing()) == ErrorCode::pinNeeded);
    must(book.replaceBookKey(clinic.lead, replacing(),
                             must(book.confirm(clinic.coordinator, "2580"))));
  }
}

TEST_CASE("Offboarding is one act, and then the key is replaced: what she knows opens the copies "
          "of before, which are listed, and nothing that was written after",
          "[keys][case-267]") {
  Replacing clinic;
  auto& book = clinic.session;
  must(book.noteBackup(clinic.by, {clinic.day, "stick.gkbook"}));
  must(book.retireMember(clinic.lead, clinic.hygienist, "moved away"));
  clinic.by = clinic.lead; // who goes on
  CHECK(must(book.unsignedDays(clinic.hygienist)).size() == 1);
  const auto copies = must(book.knownCopies());
  REQUIRE(copies.size() == 1);
  CHECK(says(copies.front(), "the backup stick.gkbook of "));
  clinic.replace();
  const auto lines = must(book.keyReplacements());
  REQUIRE(lines.size() == 1);
  CHECK(says(lines.front().words(), "someone left"));
  CHECK(lines.front().copies == copies);
  const auto ada = clinic.childWithoutForm("Ada");
  const auto after = clinic.copy("after.gkbook");
  // The copy of before, and her own passphrase or the logbook's: the names of then.
  for (const auto* words : {test::Clinic::passphrase, hygienistsWords}) {
    auto old = clinic.open(clinic.before);
    must(old.unlock(words));
    CHECK(namesIn(old) == std::vector<std::string>{"Mina Hollowell"});
  }
  // She merges the newer file into her copy: none of what was written after it opens.
  auto hers =
      must(session::Session::open(clinic.before, clinic.laptop, {clinic.clock, clinic.random},
                                  store::Access::readWrite, session::BookKind::throwaway));
  must(hers.unlock(test::Clinic::passphrase));
  must(hers.absorb(after));
  CHECK(codeOf(hers.identity(ada)) == ErrorCode::vaultReplaced);
  CHECK(must(hers.identity(clinic.mina)).shownName() == "Mina Hollowell");
  CHECK(namesIn(hers) == std::vector<std::string>{"Mina Hollowell"});
  hers.lock();
  CHECK(codeOf(hers.unlock(hygienistsWords)) == ErrorCode::vaultWrongPassphrase); // revoked
  must(hers.unlock(test::Clinic::passphrase));
  CHECK(codeOf(hers.identity(ada)) == ErrorCode::vaultReplaced);
}

TEST_CASE(
    "The key is replaced on one laptop while the other goes on recording: merged in any order "
    "both show every name under the new passphrase, and the old one ends there too",
    "[keys][case-268]") {
  Replacing clinic;
  auto& first = clinic.session;
  test::Second second(clinic, "second.gkbook", 268);
  clinic.replace();
  clinic.child("Ada");
  clinic.clock.advance(std::chrono::minutes(1));
  const auto bea = must(second.session.enrollChild(
      clinic.by,
      {.number = roster::withCheckDigit("3301"),
       .birth = {2019, 3},
       .school = clinic.school,
       .grade = "2",
       .room = "6",
       .note = {}},
      {.first = "Bea", .last = "Quill", .birth = must(base::Date::parse("2019-03-14"))}));
  SECTION("first takes, then gives") {
    must(first.absorb(second.handOver()));
    must(second.session.absorb(clinic.copy("one.gkbook")));
  }
  SECTION("first gives, then takes") {
    must(second.session.absorb(clinic.copy("one.gkbook")));
    must(first.absorb(second.handOver()));
  }
  SECTION("each gives as it was") {
    const auto theirs = second.handOver();
    must(second.session.absorb(clinic.copy("one.gkbook")));
    must(first.absorb(theirs));
    must(first.absorb(theirs));
  }
  // Until the new passphrase was given there, what was open reads the names of before and adds
  // none.
  CHECK(must(second.session.identity(bea)).shownName() == "Bea Quill");
  CHECK(namesIn(second.session).size() == 2);
  CHECK(codeOf(second.session.enrollChild(
            clinic.by,
            {.number = roster::withCheckDigit("3302"),
             .birth = {2019, 3},
             .school = clinic.school,
             .grade = "2",
             .room = "6",
             .note = {}},
            {.first = "Cy", .last = "Quill", .birth = must(base::Date::parse("2019-03-14"))})) ==
        ErrorCode::vaultReplaced);
  CHECK(codeOf(second.session.changePassphrase(clinic.by, test::Clinic::passphrase, otherWords)) ==
        ErrorCode::vaultReplaced);
  CHECK(codeOf(papersSealedBy(second.session)) == ErrorCode::vaultReplaced);
  const std::vector<std::string> all{"Ada Hollowell", "Bea Quill", "Mina Hollowell"};
  for (auto* session : {&first, &second.session}) {
    CHECK(must(session->findings()).empty());
    session->lock();
    must(session->unlock(newWords));
    CHECK(namesIn(*session) == all);
    session->lock();
    CHECK(codeOf(session->unlock(test::Clinic::passphrase)) == ErrorCode::vaultWrongPassphrase);
    must(session->unlock(coordinatorsWords)); // came with the merge
    CHECK(must(session->keyReplacements()).size() == 1);
  }
  // And on from there.
  clinic.clock.advance(std::chrono::minutes(1));
  must(second.session.enterKey({clinic.assistant, {}}, "a third set of words"));
  must(first.absorb(second.handOver()));
  first.lock();
  must(first.unlock("a third set of words"));
  CHECK(must(first.findings()).empty());
}

TEST_CASE("Two laptops replaced the key while apart: each goes on under its own, and one who knows "
          "both passphrases joins them under a third",
          "[keys][case-268]") {
  Replacing clinic;
  auto& first = clinic.session;
  test::Second second(clinic, "second.gkbook", 269);
  clinic.replace(newWords);
  const auto ada = clinic.childWithoutForm("Ada");
  clinic.clock.advance(std::chrono::minutes(1));
  must(second.session.replaceBookKey(clinic.lead, replacing(otherWords)));
  const auto bea = test::enrollAda(second.session, clinic, "3301");
  const auto theirs = second.handOver();
  const auto ours = clinic.copy("one.gkbook");
  must(first.absorb(theirs));
  must(second.session.absorb(ours));
  CHECK(codeOf(first.identity(bea)) == ErrorCode::vaultReplaced);
  CHECK(codeOf(second.session.identity(ada)) == ErrorCode::vaultReplaced);
  CHECK(must(first.identity(ada)).shownName() == "Ada Hollowell");
  clinic.clock.advance(std::chrono::minutes(1));
  auto how = replacing("third words of the day");
  SECTION("with the one that is hers open") {
    how.other = otherWords;
  }
  SECTION("with the other one open, nothing of hers is let go without her own") {
    first.lock();
    must(first.unlock(otherWords));
    CHECK(must(first.identity(bea)).shownName() == "Ada Quill");
    CHECK(codeOf(first.changePassphrase(clinic.by, otherWords, "some other words")) ==
          ErrorCode::vaultReplaced);
    CHECK(codeOf(first.makeRecoveryCode(clinic.lead)) == ErrorCode::vaultReplaced);
    CHECK(codeOf(first.replaceBookKey(clinic.lead, how)) == ErrorCode::vaultReplaced);
    how.other = newWords;
  }
  must(first.replaceBookKey(clinic.lead, how));
  CHECK(namesIn(first).size() == 3);
  must(second.session.absorb(clinic.copy("joined.gkbook")));
  second.session.lock();
  must(second.session.unlock("third words of the day"));
  CHECK(namesIn(second.session) == namesIn(first));
  must(first.absorb(second.handOver()));
  for (auto* session : {&first, &second.session}) {
    session->lock();
    for (const auto* words : {test::Clinic::passphrase, newWords, otherWords})
      CHECK(codeOf(session->unlock(words)) == ErrorCode::vaultWrongPassphrase);
    must(session->unlock("third words of the day"));
    CHECK(namesIn(*session).size() == 3);
    CHECK(must(session->findings()).empty());
  }
}
