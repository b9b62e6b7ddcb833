#include "exchange/sample.h"

namespace gk::test {

using namespace chairside;

SampleExport::SampleExport()
    : records{.program = "Larkmere County School Sealant Team",
              .county = "Larkmere County",
              .termId = id<roster::TermId>(),
              .term = {"Fall 2026", dateOf("2026-09-08"), dateOf("2026-12-18"), {}}},
      first(id<roster::ChildId>()), second(id<roster::ChildId>()) {
  records.schools = {row(roster::School{"Cobble Lantern Elementary", "CL"})};
  records.days = {row(roster::ClinicDay{records.termId, records.schools[0].id, dateOf("2026-11-17"),
                                        1, "", false})};
  records.lots = {row(kit::Lot{kit::MaterialKind::sealantLightCure,
                               "Resin Fern",
                               "RF-2609",
                               dateOf("2027-04-30"),
                               base::Seconds(20),
                               {},
                               false,
                               ""})};
  addChild(first, "1043-0", roster::ServiceSet::all());
  addChild(second, "1051-1",
           roster::ServiceSet{roster::Service::screening, roster::Service::sealants});
  people.emplace(first, exchange::Person{"Mina", "Tolliver-Reed", dateOf("2019-03-04")});
  people.emplace(second, exchange::Person{"Osei", "Brackwater", dateOf("2018-06-05")});
}

void SampleExport::addChild(roster::ChildId child, const std::string& number,
                            roster::ServiceSet allowed) {
  const auto day = records.days[0].id;
  const auto tooth = dentition::toothAt(16);
  records.children.push_back(named<roster::Child>(child, {number,
                                                          {2019, 3},
                                                          dentition::Sex::female,
                                                          records.schools[0].id,
                                                          "2",
                                                          "7b",
                                                          false,
                                                          "Secret note of " + number}));
  records.consents.push_back(row(roster::Consent{
      child, records.termId, roster::ConsentState::yes, allowed, roster::Relation::parent, false,
      dateOf("2026-09-01"), dateOf("2026-09-05"), dateOf("2026-09-01"), dateOf("2027-06-30"),
      roster::HistoryAnswered::yes, "Secret"}));
  records.authorizations.push_back(
      row(Authorization{.child = child,
                        .teeth = {{tooth, dentition::usualSurfaces(tooth)}},
                        .dentist = id<base::MemberId>(),
                        .how = AuthorizedHow::examAtSchool,
                        .on = dateOf("2026-11-10"),
                        .until = dateOf("2027-11-09"),
                        .note = "Secret"}));
  ToothFinding finding{.tooth = tooth, .presence = Presence::erupted};
  finding.occlusal.condition = Condition::sound;
  finding.decision = Decision::seal;
  finding.toSeal = dentition::usualSurfaces(tooth);
  finding.note = "Secret";
  records.screenings.push_back(row(Screening{
      child, day, Tri::no, Tri::no, Urgency::none, UrgentReason::none, "Secret", {finding}}));
  records.placements.push_back(row(Placement{.child = child,
                                             .day = day,
                                             .field = id<FieldId>(),
                                             .tooth = tooth,
                                             .surfaces = dentition::usualSurfaces(tooth),
                                             .type = PlacementType::fresh,
                                             .attempt = Attempt::complete,
                                             .placedBy = id<base::MemberId>(),
                                             .assistant = {},
                                             .isolation = Isolation::cottonRolls,
                                             .fourHanded = true,
                                             .sealant = records.lots[0].id,
                                             .etchant = {},
                                             .light = {},
                                             .etched = base::Milliseconds(20500),
                                             .cured = {},
                                             .note = "Secret"}));
  records.checks.push_back(
      row(followup::RetentionCheck{.placement = records.placements.back().id,
                                   .child = child,
                                   .day = day,
                                   .kind = followup::CheckKind::shortTermSample,
                                   .occlusal = followup::Held::whole,
                                   .note = "Secret"}));
  records.outcomes.push_back(row(DayOutcome{child, day, DayEnd::sealedComplete, "Secret"}));
}

} // namespace gk::test
