#include "office/desk.h"
#include "reports/records/inputs.h"

using namespace gk;
using gk::test::Desk;
using gk::test::rowsOf;

namespace {

session::Session openedBook(Desk& desk, const std::string& book) {
  auto session = session::Session::open(book, base::LaptopId(base::Uuid{}),
                                        {desk.clock, desk.random}, store::Access::readOnly);
  REQUIRE(session);
  return std::move(*session);
}

std::string bookWithDay(Desk& desk) {
  const auto book = desk.makeBook();
  desk.did({"open-day", book, "--school", "CL", "--date", "2026-11-17", "--by", "IM"});
  desk.did({"add-lot", book, "--kind", "light-cure sealant", "--material", "Resin Fern", "--lot",
            "RF-2609", "--expiry", "2027-04", "--by", "IM"});
  return book;
}

} // namespace

TEST_CASE("Hours, lots and a school's meal eligibility are noted without the window") {
  Desk desk;
  const auto book = bookWithDay(desk);
  const auto said = desk.did({"enter-hours", book, "--chairs", "2", "--open", "5:30", "--people",
                              "hygienist 12, coordinator 6", "--taught", "46", "--by", "IM"});
  CHECK(said.out ==
        "Noted: staff and chair hours of Cobble Lantern Elementary, November 17, 2026.\n");
  desk.did({"count-lot", book, "--lot", "RF-2609", "--opened", "2", "--left", "0", "--by", "IM"});
  desk.did({"set-eligibility", book, "--term", "Fall 2026", "--school", "CL", "--percent", "82",
            "--source", "county list 2025", "--by", "IM"});
  desk.did({"set-lot-aside", book, "--lot", "RF-2609", "--reason", "recall", "--by", "IM"});

  auto session = openedBook(desk, book);
  CHECK(session.lastEffort().value()->chairHours() == Approx(11));
  const auto lot = session.lots().value().front().value;
  CHECK(lot.quarantined);
  CHECK(lot.usedUpOn->iso() == "2026-11-17");
  const auto term = session.terms().value().front().id;
  const auto records = session.termRecords(term, desk.clock.now().date()).value();
  CHECK(records.eligibility.front().value.percent == 82);
}

TEST_CASE("A day's costs are noted, with wages by the hours of the day, and the report uses them") {
  Desk desk;
  const auto book = bookWithDay(desk);
  CHECK(desk.refusal({"enter-costs", book, "--costs", "hygienist 42/h", "--by", "IM"}) ==
        "input.number"); // no hours yet
  desk.did({"enter-hours", book, "--chairs", "2", "--open", "5:30", "--people",
            "hygienist 12, coordinator 6", "--by", "IM"});
  const auto said = desk.did({"enter-costs", book, "--costs",
                              "hygienist 42/h, coordinator 31/h, supplies 60", "--by", "IM"});
  CHECK(said.out == "Noted: costs of Cobble Lantern Elementary, November 17, 2026: staff 690.00, "
                    "supplies 60.00.\n");
  const auto json = desk.did({"report", book, "cost", "--json"}).json();
  const auto& rows = json.at("tables").at(0).at("rows");
  CHECK(rows.back().at("school") == "All schools");
  CHECK(rows.back().at("total") == 750);
}

