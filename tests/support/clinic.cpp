#include "support/clinic.h"

#include "chairside/allergy.h"

namespace gk::test {

using chairside::Step;
using chairside::StepResult;
using dentition::toothAt;

namespace {

base::Date date(const char* iso) {
  return must(base::Date::parse(iso));
}

std::vector<dentition::ToothSurfaces> surfacesOf(const std::vector<int>& isoTeeth) {
  std::vector<dentition::ToothSurfaces> teeth;
  for (int iso : isoTeeth)
    teeth.push_back({toothAt(iso), dentition::usualSurfaces(toothAt(iso))});
  return teeth;
}

roster::Program larkmere(bool primaryTeeth, roster::Supervision supervision) {
  return {.name = "Larkmere County School Sealant Team",
          .county = "Larkmere",
          .phone = "000-555-0142",
          .supervision = supervision,
          .authorizingDentist = "Dr. Selwyn Hartgrove",
          .agreementUntil = date("2027-01-31"),
          .privacyFooting = "state only",
          .primaryTeethOffered = primaryTeeth,
          .times = {}};
}

kit::Lot lot(kit::MaterialKind kind, const char* name, const char* number, int seconds,
             kit::ContentSet contains) {
  return {kind, name, number, date("2027-04-30"), base::Seconds(seconds), contains, false, {}};
}

} // namespace

Clinic::Clinic(bool primaryTeeth)
    : Clinic(std::make_optional<Scratch>(), {}, session::BookKind::throwaway, primaryTeeth,
             roster::Supervision::general) {}

Clinic::Clinic(roster::Supervision supervision)
    : Clinic(std::make_optional<Scratch>(), {}, session::BookKind::throwaway, false, supervision) {}

Clinic::Clinic(const base::Path& book, session::BookKind kind, roster::Supervision supervision)
    : Clinic({}, book, kind, false, supervision) {}

Clinic::Clinic(std::optional<Scratch>&& owned, const base::Path& book, session::BookKind kind,
               bool primaryTeeth, roster::Supervision supervision)
    : folder(std::move(owned)),
      clock(base::atLocal(date("2026-11-17"), std::chrono::minutes(9 * 60),
                          std::chrono::minutes(-300))),
      laptop(base::makeUuid7(clock.now().at, random)),
      session(must(session::Session::create(folder ? *folder / "book.gkbook" : book, passphrase,
                                            laptop, {clock, random},
                                            larkmere(primaryTeeth, supervision), kind))),
      hygienist(must(session.enterMember({}, {"Oriel Fenwhistle", "OF", roster::Role::hygienist,
                                              "HY-00417", date("2027-06-30"),
                                              roster::usualTasks(roster::Role::hygienist)}))),
      assistant(must(session.enterMember({}, {"Bram Ottersley",
                                              "BO",
                                              roster::Role::dentalAssistant,
                                              "DA-01203",
                                              {},
                                              roster::usualTasks(roster::Role::dentalAssistant)}))),
      coordinator(must(session.enterMember({}, {"Ines Marrowby",
                                                "IM",
                                                roster::Role::coordinator,
                                                "",
                                                {},
                                                roster::usualTasks(roster::Role::coordinator)}))),
      term(must(session.enterTerm(
          {}, {"Fall 2026", date("2026-09-08"), date("2026-12-18"), {date("2026-11-11")}}))),
      school(must(session.enterSchool({}, {"Cobble Lantern Elementary", "CL"}))),
      resin(must(session.enterLot({}, lot(kit::MaterialKind::sealantLightCure, "Resin Fern",
                                          "RF-2609", 20, {kit::Contains::acrylate})))),
      selfCure(must(session.enterLot({}, lot(kit::MaterialKind::sealantSelfCure, "Resin Slate",
                                             "RS-1184", 60, {kit::Contains::acrylate})))),
      ionomer(must(session.enterLot(
          {}, lot(kit::MaterialKind::glassIonomer, "Interim Clay", "IC-0077", 90, {})))),
      etchant(must(session.enterLot(
          {}, lot(kit::MaterialKind::etchant, "Etch Thistle", "ET-0931", 15, {})))),
      varnish(must(session.enterLot({}, lot(kit::MaterialKind::varnish, "Varnish Birch", "VB-5502",
                                            0, {kit::Contains::rosin, kit::Contains::fluoride})))),
      light(must(session.enterLight({}, {"L-1", kit::LightType::led, {800}, {1080}, true, "M-1"}))),
      spare(must(session.enterLight({}, {"L-3", kit::LightType::led, {800}, {990}, true, "M-1"}))),
      day(must(session.openDay({hygienist, {}}, {term, school, date("2026-11-17"), 1, {}, false}))),
      by{hygienist, assistant} {
  if (supervision == roster::Supervision::dentistExamRequired)
    dentist = must(
        session.enterMember(by, {"Dr. Selwyn Hartgrove", "SH", roster::Role::dentist, "DD-00092",
                                 date("2027-01-31"), roster::usualTasks(roster::Role::dentist)}));
  must(session.enterCureTime(by, {light, "Resin Fern", base::Seconds(20)}));
  must(session.enterReading(by, {light, today(), {1040}, true, "M-1", true}));
  must(session.enterReading(by, {spare, today(), {905}, true, "M-1", true}));
}

roster::Child Clinic::newChild() {
  return {.number = roster::withCheckDigit(std::to_string(1043 + children_++)),
          .birth = {2019, 3},
          .sex = dentition::Sex::female,
          .school = school,
          .grade = "2",
          .room = "6",
          .note = {}};
}

roster::ChildId Clinic::childWithoutForm(const std::string& first, const std::string& last) {
  session::Identity identity{.first = first, .last = last, .birth = date("2019-03-14")};
  identity.guardians.push_back({"Rosa " + last, "mother", "000-555-0101", "English"});
  return must(session.enrollChild(by, newChild(), identity, session::Confirmed::no,
                                  session::Confirmed::yes));
}

roster::Consent Clinic::form(roster::ChildId child) const {
  return {.child = child,
          .term = term,
          .state = roster::ConsentState::yes,
          .allowed = roster::ServiceSet::all(),
          .signedOn = date("2026-10-20"),
          .receivedOn = date("2026-10-27"),
          .validFrom = date("2026-09-08"),
          .validUntil = date("2027-12-31"),
          .note = {}};
}

roster::ChildId Clinic::child(const std::string& first, const std::string& last) {
  const auto id = childWithoutForm(first, last);
  must(session.enterConsent(by, form(id)));
  return id;
}

chairside::Authorization Clinic::authorization(roster::ChildId child,
                                               const std::vector<int>& isoTeeth) const {
  return {.child = child,
          .teeth = surfacesOf(isoTeeth),
          .dentist = dentist.value(),
          .how = chairside::AuthorizedHow::examAtSchool,
          .on = date("2026-11-10"),
          .until = date("2027-06-30")};
}

void Clinic::seat(roster::ChildId child) {
  chairside::Seating seating{
      child, day, {chairside::Identifier::spokenName, chairside::Identifier::birthDate}};
  for (const auto& flag : must(session.flags(child)))
    if (chairside::isAlert(flag.value)) seating.heard.push_back(flag.id);
  must(session.seat(by, seating));
}

chairside::Screening Clinic::fourSound(roster::ChildId child) const {
  chairside::Screening screening{.child = child,
                                 .day = day,
                                 .untreatedDecay = chairside::Tri::no,
                                 .treatedDecay = chairside::Tri::no,
                                 .urgency = chairside::Urgency::none,
                                 .note = {},
                                 .teeth = {}};
  constexpr chairside::SurfaceFinding sound{chairside::Condition::sound,
                                            chairside::Origin::notSealed};
  for (const auto& tooth : dentition::firstMolars())
    screening.teeth.push_back({.tooth = tooth,
                               .presence = chairside::Presence::erupted,
                               .occlusal = sound,
                               .buccal = sound,
                               .lingual = sound,
                               .decision = chairside::Decision::seal,
                               .toSeal = dentition::usualSurfaces(tooth)});
  return screening;
}

void Clinic::screenFour(roster::ChildId child) {
  must(session.screen(by, fourSound(child)));
}

chairside::Field Clinic::field(roster::ChildId child, std::vector<int> isoTeeth) const {
  return {.child = child,
          .day = day,
          .teeth = surfacesOf(isoTeeth),
          .isolation = chairside::Isolation::rollsAndCheekPads,
          .assistant = assistant,
          .sealant = resin,
          .etchant = etchant,
          .note = {},
          .cleaned = chairside::Cleaning::toothbrush};
}

chairside::StepRun Clinic::run(chairside::FieldId field, Step step, std::vector<int> isoTeeth,
                               int seconds) const {
  chairside::StepRun made{.field = field,
                          .step = step,
                          .teeth = surfacesOf(isoTeeth),
                          .lasted = {},
                          .target = {},
                          .timer = {},
                          .light = {},
                          .lot = {},
                          .reason = {}};
  if (seconds > 0) {
    made.lasted = base::Seconds(seconds);
    made.source = chairside::TimeSource::timer;
  }
  if (step == Step::cure) {
    made.light = light;
    made.target = base::Seconds(20);
    made.lot = resin;
  }
  if (step == Step::dry) made.result = StepResult::frosty;
  if (step == Step::check) made.result = StepResult::passed;
  return made;
}

void Clinic::etchToFlow(chairside::FieldId field, const std::vector<int>& isoTeeth) {
  must(session.enterStep(by, run(field, Step::etch, isoTeeth, 22)));
  must(session.enterStep(by, run(field, Step::rinse, isoTeeth, 12)));
  must(session.enterStep(by, run(field, Step::dry, isoTeeth)));
  must(session.enterStep(by, run(field, Step::flow, isoTeeth)));
}

void Clinic::sealAll(chairside::FieldId field, const std::vector<int>& isoTeeth) {
  etchToFlow(field, isoTeeth);
  for (int iso : isoTeeth) {
    must(session.enterStep(by, run(field, Step::cure, {iso}, 20)));
    must(session.enterStep(by, run(field, Step::check, {iso})));
  }
}

void Clinic::standardVisit(roster::ChildId child) {
  seat(child);
  screenFour(child);
  for (const auto& half : {std::vector{16, 46}, std::vector{26, 36}})
    sealAll(must(session.isolate(by, field(child, half))), half);
  must(session.enterAfterCure(by, {child, day}));
  must(session.varnish(by, {child, day, varnish}));
  end(child, chairside::DayEnd::sealedComplete);
}

chairside::OutcomeId Clinic::end(roster::ChildId child, chairside::DayEnd end, std::string reason) {
  return must(session.endVisit(by, {child, day, end, std::move(reason)}, session::Confirmed::yes));
}

} // namespace gk::test
