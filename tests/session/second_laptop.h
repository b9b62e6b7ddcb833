#pragma once

#include "chairside/allergy.h"
#include "reports/day/close_out.h"
#include "support/clinic.h"

namespace gk::test {

/// A copy of the clinic's book in the hands of another laptop.
struct Second {
  Clinic& first;
  std::string name;
  base::SeededRandom random;
  session::Session session;

  Second(Clinic& clinic, const char* called, std::uint64_t seed)
      : first(clinic), name(called), random(seed), session(opened(clinic)) {
    must(session.unlock(Clinic::passphrase));
  }

  /// What is carried to the other laptop: its own book stays open and locked.
  base::Path handOver() {
    const auto path = *first.folder / (name + std::to_string(++handed_));
    must(session.backUp(path));
    return path;
  }

  session::Session opened(Clinic& clinic) {
    const auto path = *clinic.folder / name;
    must(clinic.session.backUp(path));
    return must(session::Session::open(
        path, base::LaptopId(base::makeUuid7(clinic.clock.now().at, random)),
        {clinic.clock, random}, store::Access::readWrite, session::BookKind::throwaway));
  }

 private:
  int handed_ = 0;
};

inline reports::CloseOut sheetOf(Clinic& clinic) {
  const auto records = must(clinic.session.dayRecords(clinic.day));
  return reports::closeOut(records, must(clinic.session.names(records)));
}

inline void seatOn(session::Session& session, Clinic& clinic, roster::ChildId child) {
  chairside::Seating seating{
      child, clinic.day, {chairside::Identifier::spokenName, chairside::Identifier::birthDate}};
  for (const auto& flag : must(session.flags(child)))
    if (chairside::isAlert(flag.value)) seating.heard.push_back(flag.id);
  must(session.seat(clinic.by, seating));
}

/// One child seen whole on one laptop and screened again on the other.
inline roster::ChildId seenTwice(Clinic& clinic) {
  const auto mina = clinic.child("Mina");
  Second second(clinic, "second.gkbook", 2);
  clinic.standardVisit(mina);
  clinic.clock.advance(std::chrono::minutes(5));
  seatOn(second.session, clinic, mina);
  must(second.session.screen(clinic.by, clinic.fourSound(mina)));
  must(clinic.session.absorb(second.handOver()));
  return mina;
}

inline roster::ChildId enrollAda(session::Session& session, Clinic& clinic, const char* number) {
  const auto ada = must(session.enrollChild(
      clinic.by,
      {.number = roster::withCheckDigit(number),
       .birth = {2019, 3},
       .school = clinic.school,
       .grade = "2",
       .room = "6",
       .note = {}},
      {.first = "Ada", .last = "Quill", .birth = must(base::Date::parse("2019-03-14"))}));
  must(session.enterConsent(clinic.by, clinic.form(ada)));
  return ada;
}

} // namespace gk::test
