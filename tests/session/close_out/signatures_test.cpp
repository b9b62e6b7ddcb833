#include "session/keys/keyed_clinic.h"

using namespace gk;
using base::ErrorCode;
using session::KeyStanding;
using test::codeOf;
using test::coordinatorsWords;
using test::faultsIn;
using test::forge;
using test::hygienistsWords;
using test::KeyedClinic;
using test::must;
using test::says;

TEST_CASE("A day is signed with the key of each signer, and its sheet has a code that proves it",
          "[keys][case-220]") {
  KeyedClinic clinic;
  CHECK(codeOf(clinic.session.signDay(clinic.by, clinic.closure())) == ErrorCode::ruleSignature);
  must(clinic.session.openKey(clinic.hygienist, hygienistsWords));
  const auto other = clinic.session.signDay(clinic.by, clinic.closure());
  CHECK(codeOf(other) == ErrorCode::ruleSignature); // no one signs for another
  CHECK(says(other.error().detail, "was not entered today"));
  clinic.sign();
  const auto words = reports::signingWords(test::sheetOf(clinic));
  REQUIRE(words.size() == 1);
  INFO(words[0]);
  CHECK(says(words[0], "(clinical, own key)"));
  CHECK(says(words[0], "(own key). Code of this sheet: " + clinic.code()));
  CHECK(clinic.code().size() == 23); // 20 characters in four groups

  auto typed = clinic.code();
  for (auto& c : typed)
    c = c == '-' ? ' ' : c == '0' ? 'o' : c == '1' ? 'l' : static_cast<char>(std::tolower(c));
  const auto sheet = must(clinic.session.signedSheet(typed));
  CHECK(sheet.stands());
  CHECK(sheet.day == clinic.day);
  CHECK(sheet.counts.screened == 1);
  REQUIRE(sheet.lines.size() == 2);
  CHECK_FALSE(sheet.lines[0].byNameOnly);
  CHECK(must(clinic.session.findings()).empty());

  auto wrong = clinic.code();
  wrong[0] = wrong[0] == 'A' ? 'B' : 'A';
  CHECK(codeOf(clinic.session.signedSheet(wrong)) == ErrorCode::textMalformed);
  std::array<std::uint8_t, 32> others{};
  CHECK(codeOf(clinic.session.signedSheet(base::printedCode(others, base::sheetCodeShape))) ==
        ErrorCode::notFound);
}

TEST_CASE("Without keys a day is signed by name only, and the sheet says so plainly",
          "[keys][case-221]") {
  test::Clinic clinic;
  clinic.standardVisit(clinic.child("Mina"));
  must(clinic.session.signDay(clinic.by, {clinic.day, clinic.hygienist, clinic.coordinator}));
  const auto sheet = test::sheetOf(clinic);
  const auto words = reports::signingWords(sheet);
  REQUIRE(words.size() == 1);
  CHECK(says(words[0], "(clinical, by name only, no key)"));
  CHECK(says(words[0], "(by name only, no key)"));
  const auto known = must(clinic.session.signedSheet(sheet.signings.back().code));
  CHECK(known.stands());
  CHECK(known.lines.at(1).byNameOnly);
  // A key that is set afterwards makes nothing of it doubtful.
  must(clinic.session.enterKey({clinic.hygienist, {}}, hygienistsWords));
  CHECK(must(clinic.session.findings()).empty());
}

TEST_CASE("A wrong passphrase signs nothing, and the waits grow", "[keys][case-222]") {
  KeyedClinic clinic;
  const auto wrong = [&] { return codeOf(clinic.session.openKey(clinic.hygienist, "not these")); };
  for (int i = 0; i < 3; ++i)
    CHECK(wrong() == ErrorCode::vaultWrongPassphrase);
  CHECK(wrong() == ErrorCode::vaultWait);
  // The right one waits too; another person does not.
  CHECK(codeOf(clinic.session.openKey(clinic.hygienist, hygienistsWords)) == ErrorCode::vaultWait);
  must(clinic.session.openKey(clinic.coordinator, coordinatorsWords));
  clinic.clock.setWall(base::atLocal(must(base::Date::parse("2026-11-18")),
                                     std::chrono::minutes(540), std::chrono::minutes(-300)));
  CHECK(wrong() == ErrorCode::vaultWait); // the wall clock does not shorten it
  clinic.clock.advance(std::chrono::seconds(10));
  CHECK(wrong() == ErrorCode::vaultWrongPassphrase);
  clinic.clock.advance(std::chrono::seconds(19));
  CHECK(wrong() == ErrorCode::vaultWait);
  clinic.clock.advance(std::chrono::seconds(1));
  must(clinic.session.openKey(clinic.hygienist, hygienistsWords));
  CHECK(must(clinic.session.keyStanding(clinic.hygienist)) == KeyStanding::open);
  // Once a day, and not past a lock.
  clinic.clock.advance(std::chrono::hours(24));
  CHECK(must(clinic.session.keyStanding(clinic.hygienist)) == KeyStanding::stands);
  must(clinic.session.openKey(clinic.hygienist, hygienistsWords));
  clinic.session.lock();
  CHECK(must(clinic.session.keyStanding(clinic.hygienist)) == KeyStanding::stands);
}

