#include "reports/term/term_tables.h"

#include "reports/print/cells.h"
#include "reports/retention/display_names.h"
#include "reports/retention/retention_table.h"

namespace gk::reports {

namespace {

std::string belowWords(double goal, const std::string& what, const std::vector<std::string>& who) {
  return "Below the program's own benchmark of " + base::percent(goal, 0) + "% " + what + ": " +
         base::join(who, ", ") + ".";
}

/// Names the schools whose rate is under a benchmark; nothing when none is, or none was set.
void noteUnder(Table& table, const TermTotals& totals, const std::string& what,
               std::optional<double> target, auto part, auto whole) {
  if (!target) return;
  std::vector<std::string> under;
  for (const auto& one : totals.schools)
    if (const auto rate = rateOf(std::invoke(part, one), whole(one)); rate && *rate < *target)
      under.push_back(one.school + " " + base::percent(*rate));
  if (!under.empty()) table.notes.push_back(belowWords(*target, what, under));
}

using At = Participation;

Made<At> children(std::string heading, std::string key, int At::*count) {
  return {counts(std::move(heading), std::move(key), count), count};
}
Made<At> shareColumn(std::string heading, std::string key, int At::*part, int At::*whole) {
  return {shares(std::move(heading), std::move(key)),
          [=](const At& at) { return shareOf(at.*part, at.*whole); }};
}
Made<At> schoolColumn() {
  return {texts("School"), [](const At& at) {
            return Named{at.school, at.id ? at.id->text() : ""};
          }};
}

/// A row for each school, and the total.
Table bySchool(std::string title, const TermTotals& totals, const std::vector<Made<At>>& made) {
  auto table = tableOf(std::move(title), made);
  for (const auto& one : totals.schools)
    addRow(table, made, one);
  addRow(table, made, totals.total);
  return table;
}

Table participationTable(const TermTotals& totals) {
  auto table =
      bySchool("Participation: " + totals.term + ", " + totals.start.shortWords() + " to " +
                   (totals.asOf < totals.end ? totals.asOf : totals.end).shortWords(),
               totals,
               {schoolColumn(),
                {counts("Enrolled"), [](const At& at) { return orUnknown(at.enrolled); }},
                children("Forms back", "forms_back", &At::formsBack),
                children("Consented", "consented", &At::consented),
                {shares("% of enrolled", "consented_share"),
                 [](const At& at) { return shareOf(at.consented, at.enrolled.value_or(0)); }},
                children("Screened", "screened", &At::screened),
                shareColumn("% of consented", "screened_share", &At::screened, &At::consented),
                children("Absent", "absent", &At::absent),
                children("Declined", "declined", &At::declined),
                {counts("Left or withdrew"), [](const At& at) { return at.left + at.withdrawn; }},
                children("On hold", "on_hold", &At::onHold),
                children("Not seen", "not_reached", &At::notReached),
                children("Seen only", "seen_only", &At::seenOnly),
                children("Still to see", "still_to_see", &At::stillToSee),
                {counts("Days"), &At::days},
                children("Visits", "visits", &At::visits),
                {numbers("Students/day", "children_per_day"),
                 [](const At& at) { return numberOf(at.childrenPerDay(), 1); }},
                {inFiles(counts("Under override")), &At::underOverride},
                {inFiles(counts("Left")), &At::left},
                {inFiles(counts("Withdrawn")), &At::withdrawn}});
  table.notes = {
      "Consented: a form for these dates that says yes and is valid on one of them, "
      "or screened on one; withdrawn before any care stays in forms back only. A "
      "recheck under last year's form is not counted here.",
      "Students are counted once each, by the school they are in now; a student seen on two "
      "days has two visits. Students/day is screened students for each day."};
  if (!totals.total.enrolled)
    table.notes.emplace_back("Where enrollment is unknown there are counts and no consent rate.");
  if (totals.total.underOverride > 0)
    table.notes.push_back("Of consented, screened on a clinician's override alone: " +
                          number(totals.total.underOverride) + ".");
  if (totals.erased > 0)
    table.notes.push_back(base::counted(totals.erased, "student was", "students were") +
                          " erased from this logbook as the law required. No count includes them.");
  for (const auto& taken : totals.overrides)
    table.notes.push_back("Consent override: student " + taken.child + " on " + taken.on.words() +
                          " by " + taken.clinician + ": " + taken.reason + ".");
  noteUnder(table, totals, "consented of enrolled", totals.targets.consented,
            &Participation::consented, [](const auto& at) { return at.enrolled.value_or(0); });
  noteUnder(table, totals, "screened of consented", totals.targets.screened,
            // A school whose children are still to be seen is below nothing yet.
            &Participation::screened,
            [](const auto& at) { return at.stillToSee > 0 ? 0 : at.consented; });
  return table;
}

Table serviceTable(const TermTotals& totals) {
  auto table = bySchool("Services", totals,
                        {schoolColumn(),
                         children("Needing", "needing", &At::needing),
                         shareColumn("% of screened", "needing_share", &At::needing, &At::screened),
                         children("Sealed", "sealed", &At::sealed),
                         {shares("% of needing", "sealed_share"),
                          [](const At& at) { return shareOf(at.sealedInNeed(), at.needing); }},
                         children("Unfinished", "unfinished", &At::unfinished),
                         children("First molars", "first_molars", &At::firstMolars),
                         children("Second molars", "second_molars", &At::secondMolars),
                         children("Other teeth", "other_teeth", &At::otherTeeth),
                         children("Surfaces", "surfaces", &At::surfaces),
                         {numbers("Teeth per sealed student", "teeth_per_child"),
                          [](const At& at) { return numberOf(at.teethPerChild(), 2); }},
                         {numbers("Teeth per screened student", "teeth_per_screened_child"),
                          [](const At& at) { return numberPer(at.teeth(), at.screened, 2); }},
                         children("Varnish", "varnish", &At::varnish),
                         {inFiles(counts("Sealed unscreened")), &At::sealedUnscreened},
                         {inFiles(counts("Varnish unscreened")), &At::varnishUnscreened}});
  table.notes = {
      "Needing, sealed, unfinished and varnish are students. Needing, of the screened: a tooth was "
      "chosen for treatment, or sealed. Sealed: at least one complete sealant; repairs and glass "
      "ionomer sealants do not count. Teeth and surfaces are counted separately, each once."};
  const auto& all = totals.total;
  if (all.sealedUnscreened + all.varnishUnscreened > 0)
    table.notes.push_back("Not screened this term: of sealed " + number(all.sealedUnscreened) +
                          ", of varnish " + number(all.varnishUnscreened) +
                          ". They are not in % of needing.");
  noteUnder(table, totals, "sealed of needing", totals.targets.sealed, &At::sealedInNeed,
            [](const auto& at) { return at.needing; });
  return table;
}

Table findingTable(const TermTotals& totals) {
  auto table = bySchool("Findings", totals,
                        {schoolColumn(),
                         children("Screened", "screened", &At::screened),
                         children("Untreated decay", "untreated", &At::untreated),
                         children("Could not tell", "could_not_tell", &At::couldNotTell),
                         {shares("%", "untreated_share"),
                          [](const At& at) { return shareOf(at.untreated, at.decayKnown()); }},
                         children("Early care", "early", &At::early),
                         children("Urgent", "urgent", &At::urgent),
                         shareColumn("% urgent", "urgent_share", &At::urgent, &At::screened)});
  table.notes = {
      "By the screening, not a dental examination. A student screened twice counts once, by "
      "the more serious finding. Untreated decay, %: of the students of whom it could be "
      "told. Urgent, %: of all, as urgency is recorded of each.",
      "For use inside the program: small counts are not suppressed here."};
  return table;
}

std::string wholeOrPartNote(const RetentionLine& total) {
  if (!total.wholeOrPart95) return "No sealant of the cohort has been assessed yet.";
  const auto partOf = [&](int teeth) {
    return number(teeth) + " of " + number(total.assessable) + ", " +
           base::percent(static_cast<double>(teeth) / total.assessable) + "%" +
           (total.assessable < fewest ? " (unstable)" : "");
  };
  return "Total, fully or partially retained: " + estimateWords(*total.wholeOrPart95, total.unit) +
         "; partially " + partOf(total.part) + ", missing " + partOf(total.lost) +
         ". Clusters of the total: " +
         (total.unit == ClusterUnit::schools ? "schools."
          : total.isSchoolPlanned ? "students, with at least a planned likeness within schools."
                                  : "students, as all assessed were placed at one school.");
}

/// What the classes of the table hold, each said where there is one.
void noteClasses(Table& table, const RetentionLine& total) {
  const auto sealants = [](int count) { return counted(count, "sealant", "sealants"); };
  if (total.earlierLost > 0)
    table.notes.push_back(
        "Missing includes " + sealants(total.earlierLost) +
        " known from an earlier check, or from a reseal without a check that found the old "
        "sealant fully retained: the new one is never counted in its place.");
  if (total.filledOver > 0)
    table.notes.push_back(
        "Missing includes " + sealants(total.filledOver) +
        " with a sealed surface filled since: counted as a failure of the sealant.");
  if (total.repaired > 0 && total.wholeOrRepaired95)
    table.notes.push_back(
        "Partially retained includes " + sealants(total.repaired) +
        " repaired since and fully retained at the check. Counting them as fully retained: " +
        estimateWords(*total.wholeOrRepaired95, total.unit) + ".");
  if (total.placed > total.due)
    table.notes.push_back("Placed includes " + sealants(total.placed - total.due) +
                          " not due yet.");
  if (total.dueBefore > 0)
    table.notes.push_back("Of the sealants due " + number(total.dueBefore) +
                          " were already due in an earlier term and not assessed then: in a sum "
                          "over terms they count once.");
  if (total.reported > 0) table.notes.push_back(reportedNote(total));
  if (total.lostUnfound > 0)
    table.notes.push_back(
        "Known to be missing, though not assessed in these months: " + sealants(total.lostUnfound) +
        ", in no percentage of fully retained. Counting only the known losses "
        "among those not assessed would bias it low.");
}

void noteRetentionUnder(Table& table, const TermTotals& totals) {
  const auto target = totals.targets.retained;
  if (!target) return;
  std::vector<std::string> under;
  for (const auto& line : totals.retention.schools)
    if (againstBenchmark(*target, line) == AgainstBenchmark::below)
      under.push_back(line.label + " " + estimateWords(*line.whole95, line.unit));
  if (!under.empty()) table.notes.push_back(belowWords(*target, "fully retained", under));
}

Table schoolRetentionTable(const TermTotals& totals) {
  auto table =
      emptyRetentionTable("Retention at " + number(totals.window.fromMonths) + " to " +
                          number(totals.window.untilMonths) + " months, by placing school");
  for (const auto& line : totals.retention.schools)
    addRetentionRow(table, line);
  addRetentionRow(table, totals.retention.total);
  table.notes = {std::string(totals.firstPlacementsOnly
                                 ? "First placements only: the first sealant on each tooth"
                                 : "With reseals") +
                     "; repairs and sealants of others never count. A student who changed school "
                     "counts where the sealant was placed.",
                 wholeOrPartNote(totals.retention.total)};
  noteClasses(table, totals.retention.total);
  table.notes.push_back(protectionNote(totals.retention.total));
  // Not of one school, for which nothing is estimated.
  if (totals.averted.averted && totals.retention.total.protected95)
    table.notes.back() += " That figure is used for the cavities averted.";
  noteRetentionUnder(table, totals);
  auto lines = totals.retention.schools; // whose CIs stand in the table
  lines.push_back(totals.retention.total);
  addRetentionCautions(table, lines);
  return table;
}

std::string whyWords(const RetentionLine& line) {
  std::vector<std::string> why;
  for (const auto& [reason, count] : line.why)
    why.push_back((reason == followup::CannotAssess::none ? "resealed without having failed"
                                                          : named(reason)) +
                  " " + number(count));
  return why.empty() ? nothing : base::join(why, ", ");
}

Table healthTable(const TermTotals& totals) {
  using Line = RetentionLine;
  const std::vector<Made<Line>> made{
      {texts("School where placed"), labelCell},
      {counts("Decayed since"), &Line::decayedSince},
      {counts("Filled since"), &Line::filledSince},
      {texts("Not assessable"), whyWords},
      {counts("Checked here", "checked_here"), &Line::checkedHere},
      {inFiles(counts("Students placed", "children_placed")), &Line::childrenPlaced},
      {inFiles(counts("Due before")), &Line::dueBefore},
      {inFiles(counts("Repaired")), &Line::repaired},
      {inFiles(counts("Filled over")), &Line::filledOver},
      {inFiles(counts("Known lost before")), &Line::earlierLost},
      {inFiles(counts("Lost, not found")), &Line::lostUnfound},
      {inFiles(counts("Teeth seen")), &Line::teethSeen},
      {inFiles(counts("Teeth protected")), &Line::teethWhole},
      {inFiles(ranges("Fully or partially retained", "whole_or_part")),
       [](const Line& line) { return estimateCell(line.wholeOrPart95, line.unit); }},
      {inFiles(texts("Clusters")), [](const Line& line) { return base::nameOf(line.unit); }}};
  auto table = tableOf("Checked sealants: tooth health, and why some could not be assessed", made);
  for (const auto& line : totals.retention.schools)
    addRow(table, made, line);
  addRow(table, made, totals.retention.total);
  table.notes = {"Checked here: work done at the school, whoever placed the sealants."};
  return table;
}

/// What the rate is of, each said where it is so.
void addAttackNotes(Table& table, const TermTotals& totals) {
  const auto& attack = totals.attackRate;
  if (!attack.estimate) return;
  auto notes = attackNotes(attack);
  if (attack.unit == ClusterUnit::schools)
    notes.emplace_back("The rate's CI treats schools as clusters, which makes it wider.");
  if (!attack.seconds && totals.averted.firstsAlone) notes.push_back(borrowedRateWords(attack));
  if (attack.seconds)
    notes.push_back(secondsRateWords(*attack.seconds, totals.averted.addsTwoRanges));
  table.notes.insert(table.notes.end() - 1, notes.begin(), notes.end());
}

Cell rateCell(const estimates::AttackRateEstimate& rate) {
  const auto range = rate.toRead();
  return Estimate{Share{rate.annual}, Range{range.low, range.high}};
}

/// What the range of cavities averted is of, where there is one.
std::string modelWords(const AvertedReport& averted) {
  std::string words = "A model estimate: it applies to programs, never to one student.";
  if (averted.averted && averted.averted->interval)
    words += " The CI covers the sampling error of attack rate and retention, not doubt about the "
             "model.";
  return words;
}

Table preventionTable(const TermTotals& totals) {
  Table table{"Cavities averted, estimated for the sealants of these dates",
              {texts("Figure"), ranges("Estimate")}};
  const auto& attack = totals.attackRate;
  table.rows.push_back({"Yearly attack rate of never-sealed first molars, % (95% CI)",
                        attack.estimate ? rateCell(*attack.estimate) : attack.whyNot});
  if (attack.estimate)
    table.rows.push_back({"First molars examined; affected; students",
                          base::fixed(attack.estimate->molars, 0) + "; " +
                              base::fixed(attack.estimate->affected, 0) + "; " +
                              std::to_string(attack.estimate->children)});
  if (attack.estimate || attack.everSealedLeftOut + attack.notSeenLeftOut > 0)
    table.rows.push_back({"First molars not included: ever sealed; unerupted or not examined; too "
                          "short a time",
                          number(attack.everSealedLeftOut) + "; " + number(attack.notSeenLeftOut) +
                              "; " +
                              (attack.estimate ? base::fixed(attack.estimate->molarsLeftOut, 0)
                                               : std::string(nothing))});
  const auto& averted = totals.averted;
  const auto years = counted(averted.years, "year", "years");
  table.rows.push_back({"Sealed first and second molars", averted.sealants});
  if (averted.averted && averted.cautious) {
    table.rows.push_back({"Cavities averted in " + years + ", full protection while retained",
                          avertedCell(*averted.averted)});
    if (averted.ifNotLookedAt)
      table.rows.push_back({"If none, and if all, of the teeth due but not assessed are protected",
                            Range{averted.ifNotLookedAt->low, averted.ifNotLookedAt->high, 0}});
    if (averted.firstsAlone)
      table.rows.push_back({"First molars only", avertedCell(*averted.firstsAlone)});
    table.rows.push_back({"Cavities averted in " + years + ", " +
                              base::fixed(estimates::cautiousEfficacy, 2) +
                              " of full protection while retained",
                          avertedCell(*averted.cautious)});
  } else {
    table.rows.push_back({"Cavities averted in " + years, averted.whyNot});
  }
  table.notes = {modelWords(averted),
                 "Your state practice act, program protocol and the manufacturer's "
                 "instructions come first."};
  addAttackNotes(table, totals);
  table.key = "cavities_averted";
  return table;
}

/// What the report says in its title and sentences, and the estimates with what they are of.
Table factTable(const TermTotals& totals) {
  const auto& attack = totals.attackRate;
  const auto& averted = totals.averted;
  const auto rate = attack.estimate;
  return {"Term",
          {texts("Term"),
           dated("Start"),
           dated("End"),
           dated("As of"),
           ranges("Attack rate"),
           counts("Molars", "attack_rate_molars"),
           counts("Ever sealed, left out", "ever_sealed_left_out"),
           counts("Not seen, left out", "not_seen_left_out"),
           {"Why no attack rate", Kind::text, "attack_rate_why_not"},
           ranges("Cavities averted", "averted"),
           ranges("Cavities averted, cautious", "averted_cautious"),
           counts("Sealants"),
           counts("Years"),
           {"Why no cavities averted", Kind::text, "averted_why_not"}},
          {{totals.term, totals.start, totals.end, totals.asOf, rate ? rateCell(*rate) : noFigure,
            rate ? numberOf(rate->molars, 0) : 0, attack.everSealedLeftOut, attack.notSeenLeftOut,
            attack.whyNot, averted.averted ? avertedCell(*averted.averted) : noFigure,
            averted.cautious ? avertedCell(*averted.cautious) : noFigure, averted.sealants,
            averted.years, averted.whyNot}},
          {}};
}

Table overrideTable(const TermTotals& totals) {
  Table table{"Overrides",
              {texts("Student", "child"), dated("On"), texts("Clinician"), texts("Reason")}};
  for (const auto& taken : totals.overrides)
    table.rows.push_back({taken.child, taken.on, taken.clinician, taken.reason});
  return table;
}

std::vector<Table> wholeTables(const TermTotals& totals) {
  return {participationTable(totals),   serviceTable(totals), findingTable(totals),
          schoolRetentionTable(totals), healthTable(totals),  preventionTable(totals)};
}

} // namespace

std::vector<Table> termTables(const TermTotals& totals) {
  return printed(wholeTables(totals));
}

std::vector<Table> termFile(const TermTotals& totals) {
  auto out = filed(wholeTables(totals));
  out.insert(out.begin(), factTable(totals));
  out.push_back(overrideTable(totals));
  return out;
}

} // namespace gk::reports
