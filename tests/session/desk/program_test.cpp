#include "reports/day/close_out.h"
#include "session/second_laptop.h"
#include "store/book.h"
#include "support/clinic.h"
#include "vault/vault.h"

#include <algorithm>
#include <functional>

using namespace gk;
using base::ErrorCode;
using base::Recorded;
using test::codeOf;
using test::must;

namespace {

const roster::Program lantern{.name = "Lantern County Team",
                              .county = "Lantern",
                              .phone = "000-555-0188",
                              .authorizingDentist = "",
                              .agreementUntil = {},
                              .privacyFooting = "",
                              .times = {}};

base::Date dayFrom(const char* iso) {
  return must(base::Date::parse(iso));
}

/// Of the clinic's program, which ended on the first of the month.
void endAgreement(test::Clinic& clinic) {
  auto program = must(clinic.session.program()).value;
  program.agreementUntil = dayFrom("2026-11-01");
  must(clinic.session.correctProgram(clinic.by, program, "typed from the letter"));
}

roster::ChildId screened(test::Clinic& clinic) {
  const auto child = clinic.child("Mina");
  clinic.seat(child);
  clinic.screenFour(child);
  return child;
}

} // namespace

TEST_CASE("A logbook is made with its program and passphrase or not at all", "[case-112]") {
  const test::Scratch folder;
  base::ManualClock clock{
      base::atLocal(dayFrom("2026-11-17"), std::chrono::hours(9), std::chrono::hours(-5))};
  base::SeededRandom random(4);
  const auto path = folder / "new.gkbook";
  const auto make = [&](const roster::Program& program, const char* passphrase) {
    return session::Session::create(path, passphrase, base::LaptopId(base::Uuid{}), {clock, random},
                                    program, session::BookKind::throwaway);
  };
  auto nameless = lantern;
  nameless.name = " ";
  CHECK(codeOf(make(nameless, "quiet gym floor")) == ErrorCode::textMalformed);
  CHECK(codeOf(make(lantern, "quiet")) == ErrorCode::callMalformed);
  CHECK(std::filesystem::is_empty(folder.path()));

  auto made = must(make(lantern, "quiet gym floor"));
  CHECK(must(made.program()).value == lantern);
  CHECK(must(made.program()).stamp.sequence == 1);
  must(made.enterSchool({}, {"Cobble Lantern Elementary", "CL"})); // the hand goes on after it
  CHECK(must(made.findings()).empty());
  CHECK(codeOf(made.enterProgram({}, lantern)) == ErrorCode::ruleReason);
}

TEST_CASE("The passphrase is changed and the old one opens no more", "[case-116]") {
  test::Clinic clinic;
  clinic.child("Mina");
  const std::string present = test::Clinic::passphrase;
  CHECK(codeOf(clinic.session.changePassphrase(clinic.by, present, "short")) ==
        ErrorCode::callMalformed);
  must(clinic.session.changePassphrase(clinic.by, present, "another gym floor"));
  clinic.session.lock();
  CHECK(codeOf(clinic.session.changePassphrase(clinic.by, "another gym floor",
                                               "a third gym floor")) == ErrorCode::vaultLocked);
  CHECK(codeOf(clinic.session.unlock(test::Clinic::passphrase)) == ErrorCode::vaultWrongPassphrase);
  must(clinic.session.unlock("another gym floor"));
  CHECK(must(clinic.session.findChildren("Mina")).size() == 1);
}

