#include "crash/clinic_day.h"

#include <unistd.h>

namespace gk::test {

namespace {

/// Two students of a list from the school office, with their forms.
std::vector<session::NewChild> rosterOf(Clinic& clinic) {
  std::vector<session::NewChild> list;
  for (const auto& [number, first] : {std::pair{"3001", "Lupe"}, std::pair{"3002", "Calla"}})
    list.push_back(
        {{.number = roster::withCheckDigit(number),
          .birth = {2019, 5},
          .school = clinic.school,
          .grade = "2",
          .room = "7",
          .note = {}},
         {.first = first, .last = "Dovecote", .birth = must(base::Date::parse("2019-05-02"))},
         [&](roster::ChildId child) { return clinic.form(child); }});
  return list;
}

/// What another laptop did meanwhile: one child seen whole, in a copy of the book.
base::Path otherLaptop(Clinic& clinic, const base::Path& book, roster::ChildId child) {
  const auto copy = book.parent_path() / (book.stem().string() + "-other.gkbook");
  must(clinic.session.backUp(copy));
  auto session = must(session::Session::open(
      copy, base::LaptopId(base::makeUuid7(clinic.clock.now().at, clinic.random)),
      {clinic.clock, clinic.random}, store::Access::readWrite, session::BookKind::throwaway));
  must(session.unlock(Clinic::passphrase));
  must(session.seat(
      clinic.by,
      {child, clinic.day, {chairside::Identifier::spokenName, chairside::Identifier::birthDate}}));
  must(session.screen(clinic.by, clinic.fourSound(child)));
  must(session.endVisit(
      clinic.by, {child, clinic.day, chairside::DayEnd::screenedNotTreated, "ran out of time"},
      session::Confirmed::yes));
  must(session.finish());
  return copy;
}

} // namespace

void clinicDay(const base::Path& book, session::BookKind kind, int acknowledge) {
  Clinic clinic(book, kind);
  auto& session = clinic.session;
  const auto pia = clinic.child("Pia", "Lindenholt");
  const auto idris = clinic.child("Idris", "Mallowfield");
  const auto other = otherLaptop(clinic, book, idris);
  const auto told = session.onChanged([&](const session::Change&) {
    base::require(::write(acknowledge, "+", 1) == 1, "an act could not be acknowledged");
  });
  clinic.standardVisit(clinic.child("Mina", "Tolliver-Reed"));
  const auto wren = clinic.child("Wren", "Castlebury");
  clinic.seat(wren);
  clinic.screenFour(wren);
  const auto right = must(session.isolate(clinic.by, clinic.field(wren, {16, 46})));
  clinic.etchToFlow(right, {16, 46});
  must(session.wet(clinic.by, {right,
                               {dentition::toothAt(46)},
                               chairside::WetStage::beforeCureEnds,
                               chairside::WetCause::saliva,
                               {}}));
  const session::UndoAt here{base::Station::chair, clinic.day, wren};
  must(session.undo(clinic.by, here, "the other tooth"));
  must(session.redo(clinic.by, here));
  // One key, several rows: one tooth is rinsed and frosty and the other is not, and its etch runs.
  must(session.enterStep(clinic.by, clinic.run(right, chairside::Step::etch, {46}, 22)));
  auto dull = clinic.run(right, chairside::Step::dry, {46});
  dull.result = chairside::StepResult::notFrosty;
  must(session.work(
      clinic.by,
      {.steps = {clinic.run(right, chairside::Step::rinse, {46}, 12), dull},
       .wets = {{right,
                 {dentition::toothAt(16)},
                 chairside::WetStage::beforeCureEnds,
                 chairside::WetCause::tongue,
                 {}}},
       .timer = chairside::TimerStart{right,
                                      chairside::Step::etch,
                                      clinic.run(right, chairside::Step::etch, {46}).teeth,
                                      base::Seconds(20),
                                      {}}}));
  must(session.enterStep(clinic.by, clinic.run(right, chairside::Step::rinse, {46}, 12)));
  must(session.stopTeeth(clinic.by, right, {dentition::toothAt(16), dentition::toothAt(46)},
                         "child left"));
  clinic.end(wren, chairside::DayEnd::screenedNotTreated, "child left");
  for (const auto& child : must(session.enrollRoster(clinic.by, rosterOf(clinic))))
    clinic.end(child, chairside::DayEnd::absent);
  must(session.absorb(other));
  clinic.standardVisit(pia);
  must(session.countOut(clinic.by, clinic.day, followup::Paper::runnersList, 1));
  must(session.countPaper(
      clinic.by, {.day = clinic.day, .paper = followup::Paper::runnersList, .out = 1, .back = 1}));
  must(session.noteBackup(clinic.by, {clinic.day, "copy.gkbook"}));
  must(session.signDay({clinic.hygienist, {}}, {clinic.day, clinic.hygienist, clinic.coordinator}));
}

} // namespace gk::test
