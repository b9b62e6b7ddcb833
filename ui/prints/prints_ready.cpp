#include "base/text/text.h"
#include "reports/display_names.h"
#include "roster/list/roster_cells.h"
#include "session/letters/letter_files.h"
#include "session/letters/letters.h"
#include "ui/files/save_report.h"
#include "ui/prints/prints_page.h"
#include "ui/support/text.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>

#include <algorithm>
#include <map>

// What is printed, made ready: after this nothing asks the logbook any more.
namespace gk::ui {

namespace {

/// The last step of who is listed, in the order of the choice on the page.
enum class Whom { all, withoutForm, mayBeSeen };

bool isWanted(const session::FormLine& line, Whom whom) {
  switch (whom) {
  case Whom::all:
    return true;
  case Whom::withoutForm:
    return roster::isToChase(line.of.state);
  case Whom::mayBeSeen:
    return line.of.state == roster::ConsentState::yes ||
           line.of.state == roster::ConsentState::yesWithLimits;
  }
  return false;
}

const reports::ConsentTemplate* templateIn(const std::vector<reports::ConsentTemplate>& all,
                                           const std::string& language) {
  const auto at = std::ranges::find_if(all, [&](const reports::ConsentTemplate& one) {
    return base::folded(one.language()) == base::folded(language);
  });
  return at == all.end() ? nullptr : &*at;
}

/// The form in a family's language, found as its letters are; none where there is no such form.
const reports::ConsentTemplate* formFor(const std::vector<reports::ConsentTemplate>& all,
                                        const reports::LetterTemplates* letters,
                                        const std::string& language) {
  const auto said = roster::readLanguage(language);
  if (const auto* own = templateIn(all, said)) return own;
  const auto* letter = letters ? letters->find(said) : nullptr;
  return letter ? templateIn(all, letter->header().language) : nullptr;
}

/// Many lists say no room.
QString roomAndGrade(const session::FormLine& line) {
  const auto room = line.of.room.empty() ? QString() : u"room %1, "_s.arg(toQt(line.of.room));
  return room + u"grade "_s + toQt(line.grade);
}

} // namespace

std::optional<std::vector<session::FormLine>> PrintsPage::lines() {
  const auto terms = book().terms();
  if (!went(terms)) return std::nullopt;
  const auto on = printedFor();
  if (!on) return std::nullopt;
  auto term = std::ranges::find_if(
      *terms, [&](const auto& one) { return one.value.start <= *on && *on <= one.value.end; });
  if (term == terms->end() && !terms->empty()) term = terms->end() - 1;
  if (term == terms->end()) {
    words_->setText(u"No term yet. Enter it first: Desk (F8), Terms."_s);
    return std::nullopt;
  }
  if (!book().isUnlocked()) {
    words_->setText(u"The names are locked: unlock the logbook to print."_s);
    return std::nullopt;
  }
  auto all = book().formLines(term->id, *on, school(), true);
  if (!went(all)) return std::nullopt;
  const auto room = base::folded(toStd(room_->text().trimmed()));
  const auto whom = what() == What::day || what() == What::sheets
                        ? Whom::mayBeSeen
                        : static_cast<Whom>(who_->currentIndex());
  std::erase_if(*all, [&](const session::FormLine& line) {
    return !isWanted(line, whom) || !isTyped(line) ||
           (!room.empty() && base::folded(line.of.room) != room);
  });
  return std::move(*all);
}

bool PrintsPage::isTyped(const session::FormLine& line) const {
  const auto typed = toStd(student_->text().trimmed());
  const auto of = what();
  if (typed.empty() || (of != What::forms && of != What::labels && of != What::sheets)) return true;
  if (line.number == typed || line.number.starts_with(typed + "-")) return true;
  const auto name = base::folded(line.name);
  const auto words = base::folded(typed);
  return std::ranges::all_of(base::split(words, ' '),
                             [&](auto word) { return name.find(word) != std::string::npos; });
}

std::optional<PrintsPage::Ready> PrintsPage::consentForms() {
  const auto all = session::consentTemplates(book().path());
  const auto program = book().program();
  if (!went(all) || !went(program)) return std::nullopt;
  const auto chosen = language_->currentIndex(); // 0: each in the language of its letters
  // A letter's template that cannot be read keeps no form from being printed.
  const auto read = session::letterTemplates(book().path());
  const auto* letters = read ? &*read : nullptr;
  std::vector<reports::ConsentSheet> sheets;
  qsizetype without = 0; // of a language that has no form
  const auto add = [&](const std::string& language, const reports::FormChild& child) {
    const auto* form = language.empty() ? nullptr : formFor(*all, letters, language);
    if (!form) {
      if (!language.empty()) ++without;
      form = templateIn(*all, "English");
    }
    if (form) sheets.push_back(form->fill(program->value.name, program->value.phone, child));
  };
  if (what() == What::blankForms) {
    const auto copies = base::parseInt(toStd(copies_->text().trimmed())).value_or(1);
    const auto of = school();
    for (std::int64_t i = 0; i < std::clamp<std::int64_t>(copies, 1, 500); ++i)
      add(toStd(chosen == 2 ? u"Spanish"_s : u"English"_s),
          {.school = of ? schoolName(*of) : std::string()});
  } else {
    const auto children = lines();
    if (!children) return std::nullopt;
    for (const auto& line : *children)
      add(chosen == 0   ? line.language
          : chosen == 2 ? "Spanish"
                        : "English",
          {line.number, line.name, schoolName(line.of.school), line.grade, line.of.room});
  }
  Ready ready;
  ready.pages = static_cast<int>(sheets.size());
  ready.forms = ready.pages;
  ready.words = counted(ready.pages, "consent form", "consent forms") + u", one sheet each"_s;
  if (without > 0)
    ready.words += u". ▲ %1 in English: no form in the family's language"_s.arg(
        counted(without, "prints", "print"));
  if (std::ranges::any_of(sheets, [](const auto& one) { return !one.draftMark.empty(); }))
    ready.words += u". ▲ Marked DRAFT: no one has approved this wording yet (Desk, Letters and "
                   "forms)"_s;
  const auto paper = context().acting.habits().paper;
  if (std::ranges::any_of(sheets, [&](const auto& one) {
        return consentFormLetters(one, paper) < leastFormLetters;
      }))
    ready.words += u". ▲ The wording is too long for one sheet at letters that can be read"_s;
  ready.name = what() == What::blankForms ? u"Blank consent forms"_s : u"Consent forms"_s;
  ready.paint = [sheets = std::move(sheets), paper](QPainter& painter, int page) {
    paintConsentForm(painter, sheets[static_cast<std::size_t>(page)], paper);
  };
  return ready;
}

std::optional<PrintsPage::Ready> PrintsPage::labels() {
  const auto children = lines();
  if (!children) return std::nullopt;
  LabelRun run{
      &reports::labelSheets.at(static_cast<std::size_t>(std::max(labelSheet_->currentIndex(), 0)))};
  run.cut = run.sheet->name.starts_with("Slips");
  const auto text = firstLabel_->text().trimmed();
  const auto first = base::parseInt(text.isEmpty() ? "1" : toStd(text));
  if (!first || *first < 1 || *first > run.sheet->count()) {
    words_->setText(u"This sheet has labels 1 to %1, counted along each row from the top left. "
                    "Type the first free one."_s.arg(run.sheet->count()));
    return std::nullopt;
  }
  run.used = static_cast<int>(*first) - 1;
  for (const auto& line : *children)
    run.labels.push_back({toQt(line.name), capital(roomAndGrade(line)),
                          toQt(schoolName(line.of.school)), line.number});
  Ready ready;
  ready.pages = run.pages();
  ready.words =
      counted(std::ssize(run.labels), "label or slip", "labels or slips") + u" on "_s +
      counted(ready.pages, "sheet", "sheets") +
      (run.used > 0 ? u". The first is printed on label %1: feed the part-used sheet first"_s.arg(
                          run.used + 1)
                    : u". Print one sheet on plain paper first and hold it against the "
                      "labels"_s);
  ready.name = u"Labels"_s;
  if (run.used > 0) ready.marks = [run](QPainter& painter) { paintUsedPlaces(painter, run); };
  ready.paint = [run = std::move(run)](QPainter& painter, int page) {
    paintLabels(painter, run, page);
  };
  return ready;
}

std::optional<PrintsPage::Ready> PrintsPage::roomLists() {
  const auto children = lines();
  if (!children) return std::nullopt;
  using Place = decltype(base::numberedPlace({}));
  std::map<std::pair<std::string, Place>, reports::Table> rooms;
  for (const auto& line : *children) {
    const auto school = schoolName(line.of.school);
    auto& table = rooms[std::pair(school, base::numberedPlace(line.of.room))];
    if (table.columns.empty()) {
      table.title = school + ", room " + (line.of.room.empty() ? "not said" : line.of.room);
      table.columns = {{"Number"}, {"Student"}, {"Grade"}, {"Form"}};
    }
    table.rows.push_back(
        {line.number, line.name, line.grade, std::string(base::displayName(line.of.state))});
  }
  Ready ready;
  ready.name = u"Room lists"_s;
  std::vector<reports::Table> tables;
  for (auto& [where, table] : rooms) {
    table.notes = {"Names students: keep it locked up, and shred it after use."};
    tables.push_back(std::move(table));
  }
  if (!tables.empty())
    ready.report =
        std::make_shared<ReportSheets>("Room lists", tables, footOf(context(), u"Room lists"_s));
  ready.pages = ready.report ? ready.report->count() : 0;
  ready.words = counted(std::ssize(tables), "room", "rooms") + u", "_s +
                counted(std::ssize(*children), "student", "students");
  return ready;
}

std::optional<PrintsPage::Ready> PrintsPage::dayList() {
  const auto children = lines();
  const auto on = printedFor();
  if (!children || !on) return std::nullopt;
  reports::Table table{"Day list: " + on->weekday() + ", " + on->words(),
                       {{.heading = "School", .group = true},
                        {"Room"},
                        {"Number"},
                        {"Student"},
                        {"Grade"},
                        {"Alerts"},
                        {"Seen"}},
                       {},
                       {"Students whose form says yes on that day. Alerts: yes where the logbook "
                        "has an open one; read it on the laptop.",
                        "Names students: count it out and in, and shred it after use."}};
  for (const auto& line : *children) {
    const auto flags = book().flags(line.of.child);
    if (!went(flags)) return std::nullopt;
    const bool hasAlert =
        std::ranges::any_of(*flags, [](const auto& flag) { return !flag.value.resolved; });
    table.rows.push_back({schoolName(line.of.school), line.of.room, line.number, line.name,
                          line.grade, hasAlert ? "yes" : "", "____"});
  }
  Ready ready;
  ready.name = u"Day list"_s;
  if (!table.rows.empty())
    ready.report = std::make_shared<ReportSheets>(table.title, std::vector{table},
                                                  footOf(context(), toQt(on->words())));
  ready.pages = ready.report ? ready.report->count() : 0;
  ready.words = counted(std::ssize(*children), "student", "students") + u" with a yes on "_s +
                toQt(on->words());
  return ready;
}

std::optional<FallbackSheet> PrintsPage::sheetOf(const session::FormLine& line, base::Date on) {
  const auto program = book().program();
  const auto identity = book().identity(line.of.child);
  const auto flags = book().flags(line.of.child);
  const bool isUnread = !identity && identity.error().code == base::ErrorCode::vaultDamaged;
  if (!went(program) || (!isUnread && !went(identity)) || !went(flags)) return std::nullopt;
  FallbackSheet sheet;
  const auto digits = line.number.substr(0, line.number.find('-'));
  sheet.sheet = u"P%1%2-%3"_s.arg(on.month(), 2, 10, QChar(u'0'))
                    .arg(on.day(), 2, 10, QChar(u'0'))
                    .arg(toQt(digits));
  sheet.number = line.number;
  sheet.name = toQt(line.name);
  if (identity) sheet.birth = toQt(identity->birth.words());
  sheet.place = toQt(schoolName(line.of.school)) + u", "_s + roomAndGrade(line);
  sheet.date = toQt(on.words());
  QStringList allowed;
  for (const auto service :
       {roster::Service::screening, roster::Service::sealants, roster::Service::varnish,
        roster::Service::interimMaterial, roster::Service::recheckAndReplace}) {
    const auto standing = book().standing(line.of.child, service, on);
    if (!went(standing)) return std::nullopt;
    allowed += (standing->allows ? u"✔ "_s : u"NOT "_s) + toQt(base::displayName(service));
  }
  sheet.consent = u"Form: "_s + allowed.join(u", "_s);
  for (const auto& flag : *flags)
    if (!flag.value.resolved)
      sheet.alerts += toQt(base::displayName(flag.value.kind)) + u" ("_s +
                      toQt(base::displayName(flag.value.action)) + u") "_s +
                      toQt(flag.value.detail);
  for (const auto& tooth : dentition::permanentMolars())
    sheet.teeth += toQt(tooth.number(program->value.notation)) + u"  "_s + toQt(tooth.words());
  const auto& times = program->value.times;
  sheet.minimums =
      u"etch %1 s, rinse %2 s, cure as the light and the material ask"_s.arg(times.etch.count())
          .arg(times.rinse.count());
  return sheet;
}

std::optional<PrintsPage::Ready> PrintsPage::paperSheets() {
  const auto children = lines();
  const auto on = printedFor();
  if (!children || !on) return std::nullopt;
  std::vector<FallbackSheet> sheets;
  for (const auto& line : *children) {
    auto sheet = sheetOf(line, *on);
    if (!sheet) return std::nullopt;
    sheets.push_back(std::move(*sheet));
  }
  Ready ready;
  ready.pages = static_cast<int>(sheets.size());
  ready.words = counted(ready.pages, "paper sheet", "paper sheets") +
                u", in the order of the chair. Type each at the chair afterwards, then Alt+P on "
                "the day board"_s;
  ready.name = u"Paper sheets"_s;
  const auto paper = context().acting.habits().paper;
  ready.paint = [sheets = std::move(sheets), paper](QPainter& painter, int page) {
    paintFallback(painter, sheets[static_cast<std::size_t>(page)], paper);
  };
  return ready;
}

std::optional<PrintsPage::Ready> PrintsPage::prepare() {
  switch (what()) {
  case What::forms:
  case What::blankForms:
    return consentForms();
  case What::labels:
    return labels();
  case What::rooms:
    return roomLists();
  case What::day:
    return dayList();
  case What::sheets:
    return paperSheets();
  }
  return std::nullopt;
}

} // namespace gk::ui
