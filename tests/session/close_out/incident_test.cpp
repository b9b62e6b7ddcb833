#include "reports/day/close_out_tables.h"
#include "reports/day/incident_counts.h"
#include "support/clinic.h"

#include <sstream>

using namespace gk;
using base::ErrorCode;
using followup::Incident;
using followup::IncidentType;
using test::codeOf;
using test::must;

namespace {

Incident splash(test::Clinic& clinic) {
  return {.day = clinic.day,
          .type = IncidentType::eyeSplash,
          .happened = clinic.clock.now(),
          .done = "flushed 15 minutes",
          .told = "nurse and guardian",
          .followUp = "hear what the doctor said"};
}

reports::CloseOut incidentSheetOf(test::Clinic& clinic) {
  const auto records = must(clinic.session.dayRecords(clinic.day));
  return reports::closeOut(records, must(clinic.session.names(records)));
}

std::string textOf(const reports::Table& table) {
  std::string text;
  for (const auto& row : table.rows)
    for (const auto& cell : row)
      text += cell.text() + "|";
  for (const auto& note : table.notes)
    text += note + "|";
  return text;
}

reports::Table tableOf(const reports::CloseOut& sheet, std::string_view title) {
  for (auto& table : reports::closeOutTables(sheet))
    if (table.title == title) return table;
  FAIL("no such part: " << title);
  return {};
}

} // namespace

TEST_CASE("An incident stands on the close-out with what is still to be done") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  auto incident = splash(clinic);
  incident.child = child;
  must(clinic.session.enterIncident(clinic.by, incident));
  const auto text = textOf(tableOf(incidentSheetOf(clinic), "Incidents"));
  CHECK(text.find("9:00 AM|eye splash|Mina Hollowell|flushed 15 minutes (OF)|nurse and "
                  "guardian|OPEN: hear what the doctor said|") != std::string::npos);
  CHECK(text.find("Today: 1 eye splash.") != std::string::npos);
}

TEST_CASE("An incident is gone on with until it is settled and its first words stay") {
  test::Clinic clinic;
  const auto id = must(clinic.session.enterIncident(clinic.by, splash(clinic)));
  const auto old = must(clinic.session.incidents(clinic.day)).front();
  auto settled = old.value;
  settled.followUp += "; seen, nothing found";
  settled.settled = true;
  CHECK(codeOf(clinic.session.correctIncident(clinic.by, old, settled, "")) ==
        ErrorCode::ruleReason);
  must(clinic.session.correctIncident(clinic.by, old, settled, "update"));
  const auto now = must(clinic.session.incidents(clinic.day));
  REQUIRE(now.size() == 1);
  CHECK(now.front().id == id);
  CHECK(now.front().stamp.supersedes == old.stamp.entry);
  CHECK_FALSE(followup::isOpen(now.front().value));
}

TEST_CASE("An incident without what was done, before its time or by no one is refused") {
  test::Clinic clinic;
  auto empty = splash(clinic);
  empty.done = "  ";
  CHECK(codeOf(clinic.session.enterIncident(clinic.by, empty)) == ErrorCode::ruleReason);
  auto later = splash(clinic);
  later.happened.at.utc += std::chrono::minutes(1);
  CHECK(codeOf(clinic.session.enterIncident(clinic.by, later)) == ErrorCode::ruleDate);
  CHECK(codeOf(clinic.session.enterIncident({}, splash(clinic))) == ErrorCode::ruleCredential);
  CHECK(must(clinic.session.incidents(clinic.day)).empty());
}

TEST_CASE("What is open of an earlier day is listed until it is settled and counted on its own day",
          "[case-67]") {
  test::Clinic clinic;
  auto lost = splash(clinic);
  lost.type = IncidentType::privacy;
  lost.done = "laptop not in the case at the car";
  lost.told = "program manager";
  lost.followUp = "report the loss; counsel says who is to be told";
  must(clinic.session.signDay(clinic.by, {clinic.day, clinic.hygienist, clinic.coordinator}));
  must(clinic.session.enterIncident(clinic.by, lost)); // on the way home, after signing
  clinic.clock.advance(std::chrono::hours(24));
  const auto next = must(clinic.session.openDay(
      clinic.by, {clinic.term, clinic.school, *base::Date::parse("2026-11-18"), 1, {}, false}));
  const auto sheet = reports::closeOut(must(clinic.session.dayRecords(next)));
  REQUIRE(sheet.incidents.size() == 1);
  CHECK(sheet.incidents.front().isEarlier);
  CHECK(textOf(tableOf(sheet, "Incidents")).find("No incident was recorded today.") !=
        std::string::npos);
}

TEST_CASE("Incidents are counted by sort for a report that names no one") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  auto incident = splash(clinic);
  incident.child = child;
  must(clinic.session.enterIncident(clinic.by, incident));
  must(clinic.session.enterIncident(clinic.by, splash(clinic)));
  auto fall = splash(clinic);
  fall.type = IncidentType::fall;
  fall.followUp.clear();
  must(clinic.session.enterIncident(clinic.by, fall));
  const auto term = must(clinic.session.termRecords(clinic.term, *base::Date::parse("2026-12-18")));
  const auto counts = reports::incidentCounts(term.incidents);
  REQUIRE(counts.size() == 2);
  CHECK(counts[0].count == 2);
  CHECK(counts[0].open == 2);
  CHECK(reports::countWords(counts) == "2 eye splash, 1 fall");
}

TEST_CASE("No word of an incident leaves in an extract or an exchange file") {
  test::Clinic clinic;
  clinic.standardVisit(clinic.child("Mina"));
  must(clinic.session.enterIncident(clinic.by, splash(clinic)));
  std::ostringstream extract;
  must(clinic.session.extractDay(clinic.day, extract));
  std::ostringstream term;
  must(clinic.session.extractTerm(clinic.term, *base::Date::parse("2026-12-18"), term));
  std::ostringstream fhir;
  must(clinic.session.writeFhir(clinic.day, fhir));
  for (const auto& text : {extract.str(), term.str(), fhir.str()}) {
    CHECK(text.find("flushed") == std::string::npos);
    CHECK(text.find("doctor") == std::string::npos);
  }
}

TEST_CASE("An eye splash says to flush for fifteen minutes and then to get medical care") {
  CHECK(followup::firstAid(IncidentType::eyeSplash) ==
        "Flush the eye 15 minutes, then medical care.");
}
