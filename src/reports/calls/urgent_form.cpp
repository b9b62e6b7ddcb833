#include "reports/calls/urgent_form.h"

#include "base/contract.h"
#include "reports/day/close_out.h"
#include "reports/day/close_out_parts.h"
#include "reports/print/render.h"
#include "reports/records/words.h"

#include <algorithm>

namespace gk::reports {

namespace {

using chairside::UrgentReason;

/// What was seen, as a person who is no dentist would say it.
std::string plainWords(UrgentReason reason) {
  switch (reason) {
  case UrgentReason::pain:
    return "a tooth that hurts";
  case UrgentReason::swelling:
    return "swelling in the mouth or face";
  case UrgentReason::fistulaOrAbscess:
    return "a gum boil or a swollen spot by a tooth";
  case UrgentReason::trauma:
    return "a tooth that was hit or broke";
  case UrgentReason::softTissue:
    return "a sore in the mouth";
  case UrgentReason::none:
  case UrgentReason::other:
    return "something that cannot wait";
  }
  base::fail("no such urgent reason");
}

void addAttempts(const DayView& view, UrgentForm& form) {
  auto rows = view.contacts.of(form.child);
  std::ranges::sort(rows, {}, [](const auto* row) { return row->stamp.at; });
  for (const auto* row : rows) {
    const auto& tried = row->value;
    form.attempts.push_back({row->stamp.at.words(), view.initials(row->stamp.by.author),
                             named(tried.channel), named(tried.result), tried.note});
    if (tried.result != followup::ContactResult::reached) continue;
    (tried.channel == followup::Channel::nurse ? form.nurseTold : form.reached) = true;
  }
}

std::string cell(const std::string& text) {
  return "<td>" + (text.empty() ? "&nbsp;" : escaped(text)) + "</td>";
}

std::string peopleHtml(const UrgentForm& form) {
  std::string html = "<h2>Call, in this order</h2>\n";
  if (form.people.empty())
    return html + "<p>No contact is on the child's card. Ask the school office for a number.</p>\n";
  html +=
      "<table border=\"1\" cellspacing=\"0\" cellpadding=\"5\" width=\"100%\">\n<tr><th>Who</th>"
      "<th>Relation</th><th>Phone</th><th>Language</th></tr>\n";
  for (const auto& person : form.people)
    html += "<tr>" + cell(person.name) + cell(person.relation) + cell(person.phone) +
            cell(person.language) + "</tr>\n";
  return html + "</table>\n";
}

/// Lines to write on after those that are logged.
constexpr int blankLines = 4;

std::string attemptsHtml(const UrgentForm& form) {
  std::string html =
      "<h2>Calls</h2>\n<table border=\"1\" cellspacing=\"0\" cellpadding=\"5\" "
      "width=\"100%\">\n<tr>"
      "<th width=\"22%\">When</th><th width=\"10%\">By</th><th width=\"14%\">How</th>"
      "<th width=\"16%\">Reached?</th><th>What was said</th></tr>\n";
  for (const auto& one : form.attempts)
    html += "<tr>" + cell(one.when) + cell(one.who) + cell(one.how) + cell(one.result) +
            cell(one.note) + "</tr>\n";
  for (int i = 0; i < blankLines; ++i)
    html += "<tr>" + cell("") + cell("") + cell("") + cell("") + "<td>&nbsp;<br>&nbsp;</td></tr>\n";
  return html + "</table>\n";
}

} // namespace

std::vector<UrgentForm> urgentForms(const DayRecords& records, const LetterFrame& frame,
                                    const LetterCards& cards, const CallPeople& people) {
  Names names;
  for (const auto& [child, card] : cards)
    names.emplace(child, card.legalName);
  const DayView view(records, names);
  std::vector<UrgentForm> forms;
  for (const auto& id : view.lineUp()) {
    const auto facts = letterFacts(view, id);
    if (!facts || facts->urgency != chairside::Urgency::urgent) continue;
    const auto* child = view.child(id);
    const auto card = cards.find(id);
    UrgentForm form{.child = id,
                    .number = child ? child->number : "",
                    .legalName = view.shown(id),
                    .nameUsed = card == cards.end() ? "" : card->second.nameUsed,
                    .room = child ? child->room : "",
                    .frame = frame,
                    .finding = plainWords(facts->reason),
                    .dentistBy = *facts->dentistBy,
                    .people = {},
                    .attempts = {}};
    if (facts->decay) form.finding += "; a tooth that may have a cavity";
    if (const auto at = people.find(id); at != people.end()) form.people = at->second;
    addAttempts(view, form);
    forms.push_back(std::move(form));
  }
  return forms;
}

std::string toHtmlBody(const UrgentForm& form) {
  const auto line = [](const std::string& what, const std::string& value) {
    return "<p>" + what + ": <b>" + escaped(value) + "</b></p>\n";
  };
  std::string html = "<h1>URGENT: see a dentist within 48 hours</h1>\n";
  html +=
      line("Child", form.legalName + (form.nameUsed.empty() ? "" : ", called " + form.nameUsed) +
                        ", room " + form.room + ", number " + form.number);
  html += line("School and day", form.frame.school + ", " + form.frame.date.weekday() + ", " +
                                     form.frame.date.words());
  html += line("What was seen", form.finding);
  html += line("To be seen by", form.dentistBy.weekday() + ", " + form.dentistBy.words());
  html += line("From", form.frame.program + ", " + form.frame.phone);
  html += "<p>This was a check at school, not a dental exam. Trouble breathing, or swelling of the "
          "face that spreads: call 911 first, then the family.</p>\n";
  html += peopleHtml(form);
  html += line("A guardian was reached", form.reached ? "yes" : "NOT YET");
  html += attemptsHtml(form);
  if (!form.reached)
    html += "<p>No one reached: call the next person, then again at the end of the day "
            "and the next morning. This child stays on the list of the coordinator until "
            "a guardian has been reached.</p>\n";
  html += line("The school nurse was told", form.nurseTold ? "yes" : "not recorded yet");
  html += "<p>&nbsp;<br>Taken by (name, time): _______________________ &nbsp; From: "
          "____________________</p>\n"
          "<p>One sheet for one child: do not leave it lying. Write down calls and answers only; "
          "anything else is reported in person.</p>\n";
  return html;
}

std::string toHtml(const UrgentForm& form) {
  return "<!DOCTYPE html>\n<html><head><meta charset=\"utf-8\"><title>Urgent: " +
         escaped(form.number) +
         "</title>\n<style>body { max-width: 46em; margin: 2em auto; font: 12pt sans-serif; "
         "color: #111; }\ntable { border-collapse: collapse; } th { text-align: left; }</style>"
         "</head>\n<body>\n" +
         toHtmlBody(form) + "</body></html>\n";
}

} // namespace gk::reports