TEST_CASE(
    "Whoever finds the laptop unlocked does not change the passphrase without the present one",
    "[case-312]") {
  test::Clinic clinic;
  clinic.child("Mina");
  auto& book = clinic.session;
  const std::string present = test::Clinic::passphrase;
  const auto code = must(book.makeRecoveryCode(clinic.by));
  const auto change = [&](const std::string& with) {
    return codeOf(book.changePassphrase(clinic.by, with, "another gym floor"));
  };
  CHECK(change("") == ErrorCode::vaultWrongPassphrase);
  CHECK(change("quiet gym flour") == ErrorCode::vaultWrongPassphrase);
  // Not by the coordinator's own either: what opens the names is not what this is of.
  must(book.enterKey({clinic.by.author, {}}, "her own four words"));
  CHECK(change("her own four words") == ErrorCode::vaultWrongPassphrase);
  // The third wrong one is waited for, with the right one as well.
  CHECK(change(present) == ErrorCode::vaultWait);
  clinic.clock.advance(std::chrono::seconds(9));
  CHECK(change(present) == ErrorCode::vaultWait);
  clinic.clock.advance(std::chrono::seconds(2));
  CHECK(change("wrong again") == ErrorCode::vaultWrongPassphrase);
  clinic.clock.advance(std::chrono::seconds(11));
  CHECK(change(present) == ErrorCode::vaultWait); // twice as long
  book.lock();
  must(book.unlock(present)); // nothing was changed, and locking does not shorten the wait
  CHECK(change(present) == ErrorCode::vaultWait);
  clinic.clock.advance(std::chrono::seconds(10));
  SECTION("with the present one") {
    must(book.changePassphrase(clinic.by, present, "another gym floor"));
  }
  SECTION("or with the recovery code, for one who lost it") {
    must(book.changePassphrase(clinic.by, code, "another gym floor"));
  }
  book.lock();
  CHECK(codeOf(book.unlock(present)) == ErrorCode::vaultWrongPassphrase);
  must(book.unlock("another gym floor"));
  CHECK(must(book.findChildren("Mina")).size() == 1);
}

TEST_CASE("A program is corrected with a reason and what it was stays in the history",
          "[case-113]") {
  test::Clinic clinic;
  const auto before = must(clinic.session.program());
  auto renewed = before.value;
  renewed.agreementUntil = dayFrom("2028-01-31");
  renewed.phone = " 000-555-0199 ";
  renewed.authorizingDentist = "Dr. Juno Ashby";
  CHECK(codeOf(clinic.session.correctProgram(clinic.by, renewed, " ")) == ErrorCode::ruleReason);
  CHECK(must(clinic.session.program()).value == before.value);
  must(clinic.session.correctProgram(clinic.by, renewed, "renewed in person"));
  const auto after = must(clinic.session.program());
  CHECK(after.value.agreementUntil == renewed.agreementUntil);
  CHECK(after.value.phone == "000-555-0199");
  CHECK(after.value.authorizingDentist == "Dr. Juno Ashby");
  CHECK(after.id == before.id);
  CHECK(after.stamp.supersedes == before.stamp.entry);
  CHECK(after.stamp.reason == "renewed in person");
  CHECK(after.stamp.by.author == clinic.by.author);
  CHECK(after.stamp.by.recorder == clinic.by.recorder);
}

TEST_CASE("A program corrected on two laptops is one program again when it is corrected next",
          "[case-113]") {
  test::Clinic clinic;
  test::Second second(clinic, "second.gkbook", 2);
  auto here = must(clinic.session.program()).value;
  here.phone = "000-555-0111";
  must(clinic.session.correctProgram(clinic.by, here, "a new phone"));
  auto there = must(second.session.program()).value;
  there.county = "Larkmere and Fennel";
  must(second.session.correctProgram(clinic.by, there, "a new county"));
  must(clinic.session.absorb(second.handOver()));
  here.county = there.county;
  must(clinic.session.correctProgram(clinic.by, here, "both"));
  const auto carried = *clinic.folder / "carried.gkbook"; // the book itself is open
  must(clinic.session.backUp(carried));
  must(second.session.absorb(carried));
  CHECK(must(second.session.program()).value == here);
  CHECK(must(clinic.session.program()).value == here);
}

