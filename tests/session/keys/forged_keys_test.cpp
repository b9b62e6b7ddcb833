#include "crypto/derive.h"
#include "crypto/sign.h"
#include "session/keys/keyed_clinic.h"
#include "store/book.h"
#include "store/digest/act_digest.h"

using namespace gk;
using base::ErrorCode;
using session::SignerGives;
using test::codeOf;
using test::coordinatorsWords;
using test::faultsIn;
using test::hygienistsWords;
using test::KeyedClinic;
using test::must;
using test::says;

// Whoever has the file, this program's own code and the passphrase of one member: what is written
// here has right digests, and is noticed all the same.

namespace {

/// A clinic that was signed once, and what someone writes into a copy of its file by the store
/// alone, past every rule of the session.
struct Forger : KeyedClinic {
  base::Path file;
  Forger() {
    sign();
    file = copy("theirs.gkbook");
  }
  store::Book open() {
    return must(store::Book::open(file, laptop, store::Access::readWrite, store::Durability::bulk,
                                  clock.now().at, store::Checkup::skip));
  }
  void write(const std::function<void(store::Book&, store::Act&)>& work) {
    clock.advance(std::chrono::hours(1));
    auto book = open();
    must(book.act({hygienist, {}}, clock.now(), [&](store::Act& act) { work(book, act); }));
    must(book.finish());
  }
  std::string faults() { return faultsIn(file, *this); }
  base::Recorded<roster::PersonalKey> keyOf(store::Book& book, base::MemberId who) {
    return must(book.current<roster::PersonalKey>(store::rowsOf("member", who))).front();
  }
  roster::PersonalKey theirs(base::MemberId who) {
    const auto key = crypto::SigningKey::random(random);
    return {.member = who,
            .publicKey = key.publicKey(),
            .salt = roster::Bytes(16, 1),
            .passes = 1,
            .memoryBytes = 8192,
            .nonce = roster::Bytes(24, 1),
            .box = roster::Bytes(48, 1)};
  }
};

} // namespace

TEST_CASE("A key that another gives a member beside her own is named, and so is one that is "
          "exchanged or comes back after it was revoked",
          "[keys][case-225]") {
  Forger forger;
  REQUIRE(forger.faults().empty());
  SECTION("beside her own") {
    forger.write(
        [&](store::Book&, store::Act& act) { act.add(forger.theirs(forger.coordinator)); });
    CHECK(says(forger.faults(), " was added while another one was valid"));
  }
  SECTION("in place of her own") {
    forger.write([&](store::Book& book, store::Act& act) {
      act.correct(forger.keyOf(book, forger.coordinator), forger.theirs(forger.coordinator),
                  "another passphrase");
    });
    CHECK(says(forger.faults(), " was replaced by another"));
  }
  SECTION("given to another person") {
    forger.write([&](store::Book& book, store::Act& act) {
      const auto own = forger.keyOf(book, forger.hygienist);
      auto lent = own.value;
      lent.member = forger.coordinator;
      act.correct(own, lent, "another passphrase");
    });
    CHECK(says(forger.faults(), " was replaced by another"));
  }
  SECTION("back after it was revoked") {
    forger.write([&](store::Book& book, store::Act& act) {
      const auto own = forger.keyOf(book, forger.coordinator);
      auto gone = own.value;
      gone.revoked = true;
      act.correct(own, gone, "left");
      act.openers().prune(); // what her passphrase opened is named otherwise
    });
    CHECK(forger.faults().empty());
    forger.write([&](store::Book& book, store::Act& act) {
      const auto own = forger.keyOf(book, forger.coordinator);
      auto back = own.value;
      back.revoked = false;
      act.correct(own, back, "another passphrase");
    });
    CHECK(says(forger.faults(), " was revoked and is valid again"));
  }
  // None of it is opened or merged.
  CHECK(codeOf(forger.session.absorb(forger.file)) == ErrorCode::storeDamaged);
}

