#include "reports/records/inputs.h"
#include "support/clinic.h"

using namespace gk;
using test::must;

TEST_CASE("A check by whoever placed the sealant is kept and is not blind", "[case-62]") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  clinic.standardVisit(child);
  const auto placed = must(clinic.session.placements(child)).front();
  followup::RetentionCheck check{.placement = placed.id,
                                 .child = child,
                                 .day = clinic.day,
                                 .kind = followup::CheckKind::shortTermSample,
                                 .blinded = true,
                                 .note = ""};
  for (const auto surface : placed.value.surfaces.values()) {
    if (surface == dentition::Surface::occlusal) check.occlusal = followup::Held::whole;
    if (surface == dentition::Surface::buccalPit) check.buccal = followup::Held::whole;
    if (surface == dentition::Surface::lingualGroove) check.lingual = followup::Held::whole;
  }
  must(clinic.session.enterCheck(clinic.by, check));
  const auto records = must(clinic.session.dayRecords(clinic.day));
  REQUIRE(records.checks.size() == 1);
  CHECK_FALSE(records.checks.front().value.blinded);
}