TEST_CASE("A license that ran out is renewed and its owner works again", "[case-113]") {
  test::Clinic clinic;
  const auto members = must(clinic.session.members());
  const auto oriel =
      std::ranges::find(members, clinic.hygienist, [](const auto& m) { return m.id; });
  auto lapsed = oriel->value;
  lapsed.licenseUntil = dayFrom("2026-11-16");
  must(clinic.session.correctMember(clinic.by, clinic.hygienist, lapsed, "read from the card"));
  const auto child = clinic.child("Mina");
  clinic.seat(child);
  CHECK(codeOf(clinic.session.screen(clinic.by, clinic.fourSound(child))) ==
        ErrorCode::ruleCredential);
  auto renewed = lapsed;
  renewed.licenseUntil = dayFrom("2028-06-30");
  renewed.name = "Oriel Fenwhistle-Reed ";
  renewed.initials = "OR";
  renewed.may.add(roster::Task::clinicianOverride);
  must(clinic.session.correctMember(clinic.by, clinic.hygienist, renewed, "renewed, and married"));
  clinic.screenFour(child);
  const auto now = must(clinic.session.members());
  CHECK(now.size() == members.size());
  CHECK(std::ranges::count_if(now, [](const auto& m) {
          return m.value.initials == "OR" && m.value.name == "Oriel Fenwhistle-Reed";
        }) == 1);
}

TEST_CASE("A member is not corrected into a blank one, another one or one without a reason",
          "[case-113]") {
  test::Clinic clinic;
  const auto oriel = must(clinic.session.members()).front();
  const auto refused = [&](const std::function<void(roster::Member&)>& spoil,
                           const char* reason = "typed wrong") {
    auto member = oriel.value;
    spoil(member);
    return codeOf(clinic.session.correctMember(clinic.by, oriel.id, member, reason));
  };
  CHECK(refused([](auto& m) { m.name = "  "; }) == ErrorCode::textMalformed);
  CHECK(refused([](auto& m) { m.initials = "\t"; }) == ErrorCode::textMalformed);
  CHECK(refused([](auto& m) { m.initials = " IM "; }) == ErrorCode::textMalformed);
  CHECK(refused([](auto&) {}, "  ") == ErrorCode::ruleReason);
  CHECK(codeOf(clinic.session.correctMember(clinic.by, base::MemberId(base::Uuid{}),
                                            {"Ada Quill", "AQ", roster::Role::manager, "", {}, {}},
                                            "typed wrong")) == ErrorCode::notFound);
  CHECK(must(clinic.session.members()).front().value == oriel.value);
}

TEST_CASE("No correction leaves a logbook in which no member may type", "[case-113]") {
  test::Clinic clinic;
  const base::By hygienist{clinic.hygienist, {}};
  std::vector<Recorded<roster::Member>> members = must(clinic.session.members());
  std::ranges::partition(members, [&](const auto& row) { return row.id != clinic.hygienist; });
  for (const auto& row : members) {
    auto silent = row.value;
    silent.may = roster::TaskSet{roster::Task::screen};
    const auto done = clinic.session.correctMember(hygienist, row.id, silent, "narrowed");
    if (row.id == clinic.hygienist)
      CHECK(codeOf(done) == ErrorCode::ruleCredential);
    else
      CHECK(done);
  }
}

TEST_CASE("A logbook without its program gets it though it has a day and no provider is selected",
          "[case-112]") {
  const test::Scratch folder;
  test::Clinic clinic;
  const auto key = must(vault::Vault::create(crypto::Secret::copyOf(test::Clinic::passphrase),
                                             crypto::KdfCost::cheapest(), clinic.random))
                       .wrapped;
  const auto path = folder / "bare.gkbook";
  {
    auto book = must(
        store::Book::create(path, clinic.laptop, store::Durability::everyAct, clinic.clock.now().at,
                            {key.salt, static_cast<std::int64_t>(key.opsLimit),
                             static_cast<std::int64_t>(key.memoryBytes), key.nonce, key.box},
                            clinic.random));
    must(book.act({}, clinic.clock.now(), [&](store::Act& act) {
      const auto term = act.add(must(clinic.session.terms()).front().value);
      const auto school = act.add(must(clinic.session.schools()).front().value);
      act.add(roster::ClinicDay{term, school, clinic.clock.now().date(), 1, {}, false});
    }));
  }
  auto session = must(session::Session::open(path, clinic.laptop, {clinic.clock, clinic.random}));
  must(session.enterProgram({}, lantern));
  // No one may type yet, so the team is entered; from then on it is theirs.
  must(session.enterMember({}, {"Oriel Fenwhistle",
                                "OF",
                                roster::Role::hygienist,
                                "HY-00417",
                                {},
                                roster::usualTasks(roster::Role::hygienist)}));
  CHECK(codeOf(session.correctProgram({}, lantern, "again")) == ErrorCode::ruleCredential);
}

