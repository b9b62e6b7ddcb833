#include "reports/day/close_out_tables.h"

#include "base/text.h"
#include "reports/day/close_out_words.h"
#include "reports/day/display_names.h"
#include "reports/day/incident_counts.h"
#include "reports/day/return_visits.h"
#include "reports/print/cells.h"

namespace gk::reports {

namespace {

Table equationTable(const CloseOut& day) {
  const auto& sums = day.equation;
  Table table{"Close-out: " + day.school + ", " + day.date.weekday() + ", " + day.date.words() +
                  (day.team == 1 ? "" : ", team " + number(day.team)),
              {{"Consented", true},
               {"Screened", true},
               {"Absent", true},
               {"Declined", true},
               {"Left school", true},
               {"Withdrawn", true},
               {"On hold", true},
               {"Not seen", true},
               {"Unaccounted for", true}},
              {{number(sums.consented), number(sums.screened), number(sums.absent),
                number(sums.declined), number(sums.left), number(sums.withdrawn),
                number(sums.onHold), number(sums.notReached), number(sums.difference())}},
              {"consented = screened + absent + declined + left + withdrawn + on hold + not "
               "seen; a recheck alone counts as screened."}};
  if (sums.underOverride > 0)
    table.notes.push_back("Of consented, seen on a clinician's override without a valid consent: " +
                          number(sums.underOverride) + ".");
  for (const auto& odd : sums.odd)
    table.notes.push_back(odd.shown + ": " + odd.why + ".");
  for (const auto& line : signingWords(day))
    table.notes.push_back(line + ".");
  if (const auto open = unconfirmedWords(day); !open.empty()) table.notes.push_back(open + ".");
  table.notes.push_back(verdictOf(day));
  return table;
}

Table blockerTable(const CloseOut& day) {
  Table table{"Fix before signing", {{"About"}, {"What is missing"}}, {}, {}};
  for (const auto& blocker : day.blockers)
    table.rows.push_back({blocker.shown, blocker.what});
  return table;
}

Table questionTable(const CloseOut& day) {
  Table table{"Laptop conflicts",
              {{"Child"}, {"Conflict"}, {"One laptop"}, {"Other laptop"}, {"Resolution"}},
              {},
              {"Nothing was overwritten: a person chooses, and the history keeps both. "
               "Resolve each before signing; until then a resolution can be changed."}};
  for (const auto& question : day.questions) {
    std::vector<std::string> others;
    for (std::size_t i = 1; i < question.sides.size(); ++i)
      others.push_back(question.sides[i].words);
    table.rows.push_back({question.shown, question.what, question.sides.front().words,
                          base::join(others, " / "), "OPEN"});
  }
  for (const auto& one : day.answered)
    table.rows.push_back({one.shown, one.what, nothing, nothing,
                          one.words + " (" + (one.who.empty() ? "" : one.who + " ") +
                              one.answer.stamp.at.clockWords() + ")"});
  return table;
}

std::string callWords(const Call& call) {
  return call.at.text() + " " + named(call.channel) + ": " + named(call.result) +
         (call.note.empty() ? "" : ", " + call.note);
}

Table urgentTable(const CloseOut& day) {
  Table table{"Urgent: call today",
              {{"Child"}, {"Finding"}, dated("Calls"), {"Reached"}, {"Nurse told"}, {"Next"}},
              {},
              {"Urgent stays open until a guardian has been reached and care has an outcome."}};
  for (const auto& line : day.urgent) {
    std::vector<std::string> calls;
    for (const auto& call : line.calls)
      calls.push_back(callWords(call));
    table.rows.push_back({line.shown, named(line.reason),
                          calls.empty() ? "none yet" : base::join(calls, "; "),
                          line.reached ? "yes" : "NO", line.nurseTold ? "yes" : "NO", line.next});
  }
  return table;
}

Table childTable(const CloseOut& day) {
  Table table{
      "Children",
      {{"Child"}, {"Room"}, {"Outcome"}, {"Sealed", true}, {"Teeth"}, {"Urgency"}, {"Missing"}},
      {},
      {}};
  for (const auto& line : day.lines)
    table.rows.push_back({line.shown, line.room, line.outcome ? named(*line.outcome) : "NONE",
                          number(static_cast<int>(line.sealed.size())), line.sealedWords,
                          line.urgency ? named(*line.urgency) : nothing,
                          base::join(line.missing, "; ")});
  return table;
}

Table unfinishedTable(const CloseOut& day) {
  Table table{"Unfinished teeth",
              {{"Child"},
               {"Room"},
               {"Tooth"},
               {"Status"},
               {"Reason"},
               dated("Planned since"),
               {"Next step"}},
              {},
              {"Planned since: the day from which it was planned to be sealed."}};
  for (const auto& tooth : day.unfinished)
    table.rows.push_back({tooth.shown, tooth.room, tooth.words, tooth.how,
                          tooth.reason.empty() ? "NONE" : tooth.reason, tooth.firstMeant.iso(),
                          tooth.next});
  return table;
}

Table exceptionTable(const CloseOut& day) {
  Table table{"Exceptions",
              {{"Kind"}, {"Child"}, {"What"}, {"Reason"}, {"By"}, {"Assigned to"}},
              {},
              {"No action needed: all is known, and the line is kept for the record."}};
  for (const auto& one : day.exceptions)
    table.rows.push_back(
        {named(one.kind), one.shown, one.what, one.reason, one.who, named(whoMustFix(one.kind))});
  return table;
}

Table letterTable(const CloseOut& day) {
  Table table{
      "Letters",
      {{"Child"},
       {"Room"},
       {"About"},
       {"Language"},
       {"Printed", true},
       {"Handed out", true},
       {"Returned", true},
       {"To do"}},
      {},
      {letterSums(day.letters).words() +
           " have their letter, printed or queued. A letter that is missing or in error is an "
           "exception and does not hold up the signing.",
       "Letters are counted, not sheets. A letter given out by mistake stays listed "
       "until a call that reached a guardian is logged, or the letter came back."}};
  for (const auto& line : day.letters)
    table.rows.push_back({line.shown, line.room, named(line.variant),
                          line.languages.empty() ? nothing : line.languages, number(line.printed),
                          number(line.handed), number(line.returned), line.toDo()});
  return table;
}

Table countTable(const CloseOut& day) {
  const auto& counts = day.counts;
  return {"Counts",
          {{"Children seen", true},
           {"Children sealed", true},
           {"First molars", true},
           {"Second molars", true},
           {"Other teeth", true},
           {"Surfaces", true},
           {"Varnish", true},
           {"Sealants checked", true}},
          {{number(counts.children), number(counts.sealedChildren), number(counts.firstMolars),
            number(counts.secondMolars), number(counts.otherTeeth), number(counts.surfaces),
            number(counts.varnish), number(counts.checks)}},
          {"Teeth and surfaces are counted separately; only complete sealants count. "
           "One letter is due for each child seen or absent."}};
}

Table supplyTable(const CloseOut& day) {
  Table table{"Supplies by lot",
              {{"Kind"},
               {"Lot"},
               {"Teeth", true},
               {"Children", true},
               {"Packages opened", true},
               {"Packages left", true},
               dated("Expiry"),
               {"Days to expiry", true}},
              {},
              {"Teeth treated with the lot, finished or not. Packages as counted; none left "
               "closes the lot."}};
  const auto counted = [](const std::optional<int>& value) {
    return value ? number(*value) : nothing;
  };
  for (const auto& line : day.supplies)
    table.rows.push_back(
        {named(line.kind), line.words + (line.setAside ? ", SET ASIDE: " + line.why : ""),
         line.teeth > 0 ? number(line.teeth) : nothing, number(line.children), counted(line.opened),
         line.left == 0 ? "0, closed" : counted(line.left),
         line.expiry ? line.expiry->iso() : nothing,
         line.expiry ? number(static_cast<int>((line.expiry->days() - day.date.days()).count()))
                     : nothing});
  return table;
}

Table laptopTable(const CloseOut& day) {
  Table table{"Laptops and backups",
              {{"Laptop"},
               {"Entries of the day", true},
               {"Last entry"},
               {"Last verified backup"},
               {"Complete"}},
              {},
              {"A laptop is named by the end of its ID and who worked on it. A backup holds "
               "what that laptop had then, with what it had merged. A copy on the laptop's "
               "own disk is lost with it and does not count. Laptop conflicts that are "
               "open: " +
               number(static_cast<int>(day.questions.size())) + "."}};
  for (const auto& line : day.laptops)
    table.rows.push_back({line.words, number(line.entries), line.last ? line.last->text() : nothing,
                          line.backedUp ? line.backedUp->text() + ", " + line.file +
                                              (line.sameDisk ? ", on the laptop's own disk" : "")
                                        : "none recorded",
                          line.isBackedUp() ? "yes" : "NO"});
  return table;
}

std::string costNote(const CloseOut& day) {
  if (!day.cost) return "No costs entered. Signing does not need them.";
  if (day.cost->lines.empty()) return "The day cost nothing.";
  return "Costs, $: " + roster::costsText(day.cost->lines) + "; " +
         roster::centsText(day.cost->total()) + " in total.";
}

Table effortTable(const CloseOut& day) {
  Table table{"Staff and chair hours",
              {{"Chairs", true},
               {"Hours open", true},
               {"Chair hours", true},
               {"Children seen per chair hour", true},
               {"Staff hours"},
               {"Total staff hours", true},
               {"Students receiving oral health education", true}},
              {},
              {}};
  if (!day.effort) {
    table.notes = {"Not entered yet. Signing does not need it."};
    if (day.cost) table.notes.push_back(costNote(day));
    return table;
  }
  const auto& effort = *day.effort;
  const double hours = effort.chairHours();
  table.rows.push_back({number(effort.chairs), roster::hoursText(effort.open),
                        base::fixed(hours, 1),
                        hours > 0 ? base::fixed(day.counts.children / hours, 2) : nothing,
                        effort.people.empty() ? nothing : roster::peopleText(effort.people),
                        roster::hoursText(effort.staffTime()), number(effort.taught)});
  table.notes = {"Children seen for each hour that a chair was open.", costNote(day)};
  return table;
}

Table referralTable(const CloseOut& day) {
  Table table{"Referrals made today",
              {{"Child"}, {"Urgency"}, {"Reason"}, {"Referred to"}, {"To be seen by"}, {"Status"}},
              {},
              {"Followed up until there is an outcome: letter, second letter, phone. The report "
               "\"follow-up\" of the term has the days open."}};
  for (const auto& line : day.referrals)
    table.rows.push_back({line.shown, named(line.urgency), line.reason, named(line.to),
                          line.due.words(), named(line.state)});
  return table;
}

Table incidentTable(const CloseOut& day) {
  Table table{
      "Incidents", {dated("When"), {"What"}, {"Child"}, {"Done"}, {"Told"}, {"Follow-up"}}, {}, {}};
  std::vector<IncidentLine> ofToday;
  for (const auto& line : day.incidents) {
    const auto& incident = line.incident;
    const auto when = incident.happened;
    table.rows.push_back({line.isEarlier ? when.text() : when.clockWords(), named(incident.type),
                          line.shown.empty() ? nothing : line.shown,
                          incident.done + (line.who.empty() ? "" : " (" + line.who + ")"),
                          incident.told.empty() ? nothing : incident.told,
                          (followup::isOpen(incident) ? "OPEN: "
                           : incident.settled         ? "resolved "
                                                      : "") +
                              incident.followUp});
    if (!line.isEarlier) ofToday.push_back(line);
  }
  const auto counts = countWords(incidentCounts(ofToday));
  table.notes = {counts.empty() ? "No incident was recorded today." : "Today: " + counts + ".",
                 "Open incidents of earlier days are listed until they are resolved."};
  return table;
}

Table paperTable(const CloseOut& day) {
  Table table{"Printed lists, out and in",
              {{"Sheets"},
               {"Out", true},
               {"Returned", true},
               {"Handed out", true},
               {"Shredded", true},
               {"Missing", true},
               {"Why"}},
              {},
              {"For letters, out and handed out come from their records."}};
  for (const auto& line : day.papers)
    table.rows.push_back({named(line.count.paper), number(line.count.out), number(line.count.back),
                          number(line.count.handed), number(line.count.shredded),
                          number(line.count.missing()),
                          line.count.reason.empty() ? nothing : line.count.reason});
  if (!day.paperCounted) table.notes.emplace_back("Other printed lists have not been counted.");
  return table;
}

Table lateEntryTable(const CloseOut& day) {
  Table table{"Late entries", {dated("When"), {"About"}, {"Late entry"}, {"By"}}, {}, {}};
  for (const auto& one : day.lateEntries)
    table.rows.push_back({one.at.text(), one.shown.empty() ? "the whole day" : one.shown, one.text,
                          one.who.empty() ? nothing : one.who});
  for (const auto& line : signingWords(day))
    table.notes.push_back(line + ".");
  table.notes.emplace_back("A late entry is added after the day is signed and changes no figure.");
  return table;
}

Table returnTable(const CloseOut& day) {
  Table table{"Return visits", {{"Student"}, {"Room"}, {"Why"}, {"Next"}}, {}, {}};
  for (const auto& visit : returnVisits(day))
    table.rows.push_back({visit.shown, visit.room, visit.why, visit.next});
  return table;
}

} // namespace

namespace {

Table confirmedTable(const CloseOut& day) {
  Table table{"Placements confirmed",
              {{"Operator"}, {"Placements", true}, {"Confirmed", true}, {"Status"}},
              {},
              {"Each operator confirms their own placements. A later correction is "
               "confirmed again."}};
  for (const auto& line : day.confirmed)
    table.rows.push_back(
        {line.who, number(line.placed), number(line.confirmed),
         line.open() == 0 ? "confirmed"
                          : number(line.open()) + " of " + number(line.placed) + " NOT CONFIRMED"});
  return table;
}

} // namespace

std::vector<Table> closeOutTables(const CloseOut& day) {
  std::vector<Table> out{equationTable(day),  blockerTable(day),   questionTable(day),
                         urgentTable(day),    childTable(day),     unfinishedTable(day),
                         exceptionTable(day), countTable(day),     supplyTable(day),
                         letterTable(day),    referralTable(day),  incidentTable(day),
                         paperTable(day),     effortTable(day),    laptopTable(day),
                         lateEntryTable(day), confirmedTable(day), returnTable(day)};
  out.back().notes = {"This sheet names children: count it out and back in, then shred it.",
                      "It records and does not diagnose; a licensed person decides. Your state "
                      "practice act, program protocol and the manufacturer's instructions come "
                      "first."};
  return out;
}

} // namespace gk::reports
