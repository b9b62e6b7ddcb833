#include "chairside/placement.h"
#include "followup/copies/issued_report.h"
#include "followup/copies/merge_answer.h"
#include "followup/incident.h"
#include "followup/letter.h"
#include "followup/paper_count.h"
#include "followup/referral.h"
#include "followup/retention_check.h"
#include "kit/light.h"
#include "kit/readiness.h"
#include "roster/consent/consent.h"
#include "store/book.h"
#include "store/sqlite/transaction.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>

using namespace gk;
using base::ErrorCode;

namespace {

template <class T>
T must(base::Result<T> result) {
  if (!result) FAIL(base::errorName(result.error().code) << ": " << result.error().detail);
  return std::move(*result);
}

const base::LocalInstant nine{base::Instant{base::Milliseconds(1'794'924'000'000)},
                              std::chrono::minutes(-300)};

struct Desk {
  test::Scratch folder;
  base::SeededRandom random{3};
  base::LaptopId laptop{base::makeUuid7(nine.at, random)};
  store::Book book =
      must(store::Book::create(folder / "book.gkbook", laptop, store::Durability::bulk, nine.at,
                               {std::vector<std::uint8_t>(16, 1), 3, 65536,
                                std::vector<std::uint8_t>(24, 2), std::vector<std::uint8_t>(48, 3)},
                               random));

  template <class T>
  typename T::Key add(const T& value) {
    std::optional<typename T::Key> id;
    must(book.act({}, nine, [&](store::Act& act) { id.emplace(act.add(value)); }));
    return *id;
  }
  template <class T>
  std::vector<base::Recorded<T>> all() {
    return must(book.current<T>(store::everything()));
  }
  template <class T>
  void comesBack(const T& value) {
    const auto id = add(value);
    const auto rows = must(book.current<T>(store::subjectIs(id)));
    REQUIRE(rows.size() == 1);
    CHECK(rows[0].value == value);
    CHECK(rows[0].id == id);
  }
};

roster::School school() {
  return {"Alder Hollow Elementary", "AH"};
}

roster::Child child(roster::SchoolId at, int number) {
  return {.number = roster::withCheckDigit(std::to_string(number)),
          .birth = {2019, 3},
          .school = at,
          .grade = "2",
          .room = "6",
          .note = {}};
}

} // namespace