TEST_CASE("After the agreement ended a clinician places with a reason, an exception of the day",
          "[case-114]") {
  test::Clinic clinic;
  const auto mina = screened(clinic);
  CHECK(must(clinic.session.lapsedAgreement(clinic.day)) == std::nullopt);
  CHECK(codeOf(clinic.session.overrideAgreement(
            clinic.by, {clinic.day, clinic.hygienist, "no override is needed"})) ==
        ErrorCode::ruleReason);
  endAgreement(clinic);
  CHECK(must(clinic.session.lapsedAgreement(clinic.day)) == dayFrom("2026-11-01"));
  CHECK(codeOf(clinic.session.isolate(clinic.by, clinic.field(mina, {16, 46}))) ==
        ErrorCode::ruleCredential);

  const auto take = [&](base::By by, base::MemberId clinician, const char* reason) {
    return clinic.session.overrideAgreement(by, {clinic.day, clinician, reason});
  };
  CHECK(codeOf(take(clinic.by, clinic.hygienist, "  ")) == ErrorCode::ruleReason);
  CHECK(codeOf(take(clinic.by, clinic.assistant, "renewal in the mail")) ==
        ErrorCode::ruleCredential); // for another
  CHECK(codeOf(take({clinic.assistant, {}}, clinic.assistant, "renewal in the mail")) ==
        ErrorCode::ruleCredential); // no clinician
  CHECK(codeOf(take({}, clinic.hygienist, "renewal in the mail")) == ErrorCode::ruleCredential);
  must(take(clinic.by, clinic.hygienist, "Dr. Hartgrove renewed it by phone at 08:40"));
  clinic.sealAll(must(clinic.session.isolate(clinic.by, clinic.field(mina, {16, 46}))), {16, 46});

  const auto sheet = test::sheetOf(clinic);
  const auto told = std::ranges::find(sheet.exceptions, reports::ExceptionKind::agreementOverride,
                                      &reports::DayException::kind);
  REQUIRE(told != sheet.exceptions.end());
  CHECK(told->reason == "Dr. Hartgrove renewed it by phone at 08:40");
  CHECK(told->who == "OF");
  CHECK(reports::whoMustFix(told->kind) == reports::Fixer::coordinator);
}

TEST_CASE("A renewed agreement needs no override and an override holds for its day alone",
          "[case-114]") {
  test::Clinic clinic;
  endAgreement(clinic);
  must(clinic.session.overrideAgreement(clinic.by, {clinic.day, clinic.hygienist, "by phone"}));
  clinic.clock.advance(std::chrono::hours(24));
  const auto next = must(clinic.session.openDay(
      clinic.by, {clinic.term, clinic.school, clinic.clock.now().date(), 1, {}, false}));
  CHECK(must(clinic.session.lapsedAgreement(clinic.day)) == std::nullopt);
  CHECK(must(clinic.session.lapsedAgreement(next)) == dayFrom("2026-11-01"));
  auto program = must(clinic.session.program()).value;
  program.agreementUntil = dayFrom("2027-11-01");
  must(clinic.session.correctProgram(clinic.by, program, "renewed"));
  CHECK(must(clinic.session.lapsedAgreement(next)) == std::nullopt);
}