TEST_CASE("A day that is closed without signatures, or whose signers signed different things, is "
          "named",
          "[keys][case-225]") {
  Forger forger;
  forger.clock.advance(std::chrono::hours(24));
  const auto day = must(forger.session.openDay(
      forger.by,
      {forger.term, forger.school, must(base::Date::parse("2026-11-18")), 1, {}, false}));
  forger.file = forger.copy("second day.gkbook");
  const roster::DayClosure closure{day, forger.hygienist, forger.assistant};
  const auto bare = [&](const store::ChainState& chains, roster::ClosureId id,
                        roster::Capacity capacity) {
    return roster::DaySignature{.day = day,
                                .closure = id,
                                .signer = capacity == roster::Capacity::clinical ? forger.hygienist
                                                                                 : forger.assistant,
                                .capacity = capacity,
                                .key = {},
                                .counts = {},
                                .schema = chains.schema,
                                .heads = chains.heads};
  };
  SECTION("no signature at all") {
    forger.write([&](store::Book&, store::Act& act) { act.add(closure); });
    const auto faults = forger.faults();
    INFO(faults);
    CHECK(says(faults, " on " + test::dateWords("2026-11-18") + " is missing"));
  }
  SECTION("by name only, of one who has a key") {
    forger.write([&](store::Book& book, store::Act& act) {
      const auto chains = must(book.chains());
      const auto id = act.add(closure);
      act.add(bare(chains, id, roster::Capacity::clinical));
      act.add(bare(chains, id, roster::Capacity::completeness));
    });
    const auto faults = forger.faults();
    INFO(faults);
    CHECK(says(faults, "it is by name only, but the person had a key"));
  }
  SECTION("her own signature, and another's name under other counts") {
    forger.write([&](store::Book& book, store::Act& act) {
      const auto chains = must(book.chains());
      const auto id = act.add(closure);
      act.add(bare(chains, id, roster::Capacity::clinical));
      auto other = bare(chains, id, roster::Capacity::completeness);
      other.counts.screened = 9;
      act.add(other);
    });
    const auto faults = forger.faults();
    INFO(faults);
    CHECK(says(faults, " covers a different history or different counts"));
  }
  SECTION("a signature of another day, replayed") {
    const auto old = must(forger.session.dayRecords(forger.day)).daySignatures;
    forger.write([&](store::Book&, store::Act& act) {
      const auto id = act.add(roster::DayClosure{day, forger.hygienist, forger.coordinator});
      for (auto one : old) {
        one.value.day = day;
        one.value.closure = id;
        act.add(one.value);
      }
    });
    const auto faults = forger.faults();
    INFO(faults);
    CHECK(says(faults, " on " + test::dateWords("2026-11-18") +
                           " does not match what the logbook says: entries before it were added or "
                           "removed"));
  }
}

TEST_CASE("A key that was opened signs once; the next signature asks its person again",
          "[keys][case-222]") {
  KeyedClinic clinic;
  auto& book = clinic.session;
  const auto asks = [&](base::MemberId who) { return must(book.asksToSign(who)); };
  must(book.setPin({clinic.hygienist, {}}, clinic.hygienist, "2580"));
  must(book.signIn(clinic.hygienist, "2580"));
  CHECK(asks(clinic.hygienist) == SignerGives::passphrase); // a PIN alone opens no key
  CHECK(asks(clinic.assistant) == SignerGives::nothing);    // by name only, and no PIN
  const base::By by{clinic.hygienist, {}};
  clinic.openKeys();
  must(book.signDay(by, clinic.closure()));
  must(book.reopenDay(by, clinic.day, "a wrong tooth",
                      must(book.confirm(clinic.hygienist, "2580"))));
  CHECK(asks(clinic.hygienist) == SignerGives::pin);          // entered once today
  CHECK(asks(clinic.coordinator) == SignerGives::passphrase); // has no PIN
  CHECK(codeOf(book.signDay(by, clinic.closure())) == ErrorCode::pinNeeded);
  CHECK(codeOf(book.showSigner(clinic.hygienist, "9038")) == ErrorCode::pinWrong);
  clinic.clock.advance(std::chrono::seconds(3));
  must(book.showSigner(clinic.hygienist, "2580"));
  CHECK(codeOf(book.signDay(by, clinic.closure())) == ErrorCode::ruleSignature);
  must(book.openKey(clinic.coordinator, coordinatorsWords));
  // Not for as long as someone cares to wait.
  clinic.clock.advance(session::KeyVerbs::signingLasts + std::chrono::seconds(1));
  CHECK(asks(clinic.hygienist) == SignerGives::pin);
  must(book.showSigner(clinic.hygienist, "2580"));
  must(book.openKey(clinic.coordinator, coordinatorsWords));
  SECTION("the idle lock puts the keys to sleep") {
    REQUIRE(book.lockByPin() == session::OpenedBy::pin);
    must(book.unlockByPin(clinic.hygienist, "2580"));
    CHECK(asks(clinic.hygienist) == SignerGives::pin);
    CHECK(asks(clinic.coordinator) == SignerGives::passphrase);
    must(book.showSigner(clinic.hygienist, "2580"));
    must(book.openKey(clinic.coordinator, coordinatorsWords));
    must(book.signDay(by, clinic.closure()));
  }
  SECTION("a lock wipes them") {
    book.lock();
    CHECK(asks(clinic.hygienist) == SignerGives::passphrase);
  }
  CHECK(must(book.findings()).empty());
}

TEST_CASE("Who signs by name only and has a PIN gives it", "[keys][case-221]") {
  test::Clinic clinic;
  auto& book = clinic.session;
  clinic.standardVisit(clinic.child("Mina"));
  must(book.setPin({clinic.coordinator, {}}, clinic.coordinator, "2580"));
  const roster::DayClosure closure{clinic.day, clinic.hygienist, clinic.coordinator};
  const base::By by{clinic.hygienist, {}};
  CHECK(codeOf(book.signDay(by, closure)) == ErrorCode::pinNeeded);
  must(book.showSigner(clinic.coordinator, "2580"));
  must(book.signDay(by, closure));
}