TEST_CASE("Every word of the record types fits the columns that hold it") {
  Desk desk;
  const auto at = desk.add(school());
  const auto who = desk.add(child(at, 1043));
  const auto date = must(base::Date::parse("2026-11-17"));
  const auto term = desk.add(roster::Term{"Fall", date, date.plusDays(9), {date.plusDays(1)}});
  const auto day = desk.add(roster::ClinicDay{term, at, date, 1, {}, false});
  const auto member = desk.add(
      roster::Member{"Oriel", "OF", roster::Role::hygienist, "HY", date, roster::TaskSet::all()});
  const auto each = [](auto first, auto&& use) {
    using E = decltype(first);
    for (std::size_t i = 0; i < base::enumCount<E>; ++i)
      use(static_cast<E>(i));
  };
  each(roster::Supervision{}, [&](auto kind) {
    desk.comesBack(roster::Program{.name = "P",
                                   .county = {},
                                   .phone = {},
                                   .supervision = kind,
                                   .authorizingDentist = {},
                                   .agreementUntil = {},
                                   .privacyFooting = {},
                                   .times = {}});
  });
  each(roster::Role{}, [&](auto role) {
    desk.comesBack(roster::Member{"A", "A", role, {}, {}, roster::usualTasks(role)});
  });
  each(dentition::Sex{}, [&](auto sex) {
    auto someone = child(at, 2000);
    someone.sex = sex;
    desk.comesBack(someone);
  });
  each(roster::ConsentState{}, [&](auto state) {
    each(roster::Relation{}, [&](auto relation) {
      desk.comesBack(roster::Consent{.child = who,
                                     .term = term,
                                     .state = state,
                                     .allowed = roster::ServiceSet::all(),
                                     .signer = relation,
                                     .signedOn = date,
                                     .receivedOn = date,
                                     .validFrom = date,
                                     .validUntil = date,
                                     .note = {}});
    });
  });
  each(roster::FlagKind{}, [&](auto kind) {
    each(roster::FlagAction{}, [&](auto action) {
      desk.comesBack(roster::MedicalFlag{who, kind, action, "x", true, "decided"});
    });
  });
  each(kit::LightType{}, [&](auto type) {
    desk.comesBack(kit::Light{"L-1", type, {800}, {1080}, true, "M-1", true});
  });
  each(kit::MaterialKind{}, [&](auto kind) {
    desk.comesBack(
        kit::Lot{kind, "M", "L", date, base::Seconds(20), kit::ContentSet::all(), false, {}});
  });
  const auto lot = desk.add(kit::Lot{
      kit::MaterialKind::sealantLightCure, "M", "L", date, base::Seconds(20), {}, false, {}});
  each(chairside::Condition{}, [&](auto condition) {
    each(chairside::Origin{}, [&](auto origin) {
      chairside::Screening screening{.child = who,
                                     .day = day,
                                     .untreatedDecay = chairside::Tri::cannotTell,
                                     .treatedDecay = chairside::Tri::yes,
                                     .urgency = chairside::Urgency::urgent,
                                     .urgentReason = chairside::UrgentReason::softTissue,
                                     .note = {},
                                     .teeth = {}};
      screening.teeth.push_back({.tooth = dentition::toothAt(16),
                                 .presence = chairside::Presence::erupted,
                                 .occlusal = {condition, origin}});
      desk.comesBack(screening);
    });
  });
  const auto field = [&](auto isolation, auto holder) {
    return chairside::Field{.child = who,
                            .day = day,
                            .teeth = {{dentition::toothAt(16), {dentition::Surface::occlusal}},
                                      {dentition::toothAt(85), dentition::SurfaceSet::all()}},
                            .isolation = isolation,
                            .cheek = holder,
                            .tongue = holder,
                            .assistant = member,
                            .sealant = lot,
                            .etchant = lot,
                            .note = "x"};
  };
  each(chairside::Isolation{}, [&](auto isolation) {
    each(chairside::Holder{}, [&](auto holder) { desk.comesBack(field(isolation, holder)); });
  });
  const auto kept = desk.add(field(chairside::Isolation::cheekPads, chairside::Holder::device));
  each(chairside::WetStage{}, [&](auto stage) {
    each(chairside::WetCause{}, [&](auto cause) {
      desk.comesBack(chairside::Wet{kept, {dentition::toothAt(16)}, stage, cause, {}});
    });
  });
  each(chairside::DayEnd{}, [&](auto end) {
    desk.comesBack(chairside::DayOutcome{who, day, end, "reason"});
  });
  each(kit::ReadinessItem{}, [&](auto item) {
    each(kit::ReadinessAnswer{}, [&](auto answer) {
      desk.comesBack(kit::ReadinessCheck{day, item, answer, "why", "what was seen"});
    });
  });
  each(followup::ReferralState{}, [&](auto state) {
    desk.comesBack(followup::Referral{who, day, chairside::Urgency::early, "cavity", date,
                                      followup::ReferredTo::communityClinic, state});
  });
  each(followup::LetterVariant{}, [&](auto variant) {
    each(followup::LetterState{}, [&](auto state) {
      desk.comesBack(followup::Letter{.child = who,
                                      .day = day,
                                      .guardian = followup::toStudent,
                                      .language = "English",
                                      .interpreter = true,
                                      .variant = variant,
                                      .facts = "sealed: 16\n",
                                      .templateDigest = std::string(64, 'a'),
                                      .textDigest = std::string(64, 'b'),
                                      .written = date,
                                      .prints = 2,
                                      .state = state});
    });
  });
  desk.comesBack(followup::IssuedReport{.term = term,
                                        .report = "funder",
                                        .choice = "",
                                        .version = 2,
                                        .issued = date,
                                        .figures = "part\tKey figures\n",
                                        .digest = std::string(64, 'c'),
                                        .release = "under\t10\n"});
  each(followup::Channel{}, [&](auto channel) {
    each(followup::ContactResult{}, [&](auto result) {
      desk.comesBack(followup::ContactAttempt{who, day, channel, result, {}});
    });
  });
  each(followup::IncidentType{}, [&](auto type) {
    desk.comesBack(followup::Incident{day, who, type, nine, "rinsed", "nurse", "call again", true});
    desk.comesBack(followup::Incident{.day = day, .type = type, .happened = nine, .done = "x"});
  });
  each(followup::Paper{}, [&](auto paper) {
    desk.comesBack(followup::PaperCount{day, paper, 4, 1, 1, 1, "one was torn"});
  });
  const auto light = desk.add(kit::Light{"L-1", kit::LightType::led, {}, {}, true, "M-1"});
  desk.comesBack(kit::LightPass{day, light, "no meter"});
  const auto twin = desk.add(child(at, 1044));
  each(followup::MergeVerdict{}, [&](auto verdict) {
    desk.comesBack(followup::MergeAnswer{day, who, twin, {}, verdict, 2, "asked the school"});
  });
  desk.comesBack(
      followup::MergeAnswer{day, who, {}, desk.laptop, followup::MergeVerdict::keptOne, 3, {}});
}