TEST_CASE("Each person sets and changes the own passphrase alone; another can only revoke the key",
          "[keys][case-223]") {
  KeyedClinic clinic;
  auto& book = clinic.session;
  CHECK(codeOf(book.enterKey({clinic.hygienist, {}}, "four other words")) ==
        ErrorCode::ruleSignature);
  CHECK(codeOf(book.enterKey({clinic.assistant, clinic.hygienist}, "four other words")) ==
        ErrorCode::ruleSignature);
  CHECK(codeOf(book.enterKey({clinic.assistant, {}}, "short")) == ErrorCode::callMalformed);
  CHECK(codeOf(book.changeKey({clinic.hygienist, {}}, coordinatorsWords, "four other words")) ==
        ErrorCode::vaultWrongPassphrase);
  must(book.changeKey({clinic.hygienist, {}}, hygienistsWords, "four other words"));
  CHECK(codeOf(book.openKey(clinic.hygienist, hygienistsWords)) == ErrorCode::vaultWrongPassphrase);
  must(book.openKey(clinic.hygienist, "four other words"));

  CHECK(codeOf(book.revokeKey({clinic.assistant, {}}, clinic.hygienist, "forgotten")) ==
        ErrorCode::ruleCredential);
  must(book.revokeKey({clinic.coordinator, {}}, clinic.hygienist, "forgotten"));
  CHECK(must(book.keyStanding(clinic.hygienist)) == KeyStanding::revoked);
  must(book.openKey(clinic.coordinator, coordinatorsWords));
  // Whoever had a key does not go back to a bare name.
  const auto bare = book.signDay(clinic.by, clinic.closure());
  CHECK(codeOf(bare) == ErrorCode::ruleSignature);
  CHECK(says(bare.error().detail, "revoked"));
  must(book.enterKey({clinic.hygienist, {}}, "a third set of words"));
  must(book.openKey(clinic.hygienist, "a third set of words"));
  must(book.signDay(clinic.by, clinic.closure()));
  CHECK(must(book.findings()).empty());
}

TEST_CASE(
    "A history that was written again after the signing is named with its day and its signers",
    "[keys][case-224]") {
  KeyedClinic clinic;
  clinic.sign();
  const auto code = clinic.code();
  const auto forged = clinic.copy("forged.gkbook");
  forge(forged, "UPDATE placement SET tooth = 17 WHERE tooth = 16");
  const auto faults = faultsIn(forged, clinic);
  INFO(faults);
  CHECK(says(faults, " on " + test::dateWords("2026-11-17") +
                         " does not match what the logbook says: an entry up to then was changed, "
                         "added or removed"));
  for (const auto& member : must(clinic.session.members()))
    if (member.id == clinic.hygienist || member.id == clinic.coordinator)
      CHECK(says(faults, "the signature of " + member.value.name));
  const session::World world{clinic.clock, clinic.random};
  CHECK_FALSE(session::Session::open(forged, clinic.laptop, world, store::Access::readOnly));
  const auto sheet = must(session::Session::inspectSheet(forged, world, code));
  CHECK_FALSE(sheet.stands());
  CHECK_FALSE(sheet.lines.at(0).flaw.empty());
  // Neither is it merged, nor copied.
  CHECK(codeOf(clinic.session.absorb(forged)) == ErrorCode::storeDamaged);
}

TEST_CASE("No sheet is called good in a logbook whose rows were taken away under their digests",
          "[keys][case-338]") {
  KeyedClinic clinic;
  clinic.sign();
  const session::World world{clinic.clock, clinic.random};
  const auto good = clinic.copy("good.gkbook");
  CHECK(must(session::Session::inspectSheet(good, world, clinic.code())).stands());
  const auto emptied = clinic.copy("emptied.gkbook");
  forge(emptied, "DELETE FROM placement", test::Digests::left);
  const auto sheet = must(session::Session::inspectSheet(emptied, world, clinic.code()));
  CHECK_FALSE(sheet.stands());
  for (const auto& line : sheet.lines)
    CHECK(says(line.flaw, "damaged"));
}

