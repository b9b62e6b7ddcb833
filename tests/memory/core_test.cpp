#include "crypto/secret.h"
#include "memory/traces.h"
#include "reports/records/inputs.h"
#include "support/clinic.h"

#include <iostream>

using namespace gk;
using namespace gk::test;

namespace {

constexpr int coreChildren = 30;

session::Identity identityOf(int which) {
  session::Identity identity{.first = canary(Canary::first, which),
                             .last = canary(Canary::last, which),
                             .nameUsed = canary(Canary::used, which),
                             .birth = must(base::Date::parse("2019-03-14"))};
  identity.teacher = canary(Canary::teacher, which);
  identity.note = canary(Canary::note, which);
  identity.guardians.push_back({.name = canary(Canary::guardian, which),
                                .relation = "mother",
                                .phone = canary(Canary::phone, which)});
  return identity;
}

/// A book of canaries, closed.
[[gnu::noinline]] void makeCoreBook(const base::Path& path) {
  Clinic clinic(path, session::BookKind::throwaway);
  for (int i = 0; i < coreChildren; ++i) {
    const auto number = roster::withCheckDigit(std::to_string(2000 + i));
    const auto child = must(clinic.session.enrollChild(clinic.by,
                                                       {.number = number,
                                                        .birth = {2019, 3},
                                                        .school = clinic.school,
                                                        .grade = "2",
                                                        .room = "6",
                                                        .note = {}},
                                                       identityOf(i), session::Confirmed::yes,
                                                       session::Confirmed::yes));
    must(clinic.session.enterConsent(clinic.by, clinic.form(child)));
  }
  clinic.standardVisit(clinic.child(canary(Canary::first, coreChildren), canary(Canary::last, 1)));
  must(clinic.session.enterKey({clinic.hygienist, {}}, canary(Canary::passphrase, 3)));
  auto word = canary(Canary::passphrase, 1);
  must(clinic.session.changePassphrase(clinic.by, test::Clinic::passphrase, std::move(word)));
  must(clinic.session.finish());
}

/// Everything that names are read for.
[[gnu::noinline]] void readAll(session::Session& session, roster::DayId day) {
  for (const auto& line : must(session.board(day))) {
    must(session.identity(line.child));
    must(session.identityCard(line.child, day));
    must(session.identityRevisions(line.child));
  }
  must(session.findChildren(canary(Canary::first, 3)));
  must(session.nearMatches("9999", identityOf(4)));
  must(session.names());
  must(session.names(must(session.dayRecords(day))));
}

[[gnu::noinline]] void openAll(session::Session& session) {
  auto word = canary(Canary::passphrase, 1);
  must(session.unlock(std::move(word)));
  for (const auto& member : must(session.members()))
    if (must(session.keyStanding(member.id)) == session::KeyStanding::stands)
      must(session.openKey(member.id, canary(Canary::passphrase, 3)));
  readAll(session, must(session.openDayNow()).id);
}

} // namespace

TEST_CASE("After lock no name, guardian, phone or passphrase is in the memory of the core",
          "[case-255]") {
  const Scratch folder;
  makeCoreBook(folder / "day.gkbook");
  crypto::wipeStack();
  base::ManualClock clock{base::atLocal(must(base::Date::parse("2026-11-17")),
                                        std::chrono::hours(10), std::chrono::hours(-5))};
  base::SeededRandom random(5);
  CHECK(traces() == std::vector<std::string>());
  auto session = must(session::Session::open(
      folder / "day.gkbook", base::LaptopId(base::makeUuid7(clock.now().at, random)),
      {clock, random}, store::Access::readWrite, session::BookKind::throwaway));
  openAll(session);
  const auto open = traceCount();
  session.lock();
  const auto left = traces();
  CHECK(open > coreChildren);
  for (const auto& trace : left)
    UNSCOPED_INFO(trace);
  CHECK(left.empty());
  std::cout << "the core: " << open << " names in memory while open, " << left.size()
            << " after lock\n";
}
