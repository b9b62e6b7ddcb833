#include "support/clinic.h"

#include "session/undo/undo_history.h"

using namespace gk;
using base::ErrorCode;
using base::Station;
using chairside::DayEnd;
using session::UndoAt;
using test::codeOf;
using test::must;

namespace {

/// Two children on the board of an open day.
struct UndoDay : test::Clinic {
  roster::ChildId mina = child("Mina");
  roster::ChildId osei = child("Osei");

  [[nodiscard]] UndoAt board() const { return {Station::board, day, {}}; }
  [[nodiscard]] UndoAt chair(roster::ChildId who) const { return {Station::chair, day, who}; }
  [[nodiscard]] base::By atBoard() const { return {hygienist, assistant, Station::board}; }
  void absent(roster::ChildId who) {
    must(session.endVisit(atBoard(), {who, day, DayEnd::absent, {}}));
  }
  session::Place placeOf(roster::ChildId who) { return must(session.place(who, day)); }
  void sign() { must(session.signDay({hygienist, {}}, {day, hygienist, coordinator})); }
};

} // namespace

TEST_CASE("Undo at the chair stays with the child in the chair", "[case-127]") {
  UndoDay clinic;
  clinic.seat(clinic.osei);
  clinic.screenFour(clinic.osei);
  clinic.seat(clinic.mina);
  clinic.screenFour(clinic.mina);
  CHECK(must(clinic.session.undo(clinic.by, clinic.chair(clinic.mina))) == "Screening, Mina H.");
  CHECK(must(clinic.session.undo(clinic.by, clinic.chair(clinic.mina))) ==
        "Identity confirmed, Mina H.");
  CHECK(codeOf(clinic.session.undo(clinic.by, clinic.chair(clinic.mina))) == ErrorCode::notFound);
  CHECK(must(clinic.session.screenings(clinic.osei)).size() == 1);
}

TEST_CASE("Undo at the chair ends at the last identity check", "[case-127]") {
  UndoDay clinic;
  clinic.seat(clinic.mina);
  clinic.screenFour(clinic.mina);
  clinic.seat(clinic.osei);
  clinic.seat(clinic.mina); // back from a pause
  must(clinic.session.undo(clinic.by, clinic.chair(clinic.mina)));
  CHECK(codeOf(clinic.session.undo(clinic.by, clinic.chair(clinic.mina))) == ErrorCode::notFound);
  CHECK(must(clinic.session.screenings(clinic.mina)).size() == 1);
}

TEST_CASE("The board undoes what was done on the board, and names it", "[case-127]") {
  UndoDay clinic;
  clinic.absent(clinic.osei);
  clinic.seat(clinic.mina);
  CHECK(must(clinic.session.undoable(clinic.board())).words == "Visit outcome: absent, Osei H.");
  CHECK(must(clinic.session.undo(clinic.by, clinic.board())) == "Visit outcome: absent, Osei H.");
  CHECK(clinic.placeOf(clinic.osei) == session::Place::waiting);
  CHECK(clinic.placeOf(clinic.mina) == session::Place::inChair);
}

TEST_CASE("Undo needs someone who may do what is taken back", "[case-127]") {
  UndoDay clinic;
  clinic.seat(clinic.mina);
  clinic.screenFour(clinic.mina);
  CHECK(codeOf(clinic.session.undo({}, clinic.chair(clinic.mina))) == ErrorCode::ruleCredential);
  CHECK(codeOf(clinic.session.undo({clinic.assistant, {}}, clinic.chair(clinic.mina))) ==
        ErrorCode::ruleCredential);
  CHECK(must(clinic.session.screenings(clinic.mina)).size() == 1);
}

TEST_CASE("Undo stops at what left the book: a backup, letters, a report", "[case-128]") {
  UndoDay clinic;
  clinic.absent(clinic.osei);
  SECTION("a backup") {
    must(clinic.session.noteBackup(clinic.by, {clinic.day, "copy.gkbook"}));
  }
  SECTION("an imported roster") {
    session::Identity identity{
        .first = "Lupe", .last = "Saltmarsh", .birth = must(base::Date::parse("2019-05-02"))};
    must(clinic.session.enrollRoster(clinic.by, {{{.number = roster::withCheckDigit("2001"),
                                                   .birth = {2019, 5},
                                                   .school = clinic.school,
                                                   .grade = "2",
                                                   .room = "6",
                                                   .note = {}},
                                                  identity}}));
  }
  const auto why = clinic.session.undo(clinic.by, clinic.board());
  REQUIRE(codeOf(why) == ErrorCode::notFound);
  CHECK(why.error().detail.starts_with("nothing before this is undone: "));
  CHECK(clinic.placeOf(clinic.osei) == session::Place::absent);
}

TEST_CASE("Nothing of a signed day is undone", "[case-128]") {
  UndoDay clinic;
  clinic.absent(clinic.osei);
  clinic.absent(clinic.mina);
  clinic.sign();
  for (const auto& at : {clinic.board(), clinic.chair(clinic.mina)})
    CHECK(codeOf(clinic.session.undo(clinic.by, at)) == ErrorCode::ruleDayOpen);
  CHECK(must(clinic.session.isSigned(clinic.day)));
}