TEST_CASE("A signature that was taken away, moved, copied or lent is named", "[keys][case-225]") {
  KeyedClinic clinic;
  clinic.sign();
  const auto is = [&](const char* name, const std::string& sql) {
    const auto path = clinic.copy(name);
    forge(path, sql);
    return faultsIn(path, clinic);
  };
  const std::string ofHygienist = "(SELECT entry FROM day_signature WHERE capacity = 'clinical')";
  const std::string ofCoordinator =
      "(SELECT entry FROM day_signature WHERE capacity = 'completeness')";
  SECTION("its row removed, with what hangs on it") {
    // The last rows of the laptop, so that no number is missing.
    const auto faults = is("removed.gkbook",
                           "CREATE TEMP TABLE gone AS SELECT entry AS id FROM day_signature WHERE "
                           "capacity = 'completeness';"
                           "DELETE FROM day_signature_head WHERE entry IN (SELECT id FROM gone);"
                           "DELETE FROM day_signature WHERE entry IN (SELECT id FROM gone);"
                           "DELETE FROM entry WHERE id IN (SELECT id FROM gone);"
                           "UPDATE act SET count = count - 1 WHERE first = (SELECT max(first) FROM "
                           "act);"
                           "DROP TABLE gone");
    INFO(faults);
    CHECK(says(faults, "is missing"));
  }
  SECTION("both removed") {
    const auto faults =
        is("both.gkbook", "CREATE TEMP TABLE gone AS SELECT entry AS id FROM day_signature;"
                          "DELETE FROM day_signature_head; DELETE FROM day_signature;"
                          "DELETE FROM entry WHERE id IN (SELECT id FROM gone);"
                          "UPDATE act SET count = count - 2 WHERE first = (SELECT max(first) FROM "
                          "act);"
                          "DROP TABLE gone");
    INFO(faults);
    CHECK(says(faults, "is missing"));
  }
  SECTION("turned into one by name only") {
    const auto faults =
        is("bare.gkbook", "UPDATE day_signature SET personal_key = NULL, signature = x'' WHERE "
                          "capacity = 'clinical'");
    INFO(faults);
    CHECK(says(faults, "it is by name only, but the person had a key"));
  }
  SECTION("signed by another's key") {
    const auto faults =
        is("lent.gkbook", "UPDATE day_signature SET personal_key = (SELECT personal_key FROM "
                          "day_signature WHERE entry = " +
                              ofCoordinator + ") WHERE entry = " + ofHygienist);
    INFO(faults);
    CHECK(says(faults, "its key is not that person's"));
  }
  SECTION("another's signature in its place") {
    const auto faults =
        is("swapped.gkbook", "UPDATE day_signature SET signature = (SELECT signature FROM "
                             "day_signature WHERE entry = " +
                                 ofCoordinator + ") WHERE entry = " + ofHygienist);
    INFO(faults);
    CHECK(says(faults, "was not signed with that person's key"));
  }
  SECTION("other counts") {
    const auto faults = is("counts.gkbook", "UPDATE day_signature SET screened = screened + 1");
    INFO(faults);
    CHECK(says(faults, "was not signed with that person's key"));
  }
  SECTION("another time of signing") {
    const auto faults =
        is("time.gkbook", "UPDATE act SET at = at - 86400000 WHERE first = (SELECT max(first) FROM "
                          "act)");
    INFO(faults);
    CHECK(says(faults, "was not signed with that person's key"));
  }
}

TEST_CASE("A signature that is copied to another day does not fit there", "[keys][case-225]") {
  KeyedClinic clinic;
  clinic.sign();
  clinic.clock.advance(std::chrono::hours(24));
  const auto tomorrow = must(clinic.session.openDay(
      clinic.by,
      {clinic.term, clinic.school, must(base::Date::parse("2026-11-18")), 1, {}, false}));
  (void)tomorrow;
  const auto path = clinic.copy("moved.gkbook");
  forge(path, "UPDATE day_signature SET day = (SELECT entry FROM clinic_day WHERE day_on = "
              "'2026-11-18'); UPDATE day_closure SET day = (SELECT entry FROM clinic_day WHERE "
              "day_on = '2026-11-18')");
  const auto faults = faultsIn(path, clinic);
  INFO(faults);
  CHECK(says(faults, "on " + test::dateWords("2026-11-18") + " does not match"));
}

