#include "reports/term/term_tables.h"

#include "reports/print/cells.h"
#include "reports/retention/display_names.h"
#include "reports/retention/retention_table.h"

namespace gk::reports {

namespace {

/// Names the schools whose rate is under a reference line; nothing when none is.
void noteUnder(Table& table, const TermTotals& totals, const std::string& what, double target,
               int Participation::*part, auto whole) {
  Cells under;
  for (const auto& one : totals.schools)
    if (const auto rate = rateOf(one.*part, whole(one)); rate && *rate < target)
      under.push_back(one.school + " " + base::percent(*rate));
  if (!under.empty())
    table.notes.push_back("Below the benchmark of " + base::percent(target, 0) + "% " + what +
                          ": " + base::join(under, ", ") + ".");
}

template <class RowOf>
void addRows(Table& table, const TermTotals& totals, RowOf rowOf) {
  for (const auto& one : totals.schools)
    table.rows.push_back(rowOf(one));
  table.rows.push_back(rowOf(totals.total));
}

Table participationTable(const TermTotals& totals) {
  Table table{"Participation: " + totals.term + ", " + totals.start.shortWords() + " to " +
                  (totals.asOf < totals.end ? totals.asOf : totals.end).shortWords(),
              {{"School"},
               right("Enrolled"),
               right("Forms back"),
               right("Consented"),
               right("% of enrolled"),
               right("Screened"),
               right("% of consented"),
               right("Absent"),
               right("Declined"),
               right("Left or withdrew"),
               right("On hold"),
               right("Not seen"),
               right("Seen only"),
               right("Still to see"),
               right("Days"),
               right("Visits"),
               right("Children/day")},
              {},
              {}};
  addRows(table, totals, [](const Participation& at) -> Cells {
    return {at.school,
            at.enrolled ? number(*at.enrolled) : "unknown",
            number(at.formsBack),
            number(at.consented),
            percent(at.consented, at.enrolled.value_or(0)),
            number(at.screened),
            percent(at.screened, at.consented),
            number(at.absent),
            number(at.declined),
            number(at.left + at.withdrawn),
            number(at.onHold),
            number(at.notReached),
            number(at.seenOnly),
            number(at.stillToSee),
            number(at.days),
            number(at.visits),
            number(at.childrenPerDay(), 1)};
  });
  table.notes = {
      "Consented: a form of this term that says yes and is valid on a day of it, "
      "or screened in it; withdrawn before any care stays in forms back only. A "
      "recheck under last year's form is not counted here.",
      "Children are counted once each, by the school they are in now; a child seen on two "
      "days has two visits. Children/day is screened children for each day."};
  if (!totals.total.enrolled)
    table.notes.emplace_back("Where enrollment is unknown there are counts and no consent rate.");
  if (totals.total.underOverride > 0)
    table.notes.push_back("Of consented, screened on a clinician's override alone: " +
                          number(totals.total.underOverride) + ".");
  if (totals.erased > 0)
    table.notes.push_back(base::counted(totals.erased, "student was", "students were") +
                          " erased from this logbook as the law required. No count includes them.");
  for (const auto& taken : totals.overrides)
    table.notes.push_back("Consent override: child " + taken.child + " on " + taken.on.words() +
                          " by " + taken.clinician + ": " + taken.reason + ".");
  noteUnder(table, totals, "consented of enrolled", totals.targets.consented,
            &Participation::consented, [](const auto& at) { return at.enrolled.value_or(0); });
  noteUnder(table, totals, "screened of consented", totals.targets.screened,
            &Participation::screened, [](const auto& at) { return at.consented; });
  return table;
}

Table serviceTable(const TermTotals& totals) {
  Table table{"Services",
              {{"School"},
               right("Needing"),
               right("% of screened"),
               right("Sealed"),
               right("% of needing"),
               right("Unfinished"),
               right("First molars"),
               right("Second molars"),
               right("Other teeth"),
               right("Surfaces"),
               right("Teeth per sealed child"),
               right("Teeth per screened child"),
               right("Varnish")},
              {},
              {}};
  addRows(table, totals, [](const Participation& at) -> Cells {
    const auto perScreened = at.screened > 0
                                 ? std::optional(static_cast<double>(at.teeth()) / at.screened)
                                 : std::nullopt;
    return {at.school,
            number(at.needing),
            percent(at.needing, at.screened),
            number(at.sealed),
            percent(at.sealed, at.needing),
            number(at.unfinished),
            number(at.firstMolars),
            number(at.secondMolars),
            number(at.otherTeeth),
            number(at.surfaces),
            number(at.teethPerChild(), 2),
            number(perScreened, 2),
            number(at.varnish)};
  });
  table.notes = {"Needing, sealed, unfinished and varnish are children. Sealed: at least one "
                 "complete sealant; repairs and glass ionomer sealants do not count. Teeth "
                 "and surfaces are counted separately, each once."};
  noteUnder(table, totals, "sealed of needing", totals.targets.sealed, &Participation::sealed,
            [](const auto& at) { return at.needing; });
  return table;
}

Table findingTable(const TermTotals& totals) {
  Table table{"Findings",
              {{"School"},
               right("Screened"),
               right("Untreated decay"),
               right("Could not tell"),
               right("%"),
               right("Early care"),
               right("Urgent"),
               right("% urgent")},
              {},
              {"By the screening, not a dental examination. A child screened twice counts once, by "
               "the more serious finding. Untreated decay, %: of the children of whom it could be "
               "told. Urgent, %: of all, as urgency is recorded of each.",
               "For use inside the program: small counts are not suppressed here."}};
  addRows(table, totals, [](const Participation& at) -> Cells {
    return {at.school,
            number(at.screened),
            number(at.untreated),
            number(at.couldNotTell),
            percent(at.untreated, at.decayKnown()),
            number(at.early),
            number(at.urgent),
            percent(at.urgent, at.screened)};
  });
  return table;
}

std::string wholeOrPartNote(const RetentionLine& total) {
  if (!total.wholeOrPart95) return "No sealant of the cohort has been assessed yet.";
  return "Total, fully or partially retained: " + estimateWords(*total.wholeOrPart95, total.unit) +
         "; partially " + percent(total.part, total.assessable) + "%, missing " +
         percent(total.lost, total.assessable) + "%. Clusters of the total: " +
         (total.unit == ClusterUnit::schools ? "schools."
                                             : "children, as too few schools were checked.");
}

/// What the classes of the table hold, each said where there is one.
void noteClasses(Table& table, const RetentionLine& total) {
  const auto sealants = [](int count) { return counted(count, "sealant", "sealants"); };
  if (total.earlierLost > 0)
    table.notes.push_back(
        "Missing includes " + sealants(total.earlierLost) +
        " that an earlier check found missing, or that were resealed without a check "
        "that found them fully retained: the new sealant is never counted in their "
        "place.");
  if (total.filledOver > 0)
    table.notes.push_back(
        "Missing includes " + sealants(total.filledOver) +
        " with a sealed surface filled since: counted as a failure of the sealant.");
  if (total.repaired > 0 && total.wholeOrRepaired95)
    table.notes.push_back(
        "Partially retained includes " + sealants(total.repaired) +
        " repaired since and fully retained at the check. Counting them as fully retained: " +
        estimateWords(*total.wholeOrRepaired95, total.unit) + ".");
  if (total.dueBefore > 0)
    table.notes.push_back(
        "Of the sealants due " + number(total.dueBefore) +
        " were already due in an earlier term and not assessed then: in a sum over "
        "terms they count once.");
  if (total.lostUnfound > 0)
    table.notes.push_back(
        sealants(total.lostUnfound) +
        " of children not found are known to be missing and are in no figure here: "
        "counting only the known losses of such children would bias it low.");
}

void noteRetentionUnder(Table& table, const TermTotals& totals) {
  Cells under;
  for (const auto& line : totals.retention.schools)
    if (line.whole95 && line.whole95->estimate < totals.targets.retained)
      under.push_back(line.label + " " + base::percent(line.whole95->estimate));
  if (!under.empty())
    table.notes.push_back("Below the benchmark of " + base::percent(totals.targets.retained, 0) +
                          "% fully retained: " + base::join(under, ", ") + ".");
}

Table schoolRetentionTable(const TermTotals& totals) {
  auto table =
      emptyRetentionTable("Retention at " + number(totals.window.fromMonths) + " to " +
                          number(totals.window.untilMonths) + " months, by placing school");
  for (const auto& line : totals.retention.schools)
    table.rows.push_back(retentionRow(line));
  table.rows.push_back(retentionRow(totals.retention.total));
  table.notes = {std::string(totals.firstPlacementsOnly
                                 ? "First placements only: the first sealant on each tooth"
                                 : "With reseals") +
                     "; repairs and sealants of others never count. A child who changed school "
                     "counts where the sealant was placed.",
                 wholeOrPartNote(totals.retention.total)};
  noteClasses(table, totals.retention.total);
  table.notes.push_back(protectionNote(totals.retention.total));
  // Not of one school, for which nothing is estimated.
  if (totals.averted.averted && totals.retention.total.protected95)
    table.notes.back() += " That figure is used for the cavities averted.";
  noteRetentionUnder(table, totals);
  addRetentionCautions(table, totals.retention.schools);
  return table;
}

Table healthTable(const TermTotals& totals) {
  Table table{"Checked sealants: tooth health, and why some could not be assessed",
              {{"School where placed"},
               right("Decayed since"),
               right("Filled since"),
               {"Not assessable"},
               right("Checked here this term")},
              {},
              {"Checked here: work done at the school, whoever placed the sealants."}};
  const auto addLine = [&](const RetentionLine& line) {
    Cells why;
    for (const auto& [reason, count] : line.why)
      why.push_back(named(reason) + " " + number(count));
    table.rows.push_back({line.label, number(line.decayedSince), number(line.filledSince),
                          why.empty() ? nothing : base::join(why, ", "), number(line.checkedHere)});
  };
  for (const auto& line : totals.retention.schools)
    addLine(line);
  addLine(totals.retention.total);
  return table;
}

std::string withRange(double value, const std::optional<estimates::Interval>& range) {
  return base::fixed(value, 0) +
         (range ? " (" + base::fixed(range->low, 0) + "-" + base::fixed(range->high, 0) + ")" : "");
}

/// What the rate is of, each said where it is so.
void addAttackNotes(Table& table, const TermTotals& totals) {
  const auto& attack = totals.attackRate;
  if (!attack.estimate) return;
  auto notes = attackNotes(attack);
  if (!attack.seconds && totals.averted.firstsAlone)
    notes.emplace_back(
        "Second molars use the first molars' rate, as fewer than " +
        std::to_string(fewestForSecondMolars) +
        " children new to the program had one; the line for first molars only leaves "
        "them out.");
  if (attack.seconds)
    notes.push_back(
        "Second molars have a rate of their own: " + base::percent(attack.seconds->annual) +
        "% a year (" + percentRange(attack.seconds->low, attack.seconds->high) +
        "). The two CIs are added end to end, which makes the sum wide.");
  table.notes.insert(table.notes.end() - 1, notes.begin(), notes.end());
}

Table preventionTable(const TermTotals& totals) {
  Table table{
      "Cavities that this term's sealants may avert", {{"Figure"}, right("Estimate")}, {}, {}};
  const auto& attack = totals.attackRate;
  table.rows.push_back({"Yearly attack rate of never-sealed first molars, % (95% CI)",
                        attack.estimate
                            ? base::percent(attack.estimate->annual) + " (" +
                                  percentRange(attack.estimate->low, attack.estimate->high) + ")"
                            : attack.whyNot});
  if (attack.estimate)
    table.rows.push_back({"First molars examined; affected; children",
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
  table.rows.push_back({"Sealed first and second molars", number(averted.sealants)});
  if (averted.averted && averted.cautious) {
    table.rows.push_back({"Cavities averted in " + years + ", full protection while retained",
                          withRange(averted.averted->averted, averted.averted->interval)});
    if (averted.ifNotLookedAt)
      table.rows.push_back({"If none, and if all, of the unchecked teeth due are protected",
                            base::fixed(averted.ifNotLookedAt->low, 0) + "-" +
                                base::fixed(averted.ifNotLookedAt->high, 0)});
    if (averted.firstsAlone)
      table.rows.push_back({"First molars only", withRange(averted.firstsAlone->averted,
                                                           averted.firstsAlone->interval)});
    table.rows.push_back(
        {"The same at " + base::fixed(estimates::cautiousEfficacy, 2) + " of full protection",
         withRange(averted.cautious->averted, averted.cautious->interval)});
  } else {
    table.rows.push_back({"Cavities averted in " + years, averted.whyNot});
  }
  table.notes = {"A model estimate: it applies to programs, never to one child. The CI covers "
                 "the sampling error of attack rate and retention, not doubt about the model.",
                 "Your state practice act, program protocol and the manufacturer's "
                 "instructions come first."};
  addAttackNotes(table, totals);
  return table;
}

} // namespace

std::vector<Table> termTables(const TermTotals& totals) {
  return {participationTable(totals),   serviceTable(totals), findingTable(totals),
          schoolRetentionTable(totals), healthTable(totals),  preventionTable(totals)};
}

} // namespace gk::reports
