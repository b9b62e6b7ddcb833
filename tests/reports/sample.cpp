#include "reports/sample.h"

#include <algorithm>

namespace gk::test {

using namespace chairside;

namespace {

roster::Consent formOf(roster::ChildId child, roster::TermId term, roster::ConsentState state) {
  return {child,
          term,
          state,
          roster::ServiceSet::all(),
          roster::Relation::parent,
          false,
          date("2026-09-01"),
          date("2026-09-10"),
          date("2026-09-01"),
          date("2027-06-30"),
          roster::HistoryAnswered::yes,
          ""};
}

Screening screeningOf(roster::ChildId child, roster::DayId day, std::vector<ToothFinding> teeth) {
  return {child, day, Tri::no, Tri::no, Urgency::none, UrgentReason::none, "", std::move(teeth)};
}

Placement placementOf(Maker& make, roster::ChildId child, roster::DayId day, int iso,
                      PlacementType type, Attempt attempt, base::MemberId by, kit::LotId lot) {
  const auto tooth = dentition::toothAt(iso);
  return {child,
          day,
          make.id<FieldId>(),
          tooth,
          dentition::usualSurfaces(tooth),
          type,
          attempt,
          by,
          std::nullopt,
          Isolation::cottonRolls,
          true,
          lot,
          {},
          {},
          {},
          {},
          1,
          0,
          0,
          1,
          true,
          StepResult::passed,
          ""};
}

} // namespace

ToothFinding toSeal(int iso) {
  ToothFinding finding{dentition::toothAt(iso), Presence::erupted};
  finding.occlusal.condition = Condition::sound;
  finding.decision = Decision::seal;
  finding.toSeal = {dentition::Surface::occlusal};
  return finding;
}

ToothFinding found(int iso, Condition condition) {
  ToothFinding finding{dentition::toothAt(iso), Presence::erupted};
  finding.occlusal.condition = condition;
  return finding;
}

SampleDay::SampleDay() {
  make.setTime(noonOf("2026-11-17"));
  make.setAuthor(hygienist);
  records.members.push_back(make.named<roster::Member>(
      hygienist, {"Oriel Fenwhistle", "OF", roster::Role::hygienist, "HY-00417", {}, {}}));
  records.lots.push_back(make.named<kit::Lot>(fern, {kit::MaterialKind::sealantLightCure,
                                                     "Resin Fern",
                                                     "RF-2609",
                                                     date("2027-04-30"),
                                                     base::Seconds{20},
                                                     {},
                                                     false,
                                                     ""}));
}

roster::ChildId SampleDay::child(const std::string& name, roster::ConsentState state,
                                 const std::string& room) {
  const auto number = roster::withCheckDigit(std::to_string(1043 + records.children.size()));
  const auto made = make.row<roster::Child>(
      {number, {2019, 3}, dentition::Sex::female, school, "2", room, false, ""});
  records.children.push_back(made);
  if (!name.empty()) names[made.id] = name;
  consent(made.id, state);
  return made.id;
}

void SampleDay::consent(roster::ChildId child, roster::ConsentState state) {
  records.consents.push_back(make.row(formOf(child, term, state)));
}

Screening& SampleDay::screen(roster::ChildId child, std::vector<ToothFinding> teeth) {
  records.screenings.push_back(make.row(screeningOf(child, records.id, std::move(teeth))));
  return records.screenings.back().value;
}

Placement& SampleDay::place(roster::ChildId child, int iso, Attempt attempt) {
  records.placements.push_back(make.row(
      placementOf(make, child, records.id, iso, PlacementType::fresh, attempt, hygienist, fern)));
  return records.placements.back().value;
}

DayOutcome& SampleDay::end(roster::ChildId child, DayEnd end, const std::string& reason) {
  records.outcomes.push_back(make.row<DayOutcome>({child, records.id, end, reason}));
  return records.outcomes.back().value;
}

FieldId SampleDay::field(roster::ChildId child, int iso) {
  const dentition::ToothSurfaces meant{dentition::toothAt(iso), {dentition::Surface::occlusal}};
  records.fields.push_back(make.row<Field>({child,
                                            records.id,
                                            {meant},
                                            Isolation::cottonRolls,
                                            DryGuardSet::all(),
                                            Holder::device,
                                            Holder::device,
                                            true,
                                            std::nullopt,
                                            fern,
                                            std::nullopt,
                                            false,
                                            ""}));
  return records.fields.back().id;
}

StepRun& SampleDay::step(FieldId field, Step step, StepResult result) {
  StepRun run{field, step, records.fields.back().value.teeth, result, {}, {}, {}, {}, {}, {},
              {},    {}};
  records.steps.push_back(make.row(run));
  return records.steps.back().value;
}

roster::SchoolId SampleTerm::school(const std::string& name, int enrolled) {
  const auto made = make.row<roster::School>({name, name.substr(0, 2)});
  records.schools.push_back(made);
  if (enrolled > 0)
    records.enrollments.push_back(
        make.row<roster::Enrollment>({records.id, made.id, "2", enrolled}));
  return made.id;
}

roster::DayId SampleTerm::day(roster::SchoolId school, const std::string& iso) {
  const auto made = make.row<roster::ClinicDay>({records.id, school, date(iso), 1, "", false});
  records.days.push_back(made);
  return made.id;
}

roster::DayId SampleTerm::dayLastYear(roster::SchoolId school, const std::string& iso) {
  const auto made = day(school, iso);
  records.days.back().value.term = lastYear;
  return made;
}

roster::ChildId SampleTerm::child(roster::SchoolId school) {
  const auto number = roster::withCheckDigit(std::to_string(1043 + records.children.size()));
  const auto made = make.row<roster::Child>(
      {number, {2019, 3}, dentition::Sex::female, school, "2", "6", false, ""});
  records.children.push_back(made);
  return made.id;
}

void SampleTerm::consent(roster::ChildId child, roster::ConsentState state) {
  records.consents.push_back(make.row(formOf(child, records.id, state)));
}

Screening& SampleTerm::screen(roster::ChildId child, roster::DayId day,
                              std::vector<ToothFinding> teeth) {
  records.screenings.push_back(make.row(screeningOf(child, day, std::move(teeth))));
  return records.screenings.back().value;
}

PlacementId SampleTerm::place(roster::ChildId child, roster::DayId day, int iso, PlacementType type,
                              Attempt attempt) {
  const auto made = make.row(placementOf(make, child, day, iso, type, attempt,
                                         base::MemberId(base::Uuid{}), kit::LotId(base::Uuid{})));
  records.placements.push_back(made);
  return made.id;
}

void SampleTerm::end(roster::ChildId child, roster::DayId day, DayEnd end) {
  records.outcomes.push_back(make.row<DayOutcome>({child, day, end, ""}));
}

followup::RetentionCheck& SampleTerm::check(PlacementId placement, roster::DayId day,
                                            followup::Held held) {
  const auto& of =
      std::ranges::find(records.placements, placement, &base::Recorded<Placement>::id)->value;
  followup::RetentionCheck check{placement,
                                 of.child,
                                 day,
                                 followup::CheckKind::longTerm,
                                 true,
                                 held,
                                 followup::Held::notSealed,
                                 followup::Held::notSealed,
                                 followup::CannotAssess::none,
                                 followup::ToothHealth::sound,
                                 followup::LiftTest::notDone,
                                 followup::CheckAction::none,
                                 ""};
  if (held == followup::Held::cannotAssess) check.why = followup::CannotAssess::childUnable;
  records.checks.push_back(make.row(check));
  return records.checks.back().value;
}

} // namespace gk::test
