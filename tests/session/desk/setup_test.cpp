#include "base/text/text.h"
#include "session/values/setup.h"

#include "base/text/text.h"
#include "support/clinic.h"

#include <algorithm>

using namespace gk;
using base::Date;
using session::Area;
using session::AreaStanding;
using session::SetupRecords;
using test::must;

namespace {

Date dateFrom(const char* iso) {
  return must(Date::parse(iso));
}

template <class T>
void put(std::vector<base::Recorded<T>>& into, const T& value) {
  base::Uuid id{};
  id.bytes[15] = static_cast<std::uint8_t>(into.size() + 1);
  into.push_back(
      {typename T::Key(id), {base::EntryId(id), base::LaptopId(id), 1, {}, {}, {}, {}}, value});
}

roster::Member member(const char* initials, roster::Role role, const char* until) {
  return {initials, initials, role, "RDH 1", dateFrom(until), roster::usualTasks(role)};
}

kit::Lot lot(kit::MaterialKind kind, const char* name, const char* expiry) {
  kit::Lot made{.kind = kind,
                .material = name,
                .lot = "1",
                .expiry = dateFrom(expiry),
                .contains = {},
                .quarantineReason = {}};
  return made;
}

/// A program that could work on November 17, 2026.
SetupRecords whole() {
  SetupRecords records{.on = dateFrom("2026-11-17")};
  records.program = roster::Program{.name = "Larkmere",
                                    .county = "Larkmere",
                                    .phone = "000-555-0142",
                                    .authorizingDentist = "Dr. Hartgrove",
                                    .agreementUntil = dateFrom("2027-01-31"),
                                    .privacyFooting = "HIPAA, board, August 2026",
                                    .times = {}};
  put(records.schools, roster::School{"Cobble Lantern Elementary", "CL"});
  put(records.terms, roster::Term{"Fall 2026", dateFrom("2026-08-24"), dateFrom("2026-12-18"), {}});
  put(records.enrollments, roster::Enrollment{records.terms[0].id, records.schools[0].id, "2", 61});
  put(records.members, member("OF", roster::Role::hygienist, "2027-06-30"));
  put(records.members, member("CW", roster::Role::coordinator, "2027-06-30"));
  put(records.lights, kit::Light{"L-1", kit::LightType::led, {800}, {1080}, true, "M-1"});
  put(records.lots, lot(kit::MaterialKind::sealantLightCure, "Resin Fern", "2027-04-30"));
  put(records.lots, lot(kit::MaterialKind::etchant, "Etch Moss", "2027-04-30"));
  put(records.lots, lot(kit::MaterialKind::varnish, "Varnish Elm", "2027-04-30"));
  put(records.cureTimes, kit::CureTime{records.lights[0].id, "Resin Fern", base::Seconds(20)});
  records.hasStudents = true;
  records.withForm = 12;
  return records;
}

session::AreaState at(const SetupRecords& records, Area area) {
  return session::setupOf(records).at(static_cast<std::size_t>(area));
}

bool says(const session::AreaState& state, const std::string& words) {
  return std::ranges::any_of(state.open, [&](const std::string& sentence) {
    return sentence.find(words) != std::string::npos;
  });
}

} // namespace

TEST_CASE("The check list of a first day is empty where nothing is missing", "[case-201]") {
  const auto areas = session::setupOf(whole());
  REQUIRE(areas.size() == base::enumCount<Area>);
  for (std::size_t i = 0; i < areas.size(); ++i) {
    INFO(base::nameOf(areas[i].area) << ": " << base::join(areas[i].open, " "));
    CHECK(static_cast<std::size_t>(areas[i].area) == i);
    CHECK(areas[i].standing == AreaStanding::ready);
    CHECK(areas[i].open.empty());
    CHECK_FALSE(areas[i].words.empty());
  }
  CHECK(session::isSetUp(areas));
}

TEST_CASE("An empty logbook misses something in every area but the years", "[case-201]") {
  const auto areas = session::setupOf({.on = dateFrom("2026-11-17")});
  for (const auto& area : areas) {
    INFO(base::nameOf(area.area));
    if (area.area == Area::years) { // no day waits for one
      CHECK(area.standing == AreaStanding::ready);
      continue;
    }
    CHECK(area.standing == AreaStanding::missing);
    CHECK_FALSE(area.open.empty());
  }
  CHECK_FALSE(session::isSetUp(areas));
}

