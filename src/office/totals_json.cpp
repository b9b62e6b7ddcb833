#include "office/totals_json.h"

#include "office/json_writer.h"
#include "reports/term/term_totals.h"

#include <algorithm>

namespace gk::office {

namespace {

using reports::Participation;
using reports::RetentionLine;

void participationJson(JsonWriter& json, const Participation& one) {
  json.field("enrolled", one.enrolled);
  json.field("forms_back", one.formsBack);
  json.field("consented", one.consented);
  json.field("under_override", one.underOverride);
  json.field("screened", one.screened);
  json.field("absent", one.absent);
  json.field("declined", one.declined);
  json.field("left", one.left);
  json.field("withdrawn", one.withdrawn);
  json.field("on_hold", one.onHold);
  json.field("not_reached", one.notReached);
  json.field("seen_only", one.seenOnly);
  json.field("still_to_see", one.stillToSee);
  json.field("needing", one.needing);
  json.field("sealed", one.sealed);
  json.field("unfinished", one.unfinished);
  json.field("first_molars", one.firstMolars);
  json.field("second_molars", one.secondMolars);
  json.field("other_teeth", one.otherTeeth);
  json.field("surfaces", one.surfaces);
  json.field("varnish", one.varnish);
  json.field("untreated", one.untreated);
  json.field("could_not_tell", one.couldNotTell);
  json.field("early", one.early);
  json.field("urgent", one.urgent);
  json.field("days", one.days);
  json.field("visits", one.visits);
  json.field("children_per_day", one.childrenPerDay());
  json.field("teeth_per_child", one.teethPerChild());
}

template <class Estimate>
void rangeJson(JsonWriter& json, const std::optional<Estimate>& range) {
  json.field("low", range ? std::optional(range->low) : std::nullopt);
  json.field("high", range ? std::optional(range->high) : std::nullopt);
}

void retentionJson(JsonWriter& json, const RetentionLine& line) {
  const auto& whole = line.whole95;
  json.objectField("retention");
  json.field("placed", line.placed);
  json.field("due", line.due);
  json.field("children_placed", line.childrenPlaced);
  json.field("children_due", line.childrenDue);
  json.field("children_found", line.childrenFound);
  json.field("examined", line.examined);
  json.field("assessable", line.assessable);
  json.field("whole", line.whole);
  json.field("part", line.part);
  json.field("lost", line.lost);
  json.field("cannot_assess", line.cannotAssess);
  json.field("decayed_since", line.decayedSince);
  json.field("filled_since", line.filledSince);
  json.field("estimate", whole ? std::optional(whole->estimate) : std::nullopt);
  const auto range = whole ? reports::printedRange(*whole) : std::nullopt;
  rangeJson(json, range);
  json.field("design_effect", whole ? std::optional(whole->designEffect) : std::nullopt);
  json.field("clusters", base::nameOf(line.unit));
  json.field("whole_or_part",
             line.wholeOrPart95 ? std::optional(line.wholeOrPart95->estimate) : std::nullopt);
  json.field("due_before", line.dueBefore);
  json.field("repaired", line.repaired);
  json.field("filled_over", line.filledOver);
  json.field("known_lost_before", line.earlierLost);
  json.field("lost_not_found", line.lostUnfound);
  json.field("teeth_seen", line.teethSeen);
  json.field("teeth_protected", line.teethWhole);
  json.endObject();
}

void attackRateJson(JsonWriter& json, const reports::AttackRateReport& report) {
  const auto& estimate = report.estimate;
  json.objectField("attack_rate");
  json.field("estimate", estimate ? std::optional(estimate->annual) : std::nullopt);
  rangeJson(json, estimate);
  json.field("molars", estimate ? estimate->molars : 0);
  json.field("ever_sealed_left_out", report.everSealedLeftOut);
  json.field("not_seen_left_out", report.notSeenLeftOut);
  json.field("why_not", report.whyNot);
  json.endObject();
}

void avertedJson(JsonWriter& json, const reports::AvertedReport& report) {
  const auto& averted = report.averted;
  json.objectField("averted");
  json.field("estimate", averted ? std::optional(averted->averted) : std::nullopt);
  rangeJson(json, averted ? averted->interval : std::nullopt);
  json.field("cautious", report.cautious ? std::optional(report.cautious->averted) : std::nullopt);
  json.field("sealants", report.sealants);
  json.field("years", report.years);
  json.field("why_not", report.whyNot);
  json.endObject();
}

reports::Rows<roster::School> ordered(const reports::TermRecords& records) {
  auto schools = records.schools;
  std::ranges::sort(schools, {}, [](const auto& row) { return std::pair(row.value.name, row.id); });
  return schools;
}

RetentionLine retentionOf(const reports::TermTotals& totals, roster::SchoolId school) {
  const auto& lines = totals.retention.schools;
  const auto line = std::ranges::find(lines, school, &RetentionLine::school);
  return line == lines.end() ? RetentionLine{} : *line;
}

void termJson(JsonWriter& json, const CountedTerm& term) {
  const auto& totals = term.totals;
  json.beginObject();
  json.field("name", totals.term);
  json.field("start", totals.start.iso());
  json.field("end", totals.end.iso());
  json.field("as_of", totals.asOf.iso());
  participationJson(json, totals.total);
  retentionJson(json, totals.retention.total);
  attackRateJson(json, totals.attackRate);
  avertedJson(json, totals.averted);
  json.arrayField("overrides");
  for (const auto& taken : totals.overrides) {
    json.beginObject();
    json.field("child", taken.child);
    json.field("on", taken.on.iso());
    json.field("clinician", taken.clinician);
    json.field("reason", taken.reason);
    json.endObject();
  }
  json.endArray();
  json.arrayField("schools");
  for (const auto& school : term.schools) {
    const auto next =
        std::ranges::find(totals.schools, std::optional(school.id), &Participation::id);
    base::require(next != totals.schools.end(), "a school that the totals left out");
    json.beginObject();
    json.field("name", school.value.name);
    json.field("code", school.value.code);
    participationJson(json, *next);
    retentionJson(json, retentionOf(totals, school.id));
    json.endObject();
  }
  json.endArray();
  json.endObject();
}

} // namespace

CountedTerm::CountedTerm(const reports::TermRecords& records)
    : totals(reports::termTotals(records)), schools(ordered(records)) {}

void writeTotalsJson(std::span<const CountedTerm> terms, std::ostream& out) {
  JsonWriter json(out);
  json.beginObject();
  json.arrayField("terms");
  for (const auto& term : terms)
    termJson(json, term);
  json.endArray();
  json.endObject();
}

} // namespace gk::office
