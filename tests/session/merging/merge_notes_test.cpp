#include "session/second_laptop.h"

// Who merged, and who changed the logbook's passphrase, stands in the history.

using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::must;
using test::seatOn;
using test::Second;

namespace {

/// One laptop's newest lines of merges and passphrases.
std::string newestAct(session::Session& book) {
  const auto acts = must(book.bookActs());
  return acts.empty() ? std::string() : acts.back();
}

} // namespace

TEST_CASE("Who merged whose entries stands in the history, and two laptops that merge each other "
          "in turn come to an end",
          "[case-65]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  Second second(clinic, "second.gkbook", 2);
  seatOn(second.session, clinic, mina);
  clinic.clock.advance(std::chrono::minutes(1));
  CHECK(must(clinic.session.bookActs()).empty());
  CHECK(must(clinic.session.absorb(second.handOver(), {.by = clinic.by})).newEntries == 1);
  REQUIRE(must(clinic.session.bookActs()).size() == 1);
  CHECK(newestAct(clinic.session).find(": logbook merged, 1 new entry (1 of laptop ...") !=
        std::string::npos);
  CHECK(newestAct(clinic.session).find(" by ") != std::string::npos);
  // The same once more brings nothing and says nothing.
  const auto edition = clinic.session.edition();
  CHECK(must(clinic.session.absorb(second.handOver(), {.by = clinic.by})).newEntries == 0);
  CHECK(must(clinic.session.bookActs()).size() == 1);
  CHECK(clinic.session.edition().substr(0, edition.rfind('+')) ==
        edition.substr(0, edition.rfind('+')));

  // The other one takes in a note and nothing else: no reason for another note.
  const auto here = [&](const char* name) {
    const auto path = *clinic.folder / name;
    must(clinic.session.backUp(path));
    return path;
  };
  CHECK(must(second.session.absorb(here("once.gkbook"), {.by = clinic.by})).newEntries == 1);
  CHECK(must(second.session.bookActs()) == must(clinic.session.bookActs()));
  // What was entered since comes with a note of its own there, and again that is the end of it.
  seatOn(clinic.session, clinic, clinic.child("Wren"));
  clinic.clock.advance(std::chrono::minutes(1));
  CHECK(must(second.session.absorb(here("twice.gkbook"), {.by = clinic.by})).newEntries > 1);
  CHECK(must(second.session.bookActs()).size() == 2);
  CHECK(must(clinic.session.absorb(second.handOver(), {.by = clinic.by})).newEntries == 1);
  CHECK(must(second.session.absorb(here("thrice.gkbook"), {.by = clinic.by})).newEntries == 0);
  CHECK(must(second.session.bookActs()) == must(clinic.session.bookActs()));
  for (auto* book : {&clinic.session, &second.session})
    CHECK(must(book->findings()).empty());
}

TEST_CASE("Whoever may not type merges nothing, and no one merges unnamed once there is a team",
          "[case-65]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  Second second(clinic, "second.gkbook", 2);
  seatOn(second.session, clinic, mina);
  const auto other = second.handOver();
  const auto powerless = must(clinic.session.enterMember(
      clinic.by, {"Corvin Ashlark", "CA", roster::Role::manager, "", {}, {}}));
  const auto edition = clinic.session.edition();
  CHECK(codeOf(clinic.session.absorb(other, {.by = base::By{}})) == ErrorCode::ruleCredential);
  CHECK(codeOf(clinic.session.absorb(other, {.by = base::By{powerless, {}}})) ==
        ErrorCode::ruleCredential);
  CHECK(clinic.session.edition() == edition);
  CHECK(must(clinic.session.absorb(other, {.by = clinic.by})).newEntries == 1);
}

TEST_CASE("Who changed the logbook's passphrase stands in the history, here and where it is merged",
          "[case-116]") {
  test::Clinic clinic;
  clinic.child("Mina");
  Second second(clinic, "second.gkbook", 2);
  must(clinic.session.changePassphrase(clinic.by, test::Clinic::passphrase, "another gym floor"));
  CHECK(newestAct(clinic.session).find(": the logbook's passphrase was changed") !=
        std::string::npos);
  CHECK(codeOf(clinic.session.changePassphrase({}, "another gym floor", "a third gym floor")) ==
        ErrorCode::ruleCredential);
  const auto path = *clinic.folder / "changed.gkbook";
  must(clinic.session.backUp(path));
  must(second.session.absorb(path));
  CHECK(must(second.session.bookActs()) == must(clinic.session.bookActs()));
  // Its own still opens that laptop's.
  second.session.lock();
  must(second.session.unlock(test::Clinic::passphrase));
}