TEST_CASE("Undo of an undo is a redo, and further back is not hidden by it", "[case-127]") {
  UndoDay clinic;
  clinic.seat(clinic.mina);
  clinic.screenFour(clinic.mina);
  const auto at = clinic.chair(clinic.mina);
  auto changed = clinic.fourSound(clinic.mina);
  changed.note = "looked again";
  for (int i = 0; i < 3; ++i) {
    const auto old = must(clinic.session.screenings(clinic.mina)).front();
    must(clinic.session.correctScreening(clinic.by, old, changed, "looked again"));
    CHECK(must(clinic.session.undo(clinic.by, at)) == "Change of the findings, Mina H.");
    CHECK(must(clinic.session.screenings(clinic.mina)).front().value.note.empty());
    CHECK(must(clinic.session.redo(clinic.by, at)) == "Change of the findings, Mina H.");
    CHECK(must(clinic.session.screenings(clinic.mina)).front().value.note == "looked again");
    CHECK(codeOf(clinic.session.redo(clinic.by, at)) == ErrorCode::notFound);
    CHECK(must(clinic.session.undo(clinic.by, at)) == "Change of the findings, Mina H.");
  }
  CHECK(must(clinic.session.undo(clinic.by, at)) == "Screening, Mina H.");
  CHECK(must(clinic.session.undo(clinic.by, at)) == "Identity confirmed, Mina H.");
  CHECK(must(clinic.session.redo(clinic.by, at)) == "Identity confirmed, Mina H.");
  CHECK(must(clinic.session.redo(clinic.by, at)) == "Screening, Mina H.");
  CHECK(must(clinic.session.redo(clinic.by, at)) == "Change of the findings, Mina H.");
  CHECK(codeOf(clinic.session.redo(clinic.by, at)) == ErrorCode::notFound);
  const auto screenings = must(clinic.session.screenings(clinic.mina));
  REQUIRE(screenings.size() == 1);
  CHECK(screenings.front().value.note == "looked again");
}

TEST_CASE("After something else was done there is nothing to redo", "[case-127]") {
  UndoDay clinic;
  clinic.seat(clinic.mina);
  clinic.screenFour(clinic.mina);
  const auto at = clinic.chair(clinic.mina);
  must(clinic.session.undo(clinic.by, at));
  clinic.screenFour(clinic.mina);
  CHECK(codeOf(clinic.session.redo(clinic.by, at)) == ErrorCode::notFound);
}

TEST_CASE("A desk page undoes its own last act and no other page's", "[case-127]") {
  UndoDay clinic;
  const auto lots = must(clinic.session.lots()).size();
  const auto schools = must(clinic.session.schools()).size();
  const auto enter = [&](const char* number) {
    auto lot = must(clinic.session.lots()).front().value;
    lot.lot = number;
    return must(clinic.session.enterLot(clinic.by, lot));
  };
  must(clinic.session.enterSchool(clinic.by, {"Thornbury Lane School", "TL"}));
  enter("A-1");
  CHECK(must(clinic.session.undo(clinic.by, {Station::lots})) == "Lot");
  CHECK(must(clinic.session.lots()).size() == lots);
  CHECK(must(clinic.session.undo(clinic.by, {Station::schools})) == "School");
  CHECK(must(clinic.session.schools()).size() == schools);
  // A lot that something may have been recorded with since is set aside, not undone.
  enter("A-2");
  clinic.seat(clinic.mina);
  CHECK(codeOf(clinic.session.undo(clinic.by, {Station::lots})) == ErrorCode::notFound);
  CHECK(must(clinic.session.lots()).size() == lots + 1);
  CHECK(codeOf(clinic.session.undo(clinic.by, {Station::program})) == ErrorCode::notFound);
}

TEST_CASE("An import is taken back whole, with a reason, while nothing hangs on it", "[case-129]") {
  UndoDay clinic;
  const auto born = must(base::Date::parse("2019-05-02"));
  const auto entering = [&](const char* number, const char* first) {
    return session::NewChild{{.number = roster::withCheckDigit(number),
                              .birth = {2019, 5},
                              .school = clinic.school,
                              .grade = "2",
                              .room = "6",
                              .note = {}},
                             {.first = first, .last = "Saltmarsh", .birth = born},
                             [&](roster::ChildId child) { return clinic.form(child); }};
  };
  const auto brought = must(
      clinic.session.enrollRoster(clinic.by, {entering("2001", "Lupe"), entering("2002", "Pia")}));
  const auto& back = [&](const std::string& why) {
    return clinic.session.takeBackImport(clinic.by, brought.front(), why);
  };
  CHECK(codeOf(back(" ")) == ErrorCode::ruleReason);
  clinic.seat(brought.back());
  CHECK(codeOf(back("last year's list")) == ErrorCode::ruleReason);
  must(clinic.session.undo(clinic.by, clinic.chair(brought.back())));
  must(back("last year's list"));
  for (const auto& child : brought) {
    CHECK(codeOf(clinic.session.child(child)) == ErrorCode::notFound);
    CHECK(must(clinic.session.consents(child)).empty());
  }
  CHECK(codeOf(back("once more")) == ErrorCode::notFound);
  CHECK(codeOf(clinic.session.takeBackImport(clinic.by, clinic.mina, "not imported")) ==
        ErrorCode::notFound);
}
