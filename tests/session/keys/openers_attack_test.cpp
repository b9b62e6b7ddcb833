#include "session/keys/keyed_clinic.h"
#include "store/digest/act_digest.h"
#include "store/keys/key_wraps.h"
#include "store/keys/recovery_key.h"

#include <chrono>

using namespace gk;
using base::ErrorCode;
using store::KeyWrap;
using store::Opener;
using test::codeOf;
using test::coordinatorsWords;
using test::faultsIn;
using test::hygienistsWords;
using test::KeyedClinic;
using test::must;
using test::says;

// What opens the names, in the hands of someone with the file and this program's own code, who
// makes every digest right. It never opens what it did not open before.

namespace {

constexpr const char* attackWords = "nine kites on a line";
constexpr const char* changedOpeners = "what opens the names";

/// Past every guard; what `work` leaves behind gets a right digest again.
void forgeOpeners(const base::Path& path, const std::function<void(store::Connection&)>& work) {
  store::Connection book(path, store::Access::readWrite, store::Durability::bulk);
  book.enforceForeignKeys(false);
  std::vector<std::pair<std::string, std::string>> guards;
  {
    auto rows = book.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'");
    while (rows.step())
      guards.emplace_back(rows.column<std::string>(0), rows.column<std::string>(1));
  }
  book.execute("BEGIN");
  for (const auto& [name, text] : guards)
    book.execute("DROP TRIGGER " + name);
  work(book);
  for (const auto& [name, text] : guards)
    book.execute(text);
  store::sealKey(book);
  book.execute("COMMIT");
  book.finish();
}

struct Attack : KeyedClinic {
  base::Path file;

  session::Session open(store::Access access = store::Access::readOnly) {
    return must(session::Session::open(file, laptop, {clock, random}, access,
                                       session::BookKind::throwaway));
  }
  /// As openers in the file lie, the hygienist's first.
  static std::vector<KeyWrap> own(store::Connection& book) {
    auto wraps = store::keyWraps(book);
    std::erase_if(wraps, [](const auto& wrap) { return wrap.opener != Opener::ownPassphrase; });
    return wraps;
  }
  static void replaceWraps(store::Connection& book, const std::vector<KeyWrap>& wraps) {
    book.execute("DELETE FROM key_wrap");
    for (const auto& wrap : wraps)
      store::Openers(book).add(wrap);
  }
  std::string faults() { return faultsIn(file, *this); }
  session::KeyReplaced replace() {
    clock.advance(std::chrono::minutes(1));
    return must(session.replaceBookKey(
        {coordinator, {}},
        {.confirmation = coordinatorsWords, .passphrase = attackWords, .reason = "someone left"}));
  }
};

} // namespace

TEST_CASE("One person's opener pasted onto another opens for neither", "[keys][case-269]") {
  Attack attack;
  attack.file = attack.copy("pasted.gkbook");
  forgeOpeners(attack.file, [](store::Connection& book) {
    auto wraps = Attack::own(book);
    REQUIRE(wraps.size() == 2);
    wraps[1].key = wraps[0].key;
    Attack::replaceWraps(book, wraps);
  });
  auto book = attack.open();
  CHECK(codeOf(book.unlock(coordinatorsWords)) == ErrorCode::vaultWrongPassphrase);
  must(book.unlock(hygienistsWords)); // her own is where it was
  CHECK(book.openedBy() == attack.hygienist);
}

TEST_CASE("An opener that was ended and is put back is named, and the revoked passphrase opens "
          "nothing",
          "[keys][case-269]") {
  Attack attack;
  std::vector<KeyWrap> before;
  attack.file = attack.copy("before.gkbook");
  forgeOpeners(attack.file, [&](store::Connection& book) { before = Attack::own(book); });
  must(attack.session.revokeKey({attack.coordinator, {}}, attack.hygienist, "left"));
  attack.replace();
  const auto ada = attack.childWithoutForm("Ada");
  attack.file = attack.copy("after.gkbook");
  REQUIRE(attack.faults().empty());
  SECTION("as it was, with its key revoked") {
    forgeOpeners(attack.file, [&](store::Connection& book) {
      auto wraps = Attack::own(book);
      wraps.push_back(before.front());
      Attack::replaceWraps(book, wraps);
    });
    CHECK(says(attack.faults(), "not in the history opens the names"));
  }
  SECTION("as an opener of the newer key") {
    forgeOpeners(attack.file, [&](store::Connection& book) {
      auto wraps = Attack::own(book);
      auto again = before.front();
      again.key.name = wraps.front().key.name;
      wraps.push_back(again);
      Attack::replaceWraps(book, wraps);
    });
    CHECK(says(attack.faults(), "not in the history opens the names"));
  }
  SECTION("without a right digest") {
    forgeOpeners(attack.file, [&](store::Connection& book) {
      book.execute("UPDATE key_wrap SET box = randomblob(48)");
    });
    CHECK(says(attack.faults(), changedOpeners));
  }
  CHECK(codeOf(attack.session.absorb(attack.file)) == ErrorCode::storeDamaged);
  // Even by a program that looks at nothing: not even her signing key is there to be tried.
  CHECK(must(attack.session.identity(ada)).shownName() == "Ada Hollowell");
}

