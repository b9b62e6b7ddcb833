#include "demo.h"
#include "telling/story.h"

#include <array>

namespace gk::demo {

namespace {

using base::Seconds;
using kit::ContentSet;
using kit::MaterialKind;

base::LaptopId laptop(Teller& teller) {
  return base::LaptopId(base::makeUuid7(teller.clock.now().at, teller.forBooks));
}

roster::Program program() {
  return {.name = programName,
          .county = "Larkmere County",
          .phone = "000-555-0142",
          .supervision = roster::Supervision::general,
          .authorizingDentist = "Dr. Selwyn Hartgrove, DD-00092",
          .agreementUntil = on(2027, 1, 31),
          .privacyFooting = "Acts for no school and bills nobody; counsel asked in July 2025",
          .times = {},
          .benchmarks = {.consented = 50, .screened = 97, .sealed = 90, .retained = 90}};
}

void enterTerms(Story& story) {
  auto& tell = story.teller;
  tell.at("setting up the program");
  const base::By nobody{};
  story.terms.push_back(
      tell.must(story.a->enterTerm(nobody, {"Fall 2025",
                                            on(2025, 9, 2),
                                            on(2025, 12, 19),
                                            {on(2025, 10, 13), on(2025, 11, 11), on(2025, 11, 26),
                                             on(2025, 11, 27), on(2025, 11, 28)}})));
  story.terms.push_back(
      tell.must(story.a->enterTerm(nobody, {"Fall 2026",
                                            on(2026, 9, 8),
                                            on(2026, 12, 18),
                                            {on(2026, 10, 12), on(2026, 11, 11), on(2026, 11, 25),
                                             on(2026, 11, 26), on(2026, 11, 27)}})));
  using roster::YearKind;
  tell.must(
      story.a->enterYear(nobody, {"2025-26", YearKind::school, on(2025, 8, 1), on(2026, 7, 31)}));
  tell.must(
      story.a->enterYear(nobody, {"2026-27", YearKind::school, on(2026, 8, 1), on(2027, 7, 31)}));
  for (const auto& school : county())
    story.schools.push_back(tell.must(
        story.a->enterSchool(nobody, {std::string(school.name), std::string(school.code)})));
}

void enterTeam(Story& story) {
  auto& tell = story.teller;
  tell.at("setting up the team");
  const auto member = [&](const char* name, const char* initials, roster::Role role,
                          const char* license, std::optional<base::Date> until) {
    return tell.must(
        story.a->enterMember({}, {name, initials, role, license, until, roster::usualTasks(role)}));
  };
  using enum roster::Role;
  const auto oriel = member("Oriel Fenwhistle", "OF", hygienist, "HY-00417", on(2027, 6, 30));
  const auto tamsin = member("Tamsin Quillbrook", "TQ", hygienist, "HY-00588", on(2026, 12, 15));
  const auto bram = member("Bram Ottersley", "BO", dentalAssistant, "DA-01203", {});
  const auto ines = member("Ines Marrowby", "IM", coordinator, "", {});
  const auto corvin = member("Corvin Ashlark", "CA", manager, "", {});
  member("Dr. Selwyn Hartgrove", "SH", dentist, "DD-00092", {});
  story.team = Team{oriel, tamsin, bram, ines, corvin, std::nullopt};
}

void enterKit(Story& story) {
  auto& tell = story.teller;
  tell.at("setting up lights and materials");
  const base::By by{story.team->ines, {}};
  const auto light = [&](const char* tag, int baseline) {
    return tell.must(story.a->enterLight(
        by, {.tag = tag, .makersLeast = {}, .baseline = {baseline}, .meter = "M-1"}));
  };
  const auto l1 = light("L-1", 1080);
  const auto l2 = light("L-2", 0); // no one wrote its baseline down: no reading can be compared
  const auto l3 = light("L-3", 990);

  const auto lot = [&](MaterialKind kind, const char* material, const char* number,
                       base::Date expiry, Seconds time, ContentSet contains) {
    return tell.must(story.a->enterLot(by, {.kind = kind,
                                            .material = material,
                                            .lot = number,
                                            .expiry = expiry,
                                            .makersTime = time,
                                            .contains = contains}));
  };
  using enum MaterialKind;
  using enum kit::Contains;
  const auto old =
      lot(sealantLightCure, "Resin Fern", "RF-2512", on(2026, 10, 31), Seconds(20), {acrylate});
  const auto fern =
      lot(sealantLightCure, "Resin Fern", "RF-2609", on(2027, 4, 30), Seconds(20), {acrylate});
  lot(sealantSelfCure, "Resin Slate", "RS-1184", on(2027, 1, 31), Seconds(60), {acrylate});
  const auto thistle = lot(etchant, "Etch Thistle", "ET-0931", on(2027, 8, 31), Seconds(15), {});
  const auto clay =
      lot(glassIonomer, "Interim Clay", "IC-0077", on(2026, 12, 31), Seconds(90), {fluoride});
  const auto birch =
      lot(varnish, "Varnish Birch", "VB-5502", on(2027, 9, 30), Seconds(0), {rosin, fluoride});
  const auto alder =
      lot(varnish, "Varnish Alder", "VA-0310", on(2027, 3, 31), Seconds(0), {fluoride});
  story.kit = Kit{l1, l2, l3, old, fern, thistle, clay, birch, alder};
  for (const auto id : {l1, l2, l3})
    tell.must(story.a->enterCureTime(by, {id, "Resin Fern", Seconds(20)}));
}

} // namespace

void setUp(Story& story) {
  auto& tell = story.teller;
  tell.at("making the logbook");
  const session::World world{tell.clock, tell.forBooks};
  using session::BookKind;
  using session::Session;
  story.a.emplace(
      tell.must(Session::create(story.work / "a.gkbook", passphrase, laptop(tell), world, program(),
                                BookKind::throwaway, session::Confirmed::yes)));
  enterTerms(story);
  enterTeam(story);
  enterKit(story);

  tell.at("copying the logbook to the second laptop");
  const auto copy = story.work / "b.gkbook";
  tell.must(story.a->backUp(copy));
  story.b.emplace(tell.must(
      Session::open(copy, laptop(tell), world, store::Access::readWrite, BookKind::throwaway)));
  tell.must(story.b->unlock(passphrase));
}

void Story::carry(Desk from, Desk to) {
  const auto stick = work / "stick.gkbook";
  teller.must(at(from).backUp(stick));
  teller.must(at(to).absorb(stick));
  std::filesystem::remove(stick);
}

} // namespace gk::demo
