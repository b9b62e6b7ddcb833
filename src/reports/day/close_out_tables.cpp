#include "reports/day/close_out_tables.h"

#include "base/text/text.h"
#include "reports/day/close_out_words.h"
#include "reports/day/display_names.h"
#include "reports/day/incident_counts.h"
#include "reports/day/return_visits.h"
#include "reports/print/cells.h"

#include <array>

namespace gk::reports {

namespace {

Table equationTable(const CloseOut& day) {
  const auto& sums = day.equation;
  Table table{"Close-out: " + day.school + ", " + day.date.weekday() + ", " + day.date.words() +
                  (day.team == 1 ? "" : ", team " + number(day.team)),
              {counts("Consented"), counts("Screened"), counts("Absent"), counts("Declined"),
               counts("Left school"), counts("Withdrawn"), counts("On hold"), counts("Not seen"),
               counts("Unaccounted for")},
              {{sums.consented, sums.screened, sums.absent, sums.declined, sums.left,
                sums.withdrawn, sums.onHold, sums.notReached, sums.difference()}},
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
  Table table{"Fix before signing",
              {texts("About"), texts("What is missing"), inFiles(texts("Kind"))}};
  for (const auto& blocker : day.blockers)
    table.rows.push_back({blocker.shown, blocker.what, blocker.kind});
  return table;
}

Table questionTable(const CloseOut& day) {
  Table table{"Laptop conflicts",
              {texts("Student", "child"), texts("Conflict"), texts("One laptop"),
               texts("Other laptop"), texts("Resolution")},
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
              {texts("Student", "child"), texts("Finding"), dated("Calls"), texts("Reached"),
               texts("Nurse told"), texts("Next")},
              {"Urgent stays open until a guardian has been reached and care has an outcome."}};
  for (const auto& line : day.urgent) {
    std::vector<std::string> calls;
    for (const auto& call : line.calls)
      calls.push_back(callWords(call));
    table.rows.push_back({line.shown, line.reason,
                          calls.empty() ? "none yet" : base::join(calls, "; "), line.reached,
                          line.nurseTold, line.next});
  }
  return table;
}

Table lineTable(std::string title, const std::vector<ChildLine>& lines) {
  Table table{std::move(title),
              {texts("Student", "child"), texts("Room"), texts("Outcome"), counts("Sealed"),
               texts("Teeth"), texts("Urgency"), texts("Missing")}};
  for (const auto& line : lines) {
    std::vector<std::string> iso;
    for (const auto& tooth : line.sealed)
      iso.push_back(std::to_string(tooth.iso()));
    table.rows.push_back({line.shown, line.room, line.outcome ? Cell(*line.outcome) : "NONE",
                          line.sealed.size(), Word{base::join(iso, " "), line.sealedWords},
                          line.urgency, base::join(line.missing, "; ")});
  }
  return table;
}

Table childTable(const CloseOut& day) {
  return lineTable("Students", day.lines);
}

Table unfinishedTable(const CloseOut& day) {
  Table table{"Unfinished teeth",
              {texts("Student", "child"), texts("Room"), texts("Tooth"), texts("Status"),
               texts("Reason"), dated("Planned since"), texts("Next step")},
              {"Planned since: the day from which it was planned to be sealed."}};
  for (const auto& tooth : day.unfinished)
    table.rows.push_back(
        {tooth.shown, tooth.room, Word{std::to_string(tooth.tooth.iso()), tooth.words}, tooth.how,
         tooth.reason.empty() ? "NONE" : tooth.reason, tooth.firstMeant, tooth.next});
  return table;
}

Table exceptionTable(const CloseOut& day) {
  Table table{"Exceptions",
              {texts("Kind"), texts("Student", "child"), texts("What"), texts("Reason"),
               texts("By"), texts("Assigned to")},
              {"No action needed: all is known, and the line is kept for the record."}};
  for (const auto& one : day.exceptions)
    table.rows.push_back(
        {one.kind, one.shown, one.what, one.reason, one.who, whoMustFix(one.kind)});
  return table;
}

Table letterTable(const CloseOut& day) {
  Table table{
      "Letters",
      {texts("Student", "child"), texts("Room"), texts("About"), texts("Language"),
       counts("Printed"), counts("Handed out"), counts("Returned"), texts("To do"),
       inFiles(texts("Status")), inFiles(texts("Owed")), inFiles(texts("In error"))},
      {letterSums(day.letters).words() +
           " have their letter, printed or queued. A letter that is missing or in error is an "
           "exception and does not hold up the signing.",
       "Letters are counted, not sheets. A letter given out by mistake stays listed "
       "until a call that reached a guardian is logged, or the letter came back."}};
  for (const auto& line : day.letters)
    table.rows.push_back({line.shown, line.room, line.variant,
                          line.languages.empty() ? nothing : line.languages, line.printed,
                          line.handed, line.returned, line.toDo(), line.stand, line.isOwed(),
                          line.isInError()});
  return table;
}

Table countTable(const CloseOut& day) {
  const auto& seen = day.counts;
  return {"Counts",
          {counts("Students seen", "children_seen"), counts("Students sealed", "children_sealed"),
           counts("First molars"), counts("Second molars"), counts("Other teeth"),
           counts("Surfaces"), counts("Varnish"), counts("Sealants checked")},
          {{seen.children, seen.sealedChildren, seen.firstMolars, seen.secondMolars,
            seen.otherTeeth, seen.surfaces, seen.varnish, seen.checks}},
          {"Teeth and surfaces are counted separately; only complete sealants count. "
           "One letter is due for each student seen or absent."}};
}

Table supplyTable(const CloseOut& day) {
  Table table{"Supplies by lot",
              {texts("Kind"), texts("Lot"), counts("Teeth"), counts("Students", "children"),
               counts("Packages opened"), counts("Packages left"), dated("Expiry"),
               counts("Days to expiry")},
              {"Teeth treated with the lot, finished or not. Packages as counted; none left "
               "closes the lot."}};
  for (const auto& line : day.supplies)
    table.rows.push_back(
        {line.kind, line.words + (line.setAside ? ", SET ASIDE: " + line.why : ""),
         line.teeth > 0 ? Cell(line.teeth) : noFigure, line.children, line.opened,
         Cell(line.left).with(line.left == 0 ? ", closed" : ""), line.expiry,
         line.expiry ? Cell((line.expiry->days() - day.date.days()).count()) : noFigure});
  return table;
}

Table laptopTable(const CloseOut& day) {
  Table table{"Laptops and backups",
              {texts("Laptop"), counts("Entries of the day"), texts("Last entry"),
               texts("Last verified backup"), texts("Complete")},
              {"A laptop is named by the end of its ID and who worked on it. A backup holds "
               "what that laptop had then, with what it had merged. A copy on the laptop's "
               "own disk is lost with it and does not count. Laptop conflicts that are "
               "open: " +
               number(static_cast<int>(day.questions.size())) + "."}};
  for (const auto& line : day.laptops)
    table.rows.push_back({line.words, line.entries, line.last ? line.last->text() : nothing,
                          line.backedUp ? line.backedUp->text() + ", " + line.file +
                                              (line.sameDisk ? ", on the laptop's own disk" : "")
                                        : "none recorded",
                          line.isBackedUp()});
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
              {counts("Chairs"), numbers("Hours open"), numbers("Chair hours"),
               numbers("Students seen per chair hour", "children_seen_per_chair_hour"),
               texts("Staff hours"), numbers("Total staff hours"),
               counts("Students receiving oral health education")}};
  if (!day.effort) {
    table.notes = {"Not entered yet. Signing does not need it."};
    if (day.cost) table.notes.push_back(costNote(day));
    return table;
  }
  const auto& effort = *day.effort;
  const double hours = effort.chairHours();
  table.rows.push_back({effort.chairs, hoursOf(effort.open), numberOf(hours, 1),
                        numberPer(day.counts.children, hours, 2),
                        effort.people.empty() ? nothing : roster::peopleText(effort.people),
                        hoursOf(effort.staffTime()), effort.taught});
  table.notes = {"Students seen for each hour that a chair was open.", costNote(day)};
  return table;
}

Table referralTable(const CloseOut& day) {
  Table table{"Referrals made today",
              {texts("Student", "child"), texts("Urgency"), texts("Reason"), texts("Referred to"),
               texts("To be seen by"), texts("Status")},
              {"Followed up until there is an outcome: letter, second letter, phone. The report "
               "\"follow-up\" of the term has the days open."}};
  for (const auto& line : day.referrals)
    table.rows.push_back(
        {line.shown, line.urgency, line.reason, line.to, line.due.words(), line.state});
  return table;
}

Table incidentTable(const CloseOut& day) {
  Table table{"Incidents",
              {dated("When"), texts("What"), onPaper(texts("Student", "child")),
               onPaper(texts("Done")), onPaper(texts("Told")), onPaper(texts("Follow-up")),
               inFiles(texts("Open")), inFiles(texts("Of earlier day"))}};
  std::vector<IncidentLine> ofToday;
  for (const auto& line : day.incidents) {
    const auto& incident = line.incident;
    const auto when = incident.happened;
    table.rows.push_back({line.isEarlier ? when.text() : when.clockWords(), incident.type,
                          line.shown.empty() ? nothing : line.shown,
                          incident.done + (line.who.empty() ? "" : " (" + line.who + ")"),
                          incident.told.empty() ? nothing : incident.told,
                          (followup::isOpen(incident) ? "OPEN: "
                           : incident.settled         ? "resolved "
                                                      : "") +
                              incident.followUp,
                          followup::isOpen(incident), line.isEarlier});
    if (!line.isEarlier) ofToday.push_back(line);
  }
  const auto counts = countWords(incidentCounts(ofToday));
  table.notes = {counts.empty() ? "No incident was recorded today." : "Today: " + counts + ".",
                 "Open incidents of earlier days are listed until they are resolved."};
  return table;
}

Table paperTable(const CloseOut& day) {
  Table table{"Printed lists, out and in",
              {texts("Sheets"), counts("Out"), counts("Returned"), counts("Handed out"),
               counts("Shredded"), counts("Missing"), texts("Why")},
              {"For letters, out and handed out come from their records."}};
  for (const auto& line : day.papers)
    table.rows.push_back({line.count.paper, line.count.out, line.count.back, line.count.handed,
                          line.count.shredded, line.count.missing(),
                          line.count.reason.empty() ? nothing : line.count.reason});
  if (!day.paperCounted) table.notes.emplace_back("Other printed lists have not been counted.");
  return table;
}

Table lateEntryTable(const CloseOut& day) {
  Table table{"Late entries", {dated("When"), texts("About"), texts("Late entry"), texts("By")}};
  for (const auto& one : day.lateEntries)
    table.rows.push_back({one.at.text(), one.shown.empty() ? "the whole day" : one.shown, one.text,
                          one.who.empty() ? nothing : one.who});
  for (const auto& line : signingWords(day))
    table.notes.push_back(line + ".");
  table.notes.emplace_back("A late entry is added after the day is signed and changes no figure.");
  return table;
}

Table returnTable(const CloseOut& day) {
  Table table{"Return visits",
              {texts("Student", "child"), texts("Room"), texts("Why"), texts("Next")}};
  for (const auto& visit : returnVisits(day))
    table.rows.push_back({visit.shown, visit.room, visit.why, visit.next});
  return table;
}

Table confirmedTable(const CloseOut& day) {
  Table table{"Placements confirmed",
              {texts("Operator"), counts("Placements"), counts("Confirmed"), texts("Status")},
              {"Each operator confirms their own placements. A later correction is "
               "confirmed again."}};
  for (const auto& line : day.confirmed)
    table.rows.push_back(
        {line.who, line.placed, line.confirmed,
         line.open() == 0 ? "confirmed"
                          : number(line.open()) + " of " + number(line.placed) + " NOT CONFIRMED"});
  return table;
}

/// What the sheet says in sentences.
Table dayTable(const CloseOut& day) {
  const auto sums = letterSums(day.letters);
  return {"Day",
          {texts("School"), dated("Date"), counts("Team"), texts("Reconciles"), texts("Balanced"),
           texts("Closed"), texts("Signed by"), texts("Verdict"), counts("Under override"),
           texts("Paper counted"), counts("Letters due, seen", "letters_seen"),
           counts("Letters made, seen", "letters_seen_with"),
           counts("Letters due, absent", "letters_absent"),
           counts("Letters made, absent", "letters_absent_with"), counts("Letters", "letters")},
          {{day.school, day.date, day.team, day.mayClose(), day.balanced(), day.closed,
            day.signedBy, verdictOf(day), day.equation.underOverride, day.paperCounted, sums.seen,
            sums.seenWith, sums.absent, sums.absentWith, day.counts.letters}},
          {}};
}

Table signatureTable(const CloseOut& day) {
  Table table{"Signatures",
              {texts("What"), texts("At"), texts("By"), texts("Reason"), texts("Code")}};
  for (const auto& line : day.signings)
    table.rows.push_back(
        {line.reopened ? "reopened" : "signed", line.at.text(), line.who, line.reason, line.code});
  return table;
}

/// In the order of close_out::Section.
constexpr std::array<Table (*)(const CloseOut&), base::enumCount<close_out::Section>> sections{
    equationTable, urgentTable,     blockerTable,   questionTable, referralTable,  letterTable,
    supplyTable,   paperTable,      incidentTable,  effortTable,   confirmedTable, laptopTable,
    childTable,    unfinishedTable, exceptionTable, countTable,    lateEntryTable, returnTable};

std::vector<Table> wholeTables(const CloseOut& day) {
  std::vector<Table> out;
  for (std::size_t i = 0; i < sections.size(); ++i) {
    out.push_back(sections.at(i)(day));
    out.back().key = base::nameOf(static_cast<close_out::Section>(i));
  }
  return out;
}

} // namespace

std::vector<Table> closeOutTables(const CloseOut& day) {
  auto out = printed(wholeTables(day));
  out.back().notes = {"This sheet names students: count it out and back in, then shred it.",
                      "It records and does not diagnose; a licensed person decides. Your state "
                      "practice act, program protocol and the manufacturer's instructions come "
                      "first."};
  return out;
}

std::vector<Table> closeOutFile(const CloseOut& day) {
  auto out = filed(wholeTables(day));
  out.insert(out.begin(), dayTable(day));
  out.push_back(signatureTable(day));
  out.push_back(lineTable("Still to see", day.stillToSee));
  return out;
}

} // namespace gk::reports
