#include "office/close_out_json.h"

#include "office/json_writer.h"
#include "reports/day/close_out_words.h"

namespace gk::office {

namespace {

void equationJson(JsonWriter& json, const reports::DayEquation& equation) {
  json.objectField("equation");
  json.field("consented", equation.consented);
  json.field("screened", equation.screened);
  json.field("absent", equation.absent);
  json.field("declined", equation.declined);
  json.field("left", equation.left);
  json.field("withdrawn", equation.withdrawn);
  json.field("on_hold", equation.onHold);
  json.field("not_reached", equation.notReached);
  json.field("difference", equation.difference());
  json.field("under_override", equation.underOverride);
  json.arrayField("odd");
  for (const auto& odd : equation.odd) {
    json.beginObject();
    json.field("child", odd.shown);
    json.field("why", odd.why);
    json.endObject();
  }
  json.endArray();
  json.endObject();
}

void linesJson(JsonWriter& json, std::string_view name,
               const std::vector<reports::ChildLine>& lines) {
  json.arrayField(name);
  for (const auto& line : lines) {
    json.beginObject();
    json.field("child", line.shown);
    json.field("room", line.room);
    json.key("outcome");
    if (line.outcome)
      json.value(base::nameOf(*line.outcome));
    else
      json.null();
    json.arrayField("sealed_iso");
    for (const auto& tooth : line.sealed)
      json.value(tooth.iso());
    json.endArray();
    json.key("urgency");
    if (line.urgency)
      json.value(base::nameOf(*line.urgency));
    else
      json.null();
    json.field("missing", line.missing);
    json.endObject();
  }
  json.endArray();
}

void urgentJson(JsonWriter& json, const std::vector<reports::UrgentLine>& urgent) {
  json.arrayField("urgent");
  for (const auto& line : urgent) {
    json.beginObject();
    json.field("child", line.shown);
    json.field("reason", base::nameOf(line.reason));
    json.field("reached", line.reached);
    json.field("nurse_told", line.nurseTold);
    json.field("next", line.next);
    json.arrayField("calls");
    for (const auto& call : line.calls) {
      json.beginObject();
      json.field("at", call.at.text());
      json.field("channel", base::nameOf(call.channel));
      json.field("result", base::nameOf(call.result));
      json.field("note", call.note);
      json.endObject();
    }
    json.endArray();
    json.endObject();
  }
  json.endArray();
}

void troubleJson(JsonWriter& json, const reports::CloseOut& sheet) {
  json.arrayField("blockers");
  for (const auto& blocker : sheet.blockers) {
    json.beginObject();
    json.field("kind", base::nameOf(blocker.kind));
    json.field("child", blocker.shown);
    json.field("what", blocker.what);
    json.endObject();
  }
  json.endArray();
  json.arrayField("unfinished");
  for (const auto& tooth : sheet.unfinished) {
    json.beginObject();
    json.field("child", tooth.shown);
    json.field("tooth_iso", tooth.tooth.iso());
    json.field("how", tooth.how);
    json.field("reason", tooth.reason);
    json.field("room", tooth.room);
    json.field("first_date", tooth.firstMeant.iso());
    json.field("next", tooth.next);
    json.endObject();
  }
  json.endArray();
  json.arrayField("exceptions");
  for (const auto& exception : sheet.exceptions) {
    json.beginObject();
    json.field("kind", base::nameOf(exception.kind));
    json.field("child", exception.shown);
    json.field("what", exception.what);
    json.field("reason", exception.reason);
    json.field("by", exception.who);
    json.field("to_fix", base::nameOf(reports::whoMustFix(exception.kind)));
    json.endObject();
  }
  json.endArray();
}

void countsJson(JsonWriter& json, const reports::DayCounts& counts) {
  json.objectField("counts");
  json.field("children", counts.children);
  json.field("sealed_children", counts.sealedChildren);
  json.field("first_molars", counts.firstMolars);
  json.field("second_molars", counts.secondMolars);
  json.field("other_teeth", counts.otherTeeth);
  json.field("surfaces", counts.surfaces);
  json.field("varnish", counts.varnish);
  json.field("checks", counts.checks);
  json.field("letters", counts.letters);
  json.endObject();
}

void lettersJson(JsonWriter& json, const std::vector<reports::LetterLine>& letters) {
  json.arrayField("letters");
  for (const auto& line : letters) {
    json.beginObject();
    json.field("child", line.shown);
    json.field("variant", base::nameOf(line.variant));
    json.field("letter", base::nameOf(line.stand));
    json.field("owed", line.isOwed());
    json.field("in_error", line.isInError());
    json.field("languages", line.languages);
    json.field("printed", line.printed);
    json.field("handed", line.handed);
    json.field("returned", line.returned);
    json.field("to_do", line.toDo());
    json.endObject();
  }
  json.endArray();
}

void letterSumsJson(JsonWriter& json, const reports::LetterSums& sums) {
  json.objectField("letters_due");
  json.field("seen", sums.seen);
  json.field("seen_with", sums.seenWith);
  json.field("absent", sums.absent);
  json.field("absent_with", sums.absentWith);
  json.endObject();
}

void suppliesJson(JsonWriter& json, const std::vector<reports::SupplyLine>& supplies) {
  json.arrayField("supplies");
  for (const auto& line : supplies) {
    json.beginObject();
    json.field("lot", line.words);
    json.field("kind", base::nameOf(line.kind));
    json.field("teeth", line.teeth);
    json.field("children", line.children);
    json.endObject();
  }
  json.endArray();
}

void questionsJson(JsonWriter& json, const reports::CloseOut& sheet) {
  json.arrayField("merge_answers");
  for (const auto& one : sheet.answered) {
    json.beginObject();
    json.field("child", one.shown);
    json.field("what", one.what);
    json.field("answer", one.words);
    json.field("by", one.who);
    json.endObject();
  }
  json.endArray();
  json.arrayField("merge_questions");
  for (const auto& question : sheet.questions) {
    json.beginObject();
    json.field("child", question.shown);
    json.field("what", question.what);
    json.arrayField("sides");
    for (const auto& side : question.sides)
      json.value(side.words);
    json.endArray();
    json.endObject();
  }
  json.endArray();
}

/// Counts and what is open; the words of an incident stay in the logbook.
void incidentsJson(JsonWriter& json, const std::vector<reports::IncidentLine>& incidents) {
  json.arrayField("incidents");
  for (const auto& line : incidents) {
    json.beginObject();
    json.field("type", base::nameOf(line.incident.type));
    json.field("at", line.incident.happened.text());
    json.field("open", followup::isOpen(line.incident));
    json.field("of_earlier_day", line.isEarlier);
    json.endObject();
  }
  json.endArray();
}

void signingsJson(JsonWriter& json, const reports::CloseOut& sheet) {
  json.arrayField("signatures");
  for (const auto& line : sheet.signings) {
    json.beginObject();
    json.field("what", line.reopened ? "reopened" : "signed");
    json.field("at", line.at.text());
    json.field("by", line.who);
    json.field("reason", line.reason);
    if (!line.code.empty()) json.field("code", line.code);
    json.endObject();
  }
  json.endArray();
  json.arrayField("placements_confirmed");
  for (const auto& line : sheet.confirmed) {
    json.beginObject();
    json.field("operator", line.who);
    json.field("placements", line.placed);
    json.field("confirmed", line.confirmed);
    json.endObject();
  }
  json.endArray();
  json.arrayField("late_entries");
  for (const auto& one : sheet.lateEntries) {
    json.beginObject();
    json.field("at", one.at.text());
    json.field("child", one.shown);
    json.field("text", one.text);
    json.field("by", one.who);
    json.endObject();
  }
  json.endArray();
}

void papersJson(JsonWriter& json, const std::vector<reports::PaperLine>& papers) {
  json.arrayField("papers");
  for (const auto& line : papers) {
    json.beginObject();
    json.field("sheets", base::nameOf(line.count.paper));
    json.field("out", line.count.out);
    json.field("back", line.count.back);
    json.field("handed", line.count.handed);
    json.field("shredded", line.count.shredded);
    json.field("missing", line.count.missing());
    json.field("reason", line.count.reason);
    json.endObject();
  }
  json.endArray();
}

} // namespace

void writeJson(const reports::CloseOut& sheet, std::ostream& out) {
  JsonWriter json(out);
  json.beginObject();
  json.field("school", sheet.school);
  json.field("date", sheet.date.iso());
  json.field("team", sheet.team);
  json.field("reconciles", sheet.mayClose());
  json.field("balanced", sheet.balanced());
  json.field("closed", sheet.closed);
  json.field("signed_by", sheet.signedBy);
  json.field("verdict", reports::verdictOf(sheet));
  signingsJson(json, sheet);
  equationJson(json, sheet.equation);
  troubleJson(json, sheet);
  questionsJson(json, sheet);
  urgentJson(json, sheet.urgent);
  linesJson(json, "children", sheet.lines);
  countsJson(json, sheet.counts);
  suppliesJson(json, sheet.supplies);
  lettersJson(json, sheet.letters);
  letterSumsJson(json, reports::letterSums(sheet.letters));
  incidentsJson(json, sheet.incidents);
  papersJson(json, sheet.papers);
  json.field("paper_counted", sheet.paperCounted);
  linesJson(json, "still_to_see", sheet.stillToSee);
  json.endObject();
}

} // namespace gk::office
