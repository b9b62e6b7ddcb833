#include "support/clinic.h"

using namespace gk;
using base::ErrorCode;
using dentition::toothAt;
using test::codeOf;
using test::must;

namespace {

/// Sealed upper right, and written down upper left.
struct MixedUp : test::Clinic {
  roster::ChildId wren = child("Wren", "Castlebury");
  MixedUp() {
    seat(wren);
    screenFour(wren);
    sealAll(must(session.isolate(by, field(wren, {26}))), {26});
  }
  base::Recorded<chairside::Placement> placement() {
    return must(session.placements(wren)).front();
  }
};

} // namespace

TEST_CASE("A placement on the wrong tooth is corrected with a reason, and the first word stays",
          "[case-64]") {
  MixedUp clinic;
  const auto old = clinic.placement();
  CHECK(codeOf(clinic.session.correctTooth(clinic.by, old, toothAt(16), "")) ==
        ErrorCode::ruleReason);
  must(clinic.session.correctTooth(clinic.by, old, toothAt(16), "seen at the recheck"));
  const auto now = clinic.placement();
  CHECK(now.value.tooth == toothAt(16));
  CHECK(now.id == old.id);
  CHECK(now.stamp.supersedes == old.stamp.entry);
  CHECK(now.stamp.reason == "seen at the recheck");
  CHECK(now.value.light == old.value.light);
}

TEST_CASE("The companion surface goes with the tooth", "[case-64]") {
  MixedUp clinic;
  must(clinic.session.correctTooth(clinic.by, clinic.placement(), toothAt(36), "seen"));
  CHECK(clinic.placement().value.surfaces == dentition::usualSurfaces(toothAt(36)));
}

TEST_CASE("A tooth that has a sealant of that day cannot take another's place", "[case-64]") {
  MixedUp clinic;
  clinic.sealAll(must(clinic.session.isolate(clinic.by, clinic.field(clinic.wren, {16}))), {16});
  CHECK(codeOf(clinic.session.correctTooth(clinic.by, clinic.placement(), toothAt(16), "seen")) ==
        ErrorCode::ruleTooth);
  clinic.by.author = clinic.coordinator;
  CHECK(codeOf(clinic.session.correctTooth(clinic.by, clinic.placement(), toothAt(36), "seen")) ==
        ErrorCode::ruleCredential);
}
