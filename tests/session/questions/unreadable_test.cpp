#include "session/keys/pins.h"
#include "session/letters/letters.h"
#include "session/session.h"
#include "store/book.h"
#include "support/clinic.h"

#include <algorithm>
#include <functional>
#include <sstream>

// Rows that were written past this program, with right digests, and whose boxes do not open.
using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::must;

namespace {

/// Writes into a copy of the clinic's logbook by the store alone, as another laptop, and merges it.
void forge(test::Clinic& clinic, const std::function<void(store::Act&)>& work) {
  clinic.clock.advance(std::chrono::hours(1));
  const auto path = *clinic.folder / "theirs.gkbook";
  must(clinic.session.backUp(path));
  base::SeededRandom random(99);
  const base::LaptopId other(base::makeUuid7(clinic.clock.now().at, random));
  {
    auto book = must(store::Book::open(path, other, store::Access::readWrite,
                                       store::Durability::bulk, clinic.clock.now().at));
    must(book.act({clinic.hygienist, {}}, clinic.clock.now(), work));
    must(book.finish());
  }
  must(clinic.session.absorb(path));
}

store::SealedIdentity garbage(roster::ChildId child) {
  return {child, std::vector<std::uint8_t>(24, 1), std::vector<std::uint8_t>(300, 2)};
}

roster::MemberPin garbagePin(base::MemberId member) {
  return {.member = member,
          .salt = roster::Bytes(16, 0),
          .opsLimit = 3,
          .memoryBytes = 64 << 20,
          .nonce = roster::Bytes(24, 0),
          .box = roster::Bytes(48, 0)};
}

/// Everything that needs the names of all.
void namesAreRead(test::Clinic& clinic, std::size_t children) {
  auto& book = clinic.session;
  CHECK(must(book.board(clinic.day)).size() == children);
  must(book.names());
  must(book.names(must(book.dayRecords(clinic.day))));
  std::ostringstream out;
  must(book.writeFhir(clinic.day, out));
  must(session::languagesAsked(
      book, must(book.termRecords(clinic.term, clinic.clock.now().date(), session::Reach::term))));
}

} // namespace

TEST_CASE("A name that does not open stops nothing, and the one before it counts", "[case-328]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina", "Tolliver");
  const auto lupe = clinic.child("Lupe", "Quill");
  clinic.standardVisit(mina);
  forge(clinic, [&](store::Act& act) { act.add(garbage(mina)); });
  auto& book = clinic.session;
  CHECK(must(book.identity(mina)).shownName() == "Mina Tolliver");
  CHECK(must(book.identity(lupe)).shownName() == "Lupe Quill");
  namesAreRead(clinic, 2);
  CHECK(must(book.names()).size() == 2);
  CHECK(must(book.findChildren("Mina")).size() == 1);
  CHECK(must(book.identityRevisions(mina)).size() == 1);
  CHECK(must(book.identityCard(mina, clinic.day))
            .birth.find("THE NEWEST NAME CANNOT BE READ: what was entered on ") !=
        std::string::npos);

  const auto found = must(book.findings());
  REQUIRE(found.size() == 1);
  const auto number = must(book.child(mina)).value.number;
  CHECK(found.front().child == number);
  CHECK(found.front().what.starts_with("the name of student " + number +
                                       " cannot be read: what was entered on "));
  CHECK(found.front().what.find(" by ") != std::string::npos);
  CHECK(found.front().since.has_value());
  CHECK(found.front().doNow == "enter the name again at the desk, Students, Correct details");
  // Without the names nothing of it can be known.
  book.lock();
  CHECK(must(book.findings()).empty());
  must(book.unlock(test::Clinic::passphrase));

  must(book.correctStudent(clinic.by, mina, {must(book.identity(mina)), {}}, "entered again"));
  CHECK(must(book.findings()).empty());
  CHECK(must(book.identityCard(mina, clinic.day)).birth.find("CANNOT") == std::string::npos);
}