TEST_CASE("One lot number of two materials is asked about before anything is done", "[case-110]") {
  Desk desk;
  const auto book = bookWithDay(desk);
  desk.did({"add-lot", book, "--kind", "etchant", "--material", "Etch Thistle", "--lot", "RF-2609",
            "--expiry", "2027-04", "--by", "IM"});
  const std::vector<std::string> aside{"set-lot-aside", book,     "--lot", "RF-2609",
                                       "--reason",      "recall", "--by",  "IM"};
  CHECK(desk.refusal(aside) == "call.malformed");
  CHECK(desk.said("Etch Thistle, Resin Fern"));
  CHECK(desk.said("--material"));
  CHECK(desk.refusal({"count-lot", book, "--lot", "RF-2609", "--left", "1", "--by", "IM"}) ==
        "call.malformed");
  CHECK(desk.refusal({"report", book, "trace", "--lot", "RF-2609"}) == "call.malformed");
  auto ofThistle = aside;
  ofThistle.insert(ofThistle.end(), {"--material", "Etch Thistle"});
  desk.did(ofThistle);
  auto session = openedBook(desk, book);
  const auto lots = session.lots().value();
  for (const auto& lot : lots)
    CHECK(lot.value.quarantined == (lot.value.material == "Etch Thistle"));
  CHECK(desk.refusal({"report", book, "trace", "--lot", "RF-2609", "--material", "Other"}) ==
        "record.not-found");
  const auto traced =
      desk.did({"report", book, "trace", "--lot", "RF-2609", "--material", "Resin Fern"});
  CHECK(traced.out.find("Resin Fern") != std::string::npos);
  CHECK(traced.out.find("Etch Thistle") == std::string::npos);
}

TEST_CASE("Hours that are none, or a lot that is not there, are refused") {
  Desk desk;
  const auto book = bookWithDay(desk);
  CHECK(desk.refusal({"enter-hours", book, "--chairs", "2", "--open", "long", "--people",
                      "hygienist 12", "--by", "IM"}) == "input.number");
  CHECK(desk.said("--open"));
  CHECK(desk.refusal({"enter-hours", book, "--chairs", "2", "--open", "5", "--people", "plumber 12",
                      "--by", "IM"}) == "input.text");
  CHECK(desk.refusal({"count-lot", book, "--lot", "XX-1", "--opened", "1", "--by", "IM"}) ==
        "record.not-found");
  CHECK(desk.refusal({"set-lot-aside", book, "--lot", "RF-2609", "--reason", "", "--by", "IM"}) ==
        "rule.reason");
}

TEST_CASE("A roster brings what a form says of a child's background") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto csv =
      desk.write("r.csv", "first,last,birth_date,grade,ethnicity,payer\n"
                          "Mina,Tolliver-Reed,2019-03-04,2,White; Hispanic or Latino,Medicaid\n"
                          "Bo,Saltmarsh,2019-05-12,2,,\n");
  desk.did({"import-roster", book, csv, "--school", "CL", "--term", "Fall 2026", "--by", "IM"});
  auto session = openedBook(desk, book);
  const auto term = session.terms().value().front().id;
  const auto records = session.termRecords(term, desk.clock.now().date()).value();
  REQUIRE(records.backgrounds.size() == 1); // nothing is kept of who said nothing
  CHECK(records.backgrounds[0].value.payer == roster::Payer::medicaid);
  const auto odd =
      desk.did({"import-roster", book,
                desk.write("x.csv", "first,birth_date,grade,payer\nLark,2019-03-04,2,gold\n"),
                "--school", "CL", "--term", "Fall 2026", "--by", "IM"});
  CHECK((odd.out + odd.err).find("Insurance not read in 1 row: not known.") != std::string::npos);
  CHECK(session.termRecords(term, desk.clock.now().date()).value().backgrounds.size() == 1);
}

TEST_CASE("A count of a lot keeps what is not said again, and says nothing without a number") {
  Desk desk;
  const auto book = bookWithDay(desk);
  const auto count = [&](const std::vector<std::string>& more) {
    std::vector<std::string> words{"count-lot", book, "--lot", "RF-2609", "--by", "IM"};
    words.insert(words.end(), more.begin(), more.end());
    return words;
  };
  desk.did(count({"--opened", "2", "--left", "6"}));
  desk.did(count({"--left", "5"}));
  CHECK(desk.refusal(count({})) == "call.malformed");
  auto session = openedBook(desk, book);
  const auto day = session.openDayNow().value().id;
  const auto counts = session.dayRecords(day).value().lotCounts;
  REQUIRE(counts.size() == 1);
  CHECK(counts[0].value.opened == 2);
  CHECK(counts[0].value.left == 5);
}