TEST_CASE("The logbook's earlier passphrase put back is named; said to be of the newer key it does "
          "not open",
          "[keys][case-269]") {
  Attack attack;
  const auto code = must(attack.session.makeRecoveryCode({attack.coordinator, {}}));
  const auto old = attack.copy("before.gkbook");
  attack.replace();
  attack.file = attack.copy("after.gkbook");
  const auto putBack = [&](const std::string& name) {
    forgeOpeners(attack.file, [&](store::Connection& book) {
      book.execute("COMMIT; ATTACH DATABASE '" + old.string() + "' AS old; BEGIN");
      book.execute("UPDATE main.book SET (salt, kdf_passes, kdf_bytes, key_nonce, key_box, "
                   "recovery_salt, recovery_passes, recovery_bytes, recovery_nonce, recovery_box, "
                   "recovery_digest" +
                   name +
                   ") = (SELECT salt, kdf_passes, kdf_bytes, key_nonce, key_box, recovery_salt, "
                   "recovery_passes, recovery_bytes, recovery_nonce, recovery_box, "
                   "recovery_digest" +
                   name + " FROM old.book)");
    });
  };
  SECTION("with its own name") {
    putBack(", key_name");
    CHECK(says(attack.faults(), "an earlier key of the names was put back"));
    CHECK(codeOf(attack.session.absorb(attack.file)) == ErrorCode::storeDamaged);
  }
  SECTION("with the newer one's") {
    putBack("");
    CHECK(attack.faults().empty()); // as if the passphrase had been changed
    auto book = attack.open();
    CHECK(codeOf(book.unlock(test::Clinic::passphrase)) == ErrorCode::vaultWrongPassphrase);
    CHECK(codeOf(book.unlock(code)) == ErrorCode::vaultWrongPassphrase);
    CHECK(codeOf(book.unlock(attackWords)) == ErrorCode::vaultWrongPassphrase);
    must(book.unlock(coordinatorsWords)); // hers was not touched
  }
}

TEST_CASE("Openers cut short or with a cost out of bounds are refused, and nothing is computed",
          "[keys][case-269]") {
  Attack attack;
  attack.file = attack.copy("dear.gkbook");
  const auto begun = std::chrono::steady_clock::now();
  SECTION("the logbook's own") {
    forgeOpeners(attack.file, [](store::Connection& book) {
      book.execute("UPDATE book SET kdf_passes = 1000000");
    });
    auto book = attack.open();
    CHECK(codeOf(book.unlock(test::Clinic::passphrase)) == ErrorCode::vaultDamaged);
  }
  SECTION("the logbook's own, cut") {
    forgeOpeners(attack.file, [](store::Connection& book) {
      book.execute("UPDATE book SET key_box = substr(key_box, 1, 20)");
    });
    auto book = attack.open();
    CHECK(codeOf(book.unlock(test::Clinic::passphrase)) == ErrorCode::vaultDamaged);
  }
  SECTION("a person's, with her key's cost") {
    test::forge(attack.file, "UPDATE personal_key SET kdf_passes = 16, kdf_bytes = 268435456");
    auto book = attack.open();
    CHECK(codeOf(book.unlock(hygienistsWords, attack.hygienist)) == ErrorCode::vaultDamaged);
    must(book.unlock(test::Clinic::passphrase));
  }
  SECTION("a person's, cut") {
    forgeOpeners(attack.file, [](store::Connection& book) {
      book.execute("PRAGMA ignore_check_constraints = ON");
      auto wraps = Attack::own(book);
      for (auto& wrap : wraps)
        wrap.key.box.resize(20);
      Attack::replaceWraps(book, wraps);
    });
    CHECK_FALSE(attack.faults().empty()); // its CHECK
  }
  CHECK(std::chrono::steady_clock::now() - begun < std::chrono::seconds(20));
}

TEST_CASE("A derivation that someone made cheap in the file seals no key of the names",
          "[keys][case-269]") {
  Attack attack;
  attack.replace();
  // The hygienist's passphrase opens the new key once she enters it; not under a cheaper one.
  REQUIRE(must(attack.session.whoOpens()).size() == 1);
  attack.file = attack.copy("cheap.gkbook");
  auto real = must(session::Session::open(attack.file, attack.laptop, {attack.clock, attack.random},
                                          store::Access::readWrite, session::BookKind::real));
  must(real.unlock(attackWords));
  must(real.openKey(attack.hygienist, hygienistsWords)); // at the cost of a throwaway book
  CHECK(must(real.whoOpens()).size() == 1);
}