TEST_CASE("A student none of whose names opens has the number, and is entered again",
          "[case-328]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina", "Tolliver");
  clinic.child("Lupe", "Quill");
  auto ada = mina;
  auto card = must(clinic.session.child(mina)).value;
  card.number = roster::withCheckDigit("7007");
  forge(clinic, [&](store::Act& act) {
    ada = act.add(card);
    act.add(garbage(ada));
  });
  must(clinic.session.enterConsent(clinic.by, clinic.form(ada)));
  auto& book = clinic.session;
  CHECK(codeOf(book.identity(ada)) == ErrorCode::vaultDamaged);
  namesAreRead(clinic, 3);
  const auto lines = must(book.board(clinic.day));
  const auto line = std::ranges::find(lines, ada, &session::BoardLine::child);
  REQUIRE(line != lines.end());
  CHECK(line->name == line->number);
  CHECK(must(book.findChildren("Quill")).size() == 1);
  CHECK(must(book.identityCard(ada, clinic.day)).birth.starts_with("THE NEWEST NAME CANNOT"));
  CHECK(must(book.findings()).size() == 1);
  must(book.correctStudent(
      clinic.by, ada,
      {{.first = "Ada", .last = "Wren", .birth = must(base::Date::parse("2019-03-14"))}, {}},
      "entered again"));
  CHECK(must(book.identity(ada)).shownName() == "Ada Wren");
  CHECK(must(book.findings()).empty());
}

TEST_CASE("A PIN that does not open takes nothing from whoever has one", "[case-329]") {
  test::PinClinic clinic;
  forge(clinic, [&](store::Act& act) {
    for (const auto who : {clinic.hygienist, clinic.assistant, clinic.coordinator})
      act.add(garbagePin(who));
  });
  auto& book = clinic.session;
  // The newest that opens counts, and no other is taken for right.
  must(book.signIn(clinic.hygienist, test::PinClinic::hers));
  CHECK(codeOf(book.confirm(clinic.assistant, test::PinClinic::hers)) == ErrorCode::pinWrong);
  clinic.clock.advance(std::chrono::minutes(1));
  must(book.confirm(clinic.assistant, test::PinClinic::assistants));
  // She had none: none is right, and another resets it.
  CHECK(codeOf(book.confirm(clinic.coordinator, "2580")) == ErrorCode::vaultDamaged);
  CHECK(codeOf(book.signIn(clinic.coordinator, "")) == ErrorCode::vaultDamaged);
  must(book.resetPin({clinic.hygienist, {}}, clinic.coordinator, "does not open",
                     clinic.own(clinic.hygienist, test::PinClinic::hers)));
  CHECK(must(book.pinOf(clinic.coordinator)) == roster::PinState::toChoose);
}

TEST_CASE("Where no PIN of the team opens, the passphrase or the recovery code resets one's own",
          "[case-329]") {
  test::Clinic clinic;
  forge(clinic, [&](store::Act& act) {
    for (const auto& one : must(clinic.session.members()))
      act.add(garbagePin(one.id));
  });
  auto& book = clinic.session;
  CHECK(codeOf(book.signIn(clinic.hygienist, "2580")) == ErrorCode::vaultDamaged);
  CHECK(codeOf(book.resetOwnPin(clinic.hygienist, "quiet gym door", "does not open")) ==
        ErrorCode::vaultWrongPassphrase);
  clinic.clock.advance(std::chrono::minutes(1));
  must(book.resetOwnPin(clinic.hygienist, test::Clinic::passphrase, "does not open"));
  must(book.setPin({clinic.hygienist, {}}, clinic.hygienist, "2580"));
  const auto own = must(book.signIn(clinic.hygienist, "2580"));
  // From here on she resets the others', and no passphrase does it past her.
  CHECK(codeOf(book.resetOwnPin(clinic.coordinator, test::Clinic::passphrase, "does not open")) ==
        ErrorCode::ruleCredential);
  must(book.resetPin({clinic.hygienist, {}}, clinic.coordinator, "does not open", own));
}