TEST_CASE("What a form says of a child's background is fixed by number") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did({"import-roster", book, desk.write("r.csv", gk::test::twoChildren), "--school", "CL",
            "--term", "Fall 2026", "--by", "IM"});
  const auto number = roster::withCheckDigit("1001");
  desk.did({"set-background", book, "--child", number, "--payer", "CHIP", "--ethnicity", "Asian",
            "--by", "IM"});
  desk.did({"set-background", book, "--child", number, "--payer", "no insurance", "--by", "IM"});
  auto session = openedBook(desk, book);
  const auto term = session.terms().value().front().id;
  const auto known = session.termRecords(term, desk.clock.now().date()).value().backgrounds;
  REQUIRE(known.size() == 1);
  CHECK(known[0].value.payer == roster::Payer::none);
  CHECK(known[0].value.groups == roster::EthnicitySet());
  CHECK(desk.refusal({"set-background", book, "--child", roster::withCheckDigit("4711"), "--by",
                      "IM"}) == "record.not-found");
}

TEST_CASE("A signed day is reopened and gets late entries without the window, in words and in JSON",
          "[case-119][case-120]") {
  Desk desk;
  const auto book = bookWithDay(desk);
  CHECK(desk.refusal({"reopen-day", book, "--reason", "why", "--by", "IM"}) == "rule.day-open");
  CHECK(desk.refusal({"add-late-entry", book, "--text", "late", "--by", "IM"}) == "rule.day-open");
  desk.did({"add-member", book, "--name", "Oriel Fenwhistle", "--initials", "OF", "--role",
            "hygienist", "--by", "IM"});
  {
    auto session =
        session::Session::open(book, base::LaptopId(base::Uuid{}), {desk.clock, desk.random});
    REQUIRE(session);
    REQUIRE(session->unlock("granite lantern 7"));
    std::optional<base::MemberId> coordinator;
    std::optional<base::MemberId> hygienist;
    const auto members = session->members().value();
    for (const auto& member : members) {
      if (member.value.role == roster::Role::coordinator) coordinator = member.id;
      if (member.value.role == roster::Role::hygienist) hygienist = member.id;
    }
    REQUIRE(coordinator);
    REQUIRE(hygienist);
    const auto day = session->openDayNow().value().id;
    const auto closed = session->signDay({*hygienist, {}}, {day, *hygienist, *coordinator});
    INFO((closed ? "" : closed.error().detail));
    REQUIRE(closed);
  }
  CHECK(desk.did({"add-late-entry", book, "--text", "the lamp hummed", "--by", "IM"}).out ==
        "Noted: late entry of Cobble Lantern Elementary, November 17, 2026.\n");
  CHECK(desk.refusal({"reopen-day", book, "--reason", " ", "--by", "IM"}) == "rule.reason");
  CHECK(desk.did({"reopen-day", book, "--reason", "a wrong tooth", "--by", "IM"})
            .out.find("is open again") != std::string::npos);
  const auto sheet = desk.did({"close-out", book, "--json"}).json();
  CHECK(rowsOf(sheet, "day").at(0).at("closed") == false);
  const auto signatures = rowsOf(sheet, "signatures");
  REQUIRE(signatures.size() == 2);
  CHECK(signatures[0].at("what") == "signed");
  CHECK(signatures[1].at("what") == "reopened");
  CHECK(signatures[1].at("reason") == "a wrong tooth");
  const auto late = rowsOf(sheet, "late_entries");
  REQUIRE(late.size() == 1);
  CHECK(late[0].at("late_entry") == "the lamp hummed");
  CHECK(late[0].at("by") == "IM");
}

TEST_CASE("A backup beside the logbook says that it is lost with it", "[case-123]") {
  Desk desk;
  const auto book = bookWithDay(desk);
  CHECK(desk.did({"backup", book, desk.file("copy.gkbook")}).out.find("lost with it") !=
        std::string::npos);
  const gk::test::OtherDisk drive;
  if (!drive.isThere()) return;
  CHECK(desk.did({"backup", book, (drive / "copy.gkbook").string()}).out.find("lost with it") ==
        std::string::npos);
}
