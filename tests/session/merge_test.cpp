#include "support/clinic.h"

using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::must;

namespace {

/// A copy of the clinic's book in the hands of another laptop.
struct Second {
  test::Clinic& first;
  std::string name;
  base::SeededRandom random;
  session::Session session;

  Second(test::Clinic& clinic, const char* called, std::uint64_t seed)
      : first(clinic), name(called), random(seed), session(opened(clinic)) {
    must(session.unlock(test::Clinic::passphrase));
  }

  /// What is carried to the other laptop: its own book stays open and locked.
  base::Path handOver() {
    const auto path = *first.folder / (name + std::to_string(++handed_));
    must(session.backUp(path));
    return path;
  }

  session::Session opened(test::Clinic& clinic) {
    const auto path = *clinic.folder / name;
    must(clinic.session.backUp(path));
    return must(session::Session::open(
        path, base::LaptopId(base::makeUuid7(clinic.clock.now().at, random)),
        {clinic.clock, random}, store::Access::readWrite, session::BookKind::throwaway));
  }

 private:
  int handed_ = 0;
};

std::size_t everySeating(session::Session& session, roster::DayId day) {
  return must(session.dayRecords(day)).seatings.size();
}

} // namespace

TEST_CASE("Two laptops' records become one and merging twice changes nothing", "[case-65]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  const auto wren = clinic.child("Wren");
  Second second(clinic, "second.gkbook", 2);
  clinic.standardVisit(mina);
  must(second.session.seat(
      clinic.by,
      {wren, clinic.day, {chairside::Identifier::spokenName, chairside::Identifier::birthDate}}));
  const auto late = must(second.session.enrolChild(
      clinic.by,
      {.number = roster::withCheckDigit("4001"),
       .birth = {2019, 3},
       .school = clinic.school,
       .grade = "2",
       .room = {},
       .note = {}},
      {.first = "Ada", .last = "Quill", .birth = must(base::Date::parse("2019-03-14"))}));
  CHECK(must(clinic.session.absorb(second.handOver())).newEntries == 3);
  CHECK(everySeating(clinic.session, clinic.day) == 2);
  CHECK(must(clinic.session.identity(late)).shownName() == "Ada Quill");
  CHECK(must(clinic.session.absorb(second.handOver())).newEntries == 0);
  CHECK(must(clinic.session.findings()).empty());
}

TEST_CASE("The same tooth sealed on both laptops is kept twice and never overwritten",
          "[case-65]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  Second second(clinic, "second.gkbook", 2);
  clinic.standardVisit(mina);
  must(second.session.seat(
      clinic.by,
      {mina, clinic.day, {chairside::Identifier::spokenName, chairside::Identifier::birthDate}}));
  must(second.session.screen(clinic.by, clinic.fourSound(mina)));
  must(clinic.session.absorb(second.handOver()));
  CHECK(must(clinic.session.screenings(mina)).size() == 2);
}

TEST_CASE("Merging in either order gives the same records") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  const auto wren = clinic.child("Wren");
  Second a(clinic, "a.gkbook", 2);
  Second b(clinic, "b.gkbook", 3);
  const auto seat = [&](session::Session& session, roster::ChildId child) {
    must(session.seat(clinic.by,
                      {child,
                       clinic.day,
                       {chairside::Identifier::spokenName, chairside::Identifier::birthDate}}));
  };
  seat(a.session, mina);
  seat(b.session, wren);
  const auto forA = b.handOver();
  const auto forB = a.handOver();
  must(a.session.absorb(forA));
  must(b.session.absorb(forB));
  const auto left = must(a.session.dayRecords(clinic.day));
  const auto right = must(b.session.dayRecords(clinic.day));
  REQUIRE(left.seatings.size() == right.seatings.size());
  for (std::size_t i = 0; i < left.seatings.size(); ++i)
    CHECK(left.seatings[i].stamp == right.seatings[i].stamp);
}

TEST_CASE("Another program's book is not merged") {
  test::Clinic clinic;
  {
    base::SeededRandom random(99);
    must(session::Session::create(*clinic.folder / "stranger.gkbook", test::Clinic::passphrase,
                                  clinic.laptop, {clinic.clock, random},
                                  session::BookKind::throwaway));
  }
  const auto merged = clinic.session.absorb(*clinic.folder / "stranger.gkbook");
  REQUIRE_FALSE(merged.has_value());
  CHECK(merged.error().code == ErrorCode::storeNotALogbook);
}

TEST_CASE("On the chair's laptop missing findings are not received, and a stick brings them",
          "[case-66]") {
  test::Clinic screener;
  const auto mina = screener.child("Mina");
  Second chair(screener, "chair.gkbook", 2);
  screener.seat(mina);
  screener.screenFour(mina);
  const auto findings = [&](session::Session& session) {
    return must(session.identityCard(mina, screener.day)).findings;
  };
  CHECK(findings(screener.session) == "received, 4 teeth to treat");
  CHECK(findings(chair.session) == "not received");
  CHECK(codeOf(chair.session.isolate(screener.by, screener.field(mina, {16, 46}))) ==
        ErrorCode::ruleIdentity);
  const auto stick = *screener.folder / "stick.gkbook";
  must(screener.session.backUp(stick));
  must(chair.session.absorb(stick));
  CHECK(findings(chair.session) == "received, 4 teeth to treat");
  must(chair.session.isolate(screener.by, screener.field(mina, {16, 46})));
}
