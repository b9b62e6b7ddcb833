#include "session/rights/all_verbs.h"

#include <algorithm>
#include <array>

// Who may change what the program is: its rules, schools, team, terms, lights and lots.

using namespace gk;
using base::ErrorCode;
using base::Station;
using session::Keeps;
using session::Verb;
using test::AllVerbs;
using test::codeOf;
using test::must;
using test::Scratch;

namespace {

roster::Member usualMember(const char* name, const char* initials, roster::Role role) {
  return {name, initials, role, "", {}, roster::usualTasks(role)};
}

bool isAmong(const auto& all, auto one) {
  return std::ranges::find(all, one) != all.end();
}

/// What a person does to her own PIN, passphrase and key.
constexpr std::array ownThings{Verb::setPin, Verb::enterKey, Verb::changeKey, Verb::revokeKey};

roster::Program programSetUp() {
  return {.name = "Larkmere County School Sealant Team",
          .county = "Larkmere",
          .phone = "000-555-0142",
          .authorizingDentist = "Dr. Selwyn Hartgrove",
          .agreementUntil = *base::Date::parse("2027-01-31"),
          .privacyFooting = "state only",
          .times = {}};
}

/// A book that is set up: its program, no school day.
struct BeingSetUp {
  Scratch folder;
  base::ManualClock clock{base::atLocal(*base::Date::parse("2026-08-10"), std::chrono::hours(9),
                                        std::chrono::hours(-5))};
  base::SeededRandom random{7};
  store::HandMemory laptop{folder.path(), {"this computer", "this start"}, random};
  session::Session session;

  BeingSetUp()
      : session(must(session::Session::create(folder / "new.gkbook", "quiet gym floor", laptop,
                                              {clock, random}, programSetUp(),
                                              session::BookKind::throwaway))) {}
  base::MemberId enter(const base::By& by, const char* name, const char* initials,
                       roster::Role role) {
    return must(session.enterMember(by, usualMember(name, initials, role)));
  }
};

} // namespace

TEST_CASE("Every act on program, schools, team, terms, lights and lots asks for more than to type",
          "[verbs][case-433]") {
  AllVerbs clinic;
  const auto of = [&](const char* name, const char* initials, roster::Role role) {
    return must(clinic.session.enterMember(clinic.by, usualMember(name, initials, role)));
  };
  const auto volunteer = of("Ines Volo", "IV", roster::Role::volunteer);
  const auto manager = of("Ada Marsh", "AM", roster::Role::manager);
  int kept = 0;
  for (const auto& row : session::verbRules) {
    INFO(row.name);
    constexpr std::array stations{Station::program, Station::schools, Station::team,
                                  Station::lights, Station::lots};
    if (isAmong(stations, row.station) && !isAmong(ownThings, row.verb))
      CHECK(row.right.keeps != Keeps::nothing);
    if (row.right.keeps == Keeps::nothing) continue;
    ++kept;
    CHECK(clinic.calls.at(row.verb)({{volunteer, {}}, clinic.mina, "why"}) ==
          ErrorCode::ruleCredential);
    // An assistant keeps the lights and the lots.
    CHECK((clinic.calls.at(row.verb)({{clinic.assistant, {}}, clinic.mina, "why"}) ==
           ErrorCode::ruleCredential) == (row.right.keeps == Keeps::program));
  }
  CHECK(kept > 20);
  // Typing it for one who may enter it is no more than typing.
  must(clinic.session.correctSchool({manager, volunteer}, clinic.school, {"Cobble Lantern", "CL"},
                                    "as it calls itself"));
}

TEST_CASE("During setup a volunteer changes nothing once there is someone who may",
          "[verbs][case-434]") {
  BeingSetUp book;
  const auto volunteer = book.enter({}, "Ines Volo", "IV", roster::Role::volunteer);
  // The first of the team is alone.
  const auto school = must(book.session.enterSchool({volunteer, {}}, {"Alder Hollow", "AH"}));
  const auto manager = book.enter({volunteer, {}}, "Ada Marsh", "AM", roster::Role::manager);
  const roster::School changed{"Alder Hollow Elementary", "AH"};
  const auto refused =
      book.session.correctSchool({volunteer, {}}, school, changed, "the whole name");
  REQUIRE(codeOf(refused) == ErrorCode::ruleCredential);
  CHECK(refused.error().detail ==
        "Ines Volo does not sign and is not a manager, so another member must do this: one who "
        "signs, or a manager");
  must(book.session.correctSchool({manager, {}}, school, changed, "the whole name"));
  // No one need be named while a program is set up, until someone could be known by a PIN.
  must(book.session.enterSchool({}, {"Birch Landing", "BL"}));
  must(book.session.unlock("quiet gym floor"));
  must(book.session.setPin({manager, {}}, manager, "4821"));
  CHECK(codeOf(book.session.enterSchool({}, {"Cedar Mill", "CM"})) == ErrorCode::ruleCredential);
  must(book.session.enterSchool({manager, {}}, {"Cedar Mill", "CM"}));
}
