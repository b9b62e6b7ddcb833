#include "session/computers.h"
#include "session/keys/keyed_clinic.h"

using namespace gk;
using test::Computer;
using test::County;
using test::must;

namespace {

/// A laptop whose two signers have keys, and the image of its disk, which kept the machine's
/// identity; every student of the day is absent.
struct SignedTwins {
  County county{1};
  Computer& laptop = county.at(0);
  Computer twin{*county.clinic.folder / "twin", laptop.clock.now(), 300};

  SignedTwins() {
    auto& clinic = county.clinic;
    must(laptop.use().enterKey({clinic.hygienist, {}}, test::hygienistsWords));
    must(laptop.use().enterKey({clinic.coordinator, {}}, test::coordinatorsWords));
    for (const auto& child : county.children)
      must(laptop.use().endVisit(clinic.by, {child, clinic.day, chairside::DayEnd::absent, {}},
                                 session::Confirmed::yes));
    laptop.cloneTo(twin);
    twin.machine = laptop.machine;
    laptop.clock.advance(std::chrono::minutes(7));
    twin.clock.advance(std::chrono::minutes(3));
  }
  std::string sign(Computer& on) {
    auto& clinic = county.clinic;
    must(on.use().openKey(clinic.hygienist, test::hygienistsWords));
    must(on.use().openKey(clinic.coordinator, test::coordinatorsWords));
    must(on.use().signDay(clinic.by, {clinic.day, clinic.hygienist, clinic.coordinator}));
    return reports::closeOut(must(on.use().dayRecords(clinic.day))).signings.back().code;
  }
};

void checkProves(Computer& on, const std::string& code) {
  const auto sheet = must(on.use().signedSheet(code));
  CHECK(sheet.lines.size() == 2);
  for (const auto& line : sheet.lines)
    CHECK(line.flaw.empty());
}

} // namespace

TEST_CASE("Signatures that copies of one disk made apart all prove their days once both are joined",
          "[case-243]") {
  SignedTwins disks;
  auto& [county, laptop, twin] = disks;
  county.note(laptop, county.children[0]);
  const auto mine = disks.sign(laptop);
  const auto theirs = disks.sign(twin);
  CHECK(mine != theirs);
  const auto left = laptop.copyTo(county.fresh("left"));
  const auto right = twin.copyTo(county.fresh("right"));
  must(laptop.use().absorb(right, {.copies = true}));
  must(twin.use().absorb(left, {.copies = true}));
  for (auto* const computer : {&laptop, &twin}) {
    CHECK(must(computer->use().findings()).empty());
    checkProves(*computer, mine);
    checkProves(*computer, theirs);
    computer->close();
    checkProves(*computer, mine);
    checkProves(*computer, theirs);
  }
}

TEST_CASE(
    "A key that one copy of a disk revoked is no flaw of what the other copy had signed with it",
    "[case-243]") {
  SignedTwins disks;
  auto& [county, laptop, twin] = disks;
  must(twin.use().revokeKey(county.clinic.by, county.clinic.hygienist, "the passphrase was seen"));
  county.note(laptop, county.children[0]);
  county.note(laptop, county.children[1]);
  const auto mine = disks.sign(laptop);
  must(laptop.use().absorb(twin.copyTo(county.fresh("right")), {.copies = true}));
  CHECK(must(laptop.use().findings()).empty());
  checkProves(laptop, mine);
}