TEST_CASE("What keeps a day from being worked is told from what only should be done",
          "[case-201]") {
  const auto judged = [](Area area, auto change) {
    auto records = whole();
    change(records);
    return at(records, area);
  };
  const auto isMissing = [](const session::AreaState& state, const std::string& words) {
    INFO(base::join(state.open, " "));
    CHECK(state.standing == AreaStanding::missing);
    CHECK(says(state, words));
  };
  const auto isAsked = [](const session::AreaState& state, const std::string& words) {
    INFO(base::join(state.open, " "));
    CHECK(state.standing == AreaStanding::ask);
    CHECK(says(state, words));
  };
  isMissing(judged(Area::program,
                   [](auto& all) { all.program->agreementUntil = dateFrom("2026-11-16"); }),
            "ended on");
  isAsked(judged(Area::program, [](auto& all) { all.program->authorizingDentist = " "; }),
          "dentist");
  isAsked(judged(Area::schools, [](auto& all) { all.enrollments.clear(); }), "1 school");
  isMissing(judged(Area::terms, [](auto& all) { all.terms[0].value.end = dateFrom("2026-11-16"); }),
            "next term");
  isAsked(judged(Area::terms, [](auto& all) { all.terms[0].value.start = dateFrom("2026-11-18"); }),
          "begins on");
  isMissing(judged(Area::team,
                   [](auto& all) { all.members[0].value.licenseUntil = dateFrom("2026-11-16"); }),
            "may place sealants");
  isAsked(judged(Area::team,
                 [](auto& all) { all.members[0].value.licenseUntil = dateFrom("2026-12-15"); }),
          "28 days");
  isAsked(judged(Area::team, [](auto& all) { all.members.pop_back(); }),
          "Enter a second person who may sign");
  isAsked(judged(Area::team, [](auto& all) { all.members[0].value.license.clear(); }),
          "no license number");
  isMissing(judged(Area::lights, [](auto& all) { all.lights[0].value.inService = false; }),
            "in service");
  isAsked(judged(Area::lights, [](auto& all) { all.cureTimes.clear(); }), "Resin Fern");
  isAsked(judged(Area::lights, [](auto& all) { all.lights[0].value.baseline = {0}; }),
          "first reading");
  isMissing(
      judged(Area::lots, [](auto& all) { all.lots[0].value.expiry = dateFrom("2026-11-16"); }),
      "No sealant lot");
  isMissing(judged(Area::lots, [](auto& all) { all.lots[1].value.quarantined = true; }),
            "No etchant lot");
  isAsked(judged(Area::lots, [](auto& all) { all.lots.pop_back(); }), "varnish");
  isMissing(judged(Area::rosters, [](auto& all) { all.hasStudents = false; }), "No student");
  isAsked(judged(Area::rosters, [](auto& all) { all.withForm = 0; }), "No valid consent form");
}

TEST_CASE("Glass ionomer alone asks for neither etchant nor light", "[case-201]") {
  auto records = whole();
  records.lights.clear();
  records.lots = {records.lots[2]};
  put(records.lots, lot(kit::MaterialKind::glassIonomer, "Ionomer Reed", "2027-04-30"));
  CHECK(at(records, Area::lights).standing == AreaStanding::ready);
  CHECK(at(records, Area::lots).standing == AreaStanding::ready);
}

TEST_CASE("A day is of the term it is in, else of the next, else of the newest", "[case-201]") {
  std::vector<base::Recorded<roster::Term>> terms;
  CHECK(session::termFor(terms, dateFrom("2026-11-17")) == nullptr);
  for (const auto& [name, start, end] : {std::tuple("Spring", "2027-01-11", "2027-05-28"),
                                         {"Fall", "2026-08-24", "2026-12-18"},
                                         {"Last", "2026-01-12", "2026-05-29"}})
    put(terms, roster::Term{name, dateFrom(start), dateFrom(end), {}});
  const auto on = [&](const char* date) {
    return session::termFor(terms, dateFrom(date))->value.name;
  };
  CHECK(on("2026-02-01") == "Last");
  CHECK(on("2026-07-01") == "Fall");
  CHECK(on("2026-11-17") == "Fall");
  CHECK(on("2026-12-18") == "Fall");
  CHECK(on("2026-12-24") == "Spring");
  CHECK(on("2028-01-01") == "Spring");
}

TEST_CASE("A logbook says itself what is missing for its next day", "[case-201]") {
  test::Clinic clinic;
  const auto areas = [&] { return must(clinic.session.setup(clinic.clock.now().date())); };
  CHECK(areas()[static_cast<std::size_t>(Area::rosters)].standing == AreaStanding::missing);
  clinic.childWithoutForm("Osei");
  CHECK(areas()[static_cast<std::size_t>(Area::rosters)].standing == AreaStanding::ask);
  clinic.child("Mina");
  CHECK(areas()[static_cast<std::size_t>(Area::rosters)].words == "1 form");
  CHECK(session::isSetUp(areas()));
  must(clinic.session.quarantineLot(clinic.by, clinic.etchant, "recalled"));
  CHECK_FALSE(session::isSetUp(areas()));
}