TEST_CASE("A reopened day is signed again; the earlier signatures stay and still match",
          "[keys][case-226]") {
  KeyedClinic clinic;
  clinic.sign();
  const auto first = clinic.code();
  clinic.clock.advance(std::chrono::hours(1));
  must(clinic.session.reopenDay(clinic.by, clinic.day, "a wrong tooth"));
  clinic.sign();
  const auto second = clinic.code();
  CHECK(first != second);
  CHECK(must(clinic.session.findings()).empty());
  const auto old = must(clinic.session.signedSheet(first));
  CHECK_FALSE(old.isCurrent);
  CHECK_FALSE(old.stands());
  CHECK(old.lines.at(0).flaw.empty());
  CHECK(must(clinic.session.signedSheet(second)).stands());
}

TEST_CASE("Two signed logbooks are merged and every signature still matches", "[keys][case-226]") {
  KeyedClinic clinic;
  test::Second second(clinic, "second.gkbook", 5);
  clinic.sign();
  must(second.session.openKey(clinic.hygienist, hygienistsWords));
  must(second.session.openKey(clinic.coordinator, coordinatorsWords));
  must(second.session.signDay(clinic.by, clinic.closure()));
  must(clinic.session.absorb(second.handOver()));
  CHECK(must(clinic.session.findings()).empty());
  must(second.session.absorb(clinic.copy("back.gkbook")));
  CHECK(must(second.session.findings()).empty());
}

TEST_CASE("Who leaves the team has no rights and no key from one act on; unsigned days are listed",
          "[keys][case-227]") {
  KeyedClinic clinic;
  auto& book = clinic.session;
  CHECK(must(book.unsignedDays(clinic.assistant)).size() == 1); // assisted at the chair
  const auto open = must(book.unsignedDays(clinic.hygienist));
  REQUIRE(open.size() == 1);
  CHECK(open[0].day == clinic.day);
  CHECK(must(book.unsignedDays(clinic.coordinator)).empty());
  must(book.openKey(clinic.hygienist, hygienistsWords));
  CHECK(codeOf(book.retireMember({clinic.coordinator, {}}, clinic.hygienist, " ")) ==
        ErrorCode::ruleReason);
  must(book.retireMember({clinic.coordinator, {}}, clinic.hygienist, "moved away"));
  CHECK(must(book.keyStanding(clinic.hygienist)) == KeyStanding::revoked);
  CHECK(codeOf(book.openKey(clinic.hygienist, hygienistsWords)) == ErrorCode::notFound);
  CHECK(codeOf(book.seat({clinic.hygienist, {}}, {clinic.mina,
                                                  clinic.day,
                                                  {chairside::Identifier::spokenName,
                                                   chairside::Identifier::birthDate}})) ==
        ErrorCode::ruleCredential);
}

TEST_CASE("The recovery code opens the names in place of the passphrase, until it is withdrawn",
          "[keys][case-228]") {
  KeyedClinic clinic;
  auto& book = clinic.session;
  CHECK_FALSE(must(book.hasRecoveryCode()));
  CHECK(codeOf(book.makeRecoveryCode({clinic.assistant, {}})) == ErrorCode::ruleCredential);
  const auto first = must(book.makeRecoveryCode(clinic.by));
  CHECK(first.size() == 41); // 35 characters in seven groups
  const auto opens = [&](const std::string& with) {
    book.lock();
    return book.unlock(with).has_value();
  };
  CHECK(opens(first));
  CHECK(opens(test::Clinic::passphrase));
  CHECK(must(book.findings()).empty());
  // It survives a changed passphrase, and a copy.
  must(book.changePassphrase(clinic.by, test::Clinic::passphrase, "another quiet floor"));
  CHECK(opens(first));
  {
    auto copy =
        must(session::Session::open(clinic.copy("copy.gkbook"), clinic.laptop,
                                    {clinic.clock, clinic.random}, store::Access::readOnly));
    CHECK(copy.unlock(first));
  }
  auto wrong = first;
  wrong[12] = wrong[12] == '7' ? '8' : '7';
  CHECK_FALSE(opens(wrong));
  must(book.unlock("another quiet floor"));
  const auto second = must(book.makeRecoveryCode(clinic.by));
  CHECK_FALSE(opens(first));
  CHECK(opens(second));
  must(book.withdrawRecoveryCode(clinic.by, "the sheet is lost"));
  CHECK_FALSE(opens(second));
  CHECK_FALSE(must(book.hasRecoveryCode()));
  CHECK(opens("another quiet floor"));
  CHECK(must(book.findings()).empty());
}

TEST_CASE("What the recovery code opens cannot be changed unseen", "[keys][case-228]") {
  KeyedClinic clinic;
  (void)must(clinic.session.makeRecoveryCode(clinic.by));
  const auto path = clinic.copy("swapped.gkbook");
  forge(path, "UPDATE book SET recovery_box = randomblob(48)");
  CHECK(says(faultsIn(path, clinic), "the recovery code's key was changed"));
}