TEST_CASE("Setting or revoking a key, ending rights and the recovery code ask for the PIN of who "
          "does it",
          "[keys][case-223]") {
  test::Clinic clinic;
  auto& book = clinic.session;
  must(book.setPin({clinic.hygienist, {}}, clinic.hygienist, "2580"));
  must(book.signIn(clinic.hygienist, "2580"));
  const base::By by{clinic.hygienist, {}};
  const auto pin = [&] { return must(book.confirm(clinic.hygienist, "2580")); };
  CHECK(codeOf(book.enterKey(by, hygienistsWords)) == ErrorCode::pinNeeded);
  must(book.enterKey(by, hygienistsWords, pin()));
  CHECK(codeOf(book.makeRecoveryCode(by)) == ErrorCode::pinNeeded);
  must(book.makeRecoveryCode(by, pin()));
  CHECK(codeOf(book.withdrawRecoveryCode(by, "lost")) == ErrorCode::pinNeeded);
  CHECK(codeOf(book.revokeKey(by, clinic.hygienist, "seen")) == ErrorCode::pinNeeded);
  must(book.revokeKey(by, clinic.hygienist, "seen", pin()));
  CHECK(codeOf(book.retireMember(by, clinic.assistant, "left")) == ErrorCode::pinNeeded);
}

TEST_CASE("A cost that someone lowered in the file makes no new passphrase cheap to guess at",
          "[keys][case-222]") {
  KeyedClinic clinic;
  const auto path = clinic.copy("cheap.gkbook");
  {
    store::Connection book(path, store::Access::readWrite, store::Durability::bulk);
    book.execute("UPDATE book SET kdf_passes = 2");
    store::sealKey(book);
    book.finish();
  }
  {
    auto copy =
        must(session::Session::open(path, clinic.laptop, {clinic.clock, clinic.random},
                                    store::Access::readWrite, session::BookKind::throwaway));
    must(copy.enterKey({clinic.assistant, {}}, "a third set of words"));
    must(copy.finish());
  }
  auto looked = must(store::Book::open(path, clinic.laptop, store::Access::readOnly,
                                       store::Durability::bulk, clinic.clock.now().at));
  const auto key =
      must(looked.current<roster::PersonalKey>(store::rowsOf("member", clinic.assistant))).front();
  CHECK(key.value.passes == crypto::KdfCost::cheapest().opsLimit); // the program's, not the file's
}

TEST_CASE("A recovery code that the history does not know of is named", "[keys][case-228]") {
  Forger forger;
  forger.write([&](store::Book&, store::Act& act) {
    act.add(roster::School{"Something else", "SE"});
    act.keepRecovery(
        store::KeyRow{roster::Bytes(16, 1), 1, 8192, roster::Bytes(24, 1), roster::Bytes(48, 1)});
  });
  const auto faults = forger.faults();
  INFO(faults);
  CHECK(says(faults, "a recovery code that is not in the history opens the names"));
}

TEST_CASE("A recovery code that is withdrawn on one laptop opens the other's logbook no more once "
          "they are merged",
          "[keys][case-228]") {
  test::Clinic clinic;
  const auto code = must(clinic.session.makeRecoveryCode(clinic.by));
  test::Second second(clinic, "second.gkbook", 5);
  must(second.session.withdrawRecoveryCode(clinic.by, "the sheet is lost"));
  CHECK(must(clinic.session.hasRecoveryCode()));
  must(clinic.session.absorb(second.handOver()));
  CHECK_FALSE(must(clinic.session.hasRecoveryCode()));
  clinic.session.lock();
  CHECK_FALSE(clinic.session.unlock(code).has_value());
  must(clinic.session.unlock(test::Clinic::passphrase));
  CHECK(must(clinic.session.findings()).empty());
}

TEST_CASE("A day that was signed with a key revoked meanwhile on another laptop says so",
          "[keys][case-226]") {
  KeyedClinic clinic;
  test::Second second(clinic, "second.gkbook", 5);
  must(clinic.session.revokeKey({clinic.coordinator, {}}, clinic.hygienist, "she left"));
  clinic.clock.advance(std::chrono::hours(1));
  must(second.session.openKey(clinic.hygienist, hygienistsWords));
  must(second.session.openKey(clinic.coordinator, coordinatorsWords));
  must(second.session.signDay(clinic.by, clinic.closure()));
  must(clinic.session.absorb(second.handOver()));
  CHECK(must(clinic.session.findings()).empty()); // in good faith, as far as that laptop knew
  const auto sheet = must(clinic.session.signedSheet(clinic.code()));
  REQUIRE(sheet.lines.size() == 2);
  CHECK(says(sheet.lines[0].revoked,
             "had been revoked on " + test::dateWords("2026-11-17") + " on another laptop"));
  CHECK(sheet.lines[1].revoked.empty());
}