TEST_CASE("A correction supersedes and the first word stays in the history") {
  Desk desk;
  const auto id = desk.add(school());
  const auto old = desk.all<roster::School>().at(0);
  auto renamed = old.value;
  renamed.name = "Alder Hollow School";
  must(desk.book.act(
      {}, nine, [&](store::Act& act) { act.correct(old, renamed, "renamed by the district"); }));
  const auto now = desk.all<roster::School>();
  REQUIRE(now.size() == 1);
  CHECK(now[0].id == id);
  CHECK(now[0].value.name == "Alder Hollow School");
  CHECK(now[0].stamp.supersedes == old.stamp.entry);
  CHECK(must(desk.book.history<roster::School>(store::subjectIs(id))).size() == 2);
}

TEST_CASE("An act that fails half way leaves nothing and the next one goes on") {
  Desk desk;
  const auto at = desk.add(school());
  const auto before = desk.book.lastSequence();
  const auto failed = desk.book.act({}, nine, [&](store::Act& act) {
    act.add(child(at, 1043));
    act.add(roster::School{"", "XX"}); // the file refuses an empty name
  });
  REQUIRE_FALSE(failed.has_value());
  CHECK(desk.all<roster::Child>().empty());
  CHECK(desk.book.lastSequence() == before);
  desk.add(child(at, 1043));
  CHECK(desk.book.lastSequence() == before + 1);
}

TEST_CASE("The file refuses to change or remove a row and to file it under another kind") {
  Desk desk;
  desk.add(school());
  must(desk.book.finish());
  const auto path = desk.folder / "copy.gkbook";
  must(desk.book.backUp(path));
  auto raw =
      must(store::openBook(path, store::Access::readWrite, store::Durability::everyAct, nine.at));
  const auto refused = [&](std::string_view sql) {
    return store::guarded([&] { raw.execute(sql); });
  };
  for (const auto* sql :
       {"UPDATE school SET name = 'X'", "DELETE FROM school", "UPDATE entry SET reason = 'x'",
        "DELETE FROM entry", "UPDATE act SET verb = 'x'", "DELETE FROM act",
        "UPDATE hand SET laptop = zeroblob(16)", "DELETE FROM hand",
        "INSERT INTO day_outcome SELECT id, id, id, 'absent', '', '' FROM entry",
        "INSERT INTO term SELECT id, 'T', '2026-13-01', '2026-12-18' FROM entry"}) {
    CAPTURE(sql);
    CHECK_FALSE(refused(sql).has_value());
  }
}

TEST_CASE("Identities keep the order of entry when the clock goes back") {
  Desk desk;
  const auto at = desk.add(school());
  base::LocalInstant earlier = nine;
  earlier.at.utc -= std::chrono::hours(24 * 365);
  std::optional<roster::ChildId> later;
  must(desk.book.act({}, earlier,
                     [&](store::Act& act) { later.emplace(act.add(child(at, 1043))); }));
  CHECK(later->uuid() > at.uuid());
  const auto row = desk.all<roster::Child>().at(0);
  CHECK(row.stamp.at == earlier);
}

TEST_CASE("The schema as a whole is the one written down") {
  Desk desk;
  must(desk.book.backUp(desk.folder / "copy.gkbook"));
  auto raw = must(store::openBook(desk.folder / "copy.gkbook", store::Access::readOnly,
                                  store::Durability::everyAct, nine.at));
  std::string schema;
  auto statement =
      raw.prepare("SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY type DESC, name");
  while (statement.step())
    schema += statement.column<std::string>(0) + ";\n\n";
  const auto path = base::Path(GK_SOURCE_DIR) / "schema" / "current.sql";
  if (std::getenv("GK_WRITE_SCHEMA") != nullptr) must(base::replaceFile(path, schema));
  CHECK(must(base::readFile(path)) == schema);
}

TEST_CASE("A book whose first act fails is not there at all", "[case-112]") {
  const test::Scratch folder;
  base::SeededRandom random(9);
  const store::KeyRow key{std::vector<std::uint8_t>(16, 1), 3, 65536,
                          std::vector<std::uint8_t>(24, 2), std::vector<std::uint8_t>(48, 3)};
  const auto make = [&](const char* code) {
    return store::Book::create(
        folder / "book.gkbook", base::LaptopId(base::Uuid{}), store::Durability::everyAct, nine.at,
        key, random, {{}, nine, [&](store::Act& act) {
                        act.add(roster::School{"Cobble Lantern Elementary", "CL"});
                        act.add(roster::School{"Cobble Lantern Elementary", code});
                        if (*code == 0)
                          throw store::Trouble({base::ErrorCode::storeWriteFailed, "no room"});
                      }});
  };
  CHECK(make("").error().code == base::ErrorCode::storeWriteFailed);
  CHECK(std::filesystem::is_empty(folder.path()));
  auto book = must(make("FR"));
  const auto schools = must(book.current<roster::School>(store::everything()));
  REQUIRE(schools.size() == 2);
  CHECK(schools[1].stamp.sequence == 2);
  must(book.act({}, nine, [](store::Act& act) { act.add(roster::School{"Third", "T"}); }));
  CHECK(must(book.current<roster::School>(store::everything())).back().stamp.sequence == 3);
}
