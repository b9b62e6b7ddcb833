#include "roster/list/roster_list.h"

#include "roster/list/roster_cells.h"
#include "roster/list/roster_row.h"
#include "roster/list/student_id.h"

#include <algorithm>

namespace gk::roster {

using base::CsvRow;
using base::Date;

namespace {

constexpr std::size_t examplesShown = 5;
/// What exchange::decodeList puts for a sign that cannot be read.
constexpr std::string_view unreadSign = "\xEF\xBF\xBD";

Relation relationOf(std::string_view text) {
  const auto word = base::folded(text);
  if (word.empty() || word == "mother" || word == "father") return Relation::parent;
  return base::fromName<Relation>(word).value_or(Relation::other);
}

/// With a dash it carries its check digit; bare digits are given one.
std::string numberOf(RosterRow& cells) {
  const auto cell = cells.text(RosterColumn::number);
  if (cell.empty()) return {};
  if (cell.size() < 19 && cell.find_first_not_of("0123456789") == std::string::npos)
    return withCheckDigit(cell);
  if (auto number = parseChildNumber(cell)) return *number;
  cells.problem(RosterColumn::number,
                "not digits, nor digits, a dash and the right check digit, like 1043-0");
  return {};
}

std::string gradeOf(RosterRow& cells, const RosterLayout& layout) {
  if (!layout.has(RosterColumn::grade)) return layout.gradeOfAll;
  const auto early = layout.early;
  const auto read = readGrade(cells.text(RosterColumn::grade));
  if (read && !read->isEarly) return read->grade;
  if (read && early == EarlyGrades::kindergarten) return "K";
  cells.problem(RosterColumn::grade,
                read ? "before kindergarten, and the logbook has K to 12; say what these count as"
                     : "write K or 1 to 12");
  return {};
}

RosterConsent consentOf(RosterRow& cells) {
  using enum RosterColumn;
  RosterConsent form;
  form.state = cells.word(consent, ConsentState::notReturned);
  form.services = cells.services();
  form.signedOn = cells.date(signedOn);
  form.receivedOn = cells.date(receivedOn);
  form.validUntil = cells.date(validUntil);
  form.history = cells.word(history, HistoryAnswered::no);
  if (form.signedOn && form.receivedOn && *form.receivedOn < *form.signedOn)
    cells.problem(receivedOn, "before the day it was signed");
  if (form.signedOn && form.validUntil && *form.validUntil < *form.signedOn)
    cells.problem(validUntil, "before the day it was signed");
  if (!cells.text(consent).empty()) return form;
  for (const auto column : {signedOn, receivedOn, validUntil, services, history})
    if (!cells.text(column).empty()) {
      cells.problem(consent, "blank means not returned, yet " +
                                 std::string(base::displayName(column)) +
                                 " is filled; write the state of the form");
      break;
    }
  return form;
}

NameParts nameOf(RosterRow& cells, const RosterLayout& layout) {
  using enum RosterColumn;
  NameParts name;
  if (layout.has(wholeName)) {
    name = splitName(cells.text(wholeName));
    if (const auto more = cells.text(middle); !more.empty()) name.middle = more;
  } else {
    name = {cells.text(first), cells.text(middle), cells.text(last)};
  }
  if (const auto end = cells.text(suffix); !end.empty())
    name.last = name.last.empty() ? end : name.last + " " + end;
  if (name.first.empty() && name.last.empty())
    cells.problem(layout.has(wholeName) ? wholeName
                  : layout.has(first)   ? first
                                        : last,
                  "a student needs a first or a last name");
  return name;
}

/// From its two parts, or from one column: a half says less than the whole.
std::string guardianName(const RosterRow& cells, RosterColumn whole, RosterColumn first,
                         RosterColumn last) {
  const auto given = cells.text(first);
  const auto family = cells.text(last);
  auto all = cells.text(whole);
  if (!all.empty() && (given.empty() || family.empty())) return all;
  return given + (given.empty() || family.empty() ? "" : " ") + family;
}

/// One for each kind, as strict as the strictest cell; what stands in other words is an alert of
/// its own.
std::vector<RosterAlert> alertsOf(const RosterRow& cells) {
  std::vector<RosterAlert> alerts;
  for (const auto column : {RosterColumn::allergies, RosterColumn::health})
    for (const auto& text : cells.texts(column))
      for (const auto& read : readHealth(text)) {
        const auto known = std::ranges::find_if(alerts, [&](const auto& one) {
          const bool isSaid = base::folded(one.detail) == base::folded(text);
          return one.kind == read.kind && (isSaid || read.kind != FlagKind::other);
        });
        if (known == alerts.end()) {
          alerts.push_back({read.kind, read.action, text});
          continue;
        }
        known->action = std::min(known->action, read.action);
        if (base::folded(known->detail) != base::folded(text)) known->detail += "; " + text;
      }
  return alerts;
}

/// Blank where it says no one, or two.
std::string studentIdOf(const RosterRow& cells, const std::set<std::string>& shared,
                        ReadAside& aside) {
  auto id = plainStudentId(cells.text(RosterColumn::studentId));
  if (id.empty()) return id;
  if (isNoStudentId(id)) {
    ++aside.ids;
    return {};
  }
  if (!shared.contains(studentIdKey(id))) return id;
  ++aside.sharedIds;
  return {};
}

void checkEnrolled(RosterRow& cells) {
  if (isGone(cells.text(RosterColumn::status)))
    cells.problem(
        RosterColumn::status,
        "the list says that the student is no longer enrolled; ask the school, then clear "
        "this cell or record that the student left");
}

dentition::Sex sexOf(RosterRow& cells) {
  if (const auto sex = readSex(cells.text(RosterColumn::sex))) return *sex;
  cells.problem(RosterColumn::sex, "not one of: female, male, other, not stated");
  return dentition::Sex::notStated;
}

std::optional<RosterLine> readLine(RosterRow& cells, const RosterLayout& layout, const CsvRow& row,
                                   Date today, const std::set<std::string>& sharedIds,
                                   ReadAside& aside) {
  using Is = RosterColumn;
  auto name = nameOf(cells, layout);
  const auto birth = cells.date(Is::birthDate);
  if (cells.text(Is::birthDate).empty()) cells.problem(Is::birthDate, "is blank", true);
  auto grade = gradeOf(cells, layout);
  const auto verdict =
      birth ? judgeBirthDate(*birth, grade.empty() ? "1" : grade, today) : BirthVerdict::fine;
  if (verdict == BirthVerdict::impossible)
    cells.problem(Is::birthDate, "makes an age outside 3 to 19; look at the year", true);
  auto number = numberOf(cells);
  auto form = consentOf(cells);
  const auto sex = sexOf(cells);
  const auto groups = cells.groups(aside.groups);
  const auto payer = cells.payer(aside.payers);
  auto studentId = studentIdOf(cells, sharedIds, aside);
  checkEnrolled(cells);
  if (row.cells.size() > layout.columns.size() &&
      std::any_of(row.cells.begin() + std::ssize(layout.columns), row.cells.end(),
                  [](const auto& cell) { return !cell.empty(); }))
    cells.problem("row", "more cells than there are headings; a cell has a separator in it");
  if (std::ranges::any_of(row.cells,
                          [](const auto& cell) { return cell.find(unreadSign) != cell.npos; }))
    cells.problem("row", "a character could not be read; type that cell again");
  if (std::ranges::any_of(row.cells, [](const auto& cell) {
        return cell.starts_with('"') && std::ranges::count(cell, '"') % 2 != 0;
      }))
    cells.problem("row", "a quotation mark is never closed; look where the cell ends");
  if (!cells.problems().empty() || !birth) return std::nullopt;
  return RosterLine{
      .line = row.line,
      .number = std::move(number),
      .studentId = std::move(studentId),
      .first = std::move(name.first),
      .middle = std::move(name.middle),
      .last = std::move(name.last),
      .nameUsed = cells.text(Is::nameUsed),
      .birth = *birth,
      .birthVerdict = verdict,
      .grade = std::move(grade),
      .room = layout.has(Is::room) ? cells.text(Is::room) : layout.roomOfAll,
      .teacher = cells.text(Is::teacher),
      .sex = sex,
      .guardian = {guardianName(cells, Is::guardian, Is::guardianFirst, Is::guardianLast),
                   cells.text(Is::relation), cells.text(Is::phone)},
      .secondGuardian = {guardianName(cells, Is::secondGuardian, Is::secondGuardianFirst,
                                      Is::secondGuardianLast),
                         cells.text(Is::secondRelation), cells.text(Is::secondPhone)},
      .signer = relationOf(cells.text(Is::relation)),
      .language = readLanguage(cells.text(Is::language)),
      .consent = form,
      .groups = groups,
      .payer = payer,
      .alerts = alertsOf(cells)};
}

/// What the dates of all rows together say of their order.
class Dates {
 public:
  Dates(std::span<const CsvRow> rows, const RosterLayout& layout, Date today) {
    using enum RosterColumn;
    for (std::size_t row = layout.heading ? *layout.heading + 1 : 0; row < rows.size(); ++row)
      for (std::size_t i = 0; i < rows[row].cells.size() && i < layout.columns.size(); ++i) {
        const auto column = layout.columns[i];
        if (column == birthDate || column == signedOn || column == receivedOn ||
            column == validUntil)
          take(readDates(rows[row].cells[i], today), row, i);
      }
  }

  /// Of no proof, or of two that disagree: unsaid.
  [[nodiscard]] DateOrder proven() const {
    if (monthFirst_ > 0 && dayFirst_ == 0) return DateOrder::monthFirst;
    if (dayFirst_ > 0 && monthFirst_ == 0) return DateOrder::dayFirst;
    return DateOrder::unsaid;
  }
  [[nodiscard]] std::optional<DateQuestion> question() const {
    if (both_ == 0) return std::nullopt;
    return DateQuestion{examples_, both_};
  }

 private:
  void take(const CellDates& dates, std::size_t row, std::size_t column) {
    if (dates.plain) return;
    if (dates.areTwo()) {
      ++both_;
      if (examples_.size() < examplesShown) examples_.emplace_back(row, column);
    } else if (dates.monthFirst && !dates.dayFirst) {
      ++monthFirst_;
    } else if (dates.dayFirst && !dates.monthFirst) {
      ++dayFirst_;
    }
  }

  std::size_t monthFirst_ = 0;
  std::size_t dayFirst_ = 0;
  std::size_t both_ = 0;
  std::vector<std::pair<std::size_t, std::size_t>> examples_{};
};

/// What a person should know of cells that were not read as they are written.
std::vector<std::string> notesOf(const ReadAside& aside) {
  std::vector<std::string> notes;
  if (aside.ids > 0)
    notes.push_back(base::counted(aside.ids, "student ID", "student IDs") +
                    " read as blank: no ID, such as #N/A, 0 or 1.00235E+09.");
  if (aside.sharedIds > 0)
    notes.push_back(base::counted(aside.sharedIds, "student ID", "student IDs") +
                    " read as blank: the same ID is at another student of the list.");
  if (aside.groups > 0)
    notes.push_back("Race and ethnicity not read in " + base::counted(aside.groups, "row", "rows") +
                    ": not stated.");
  if (aside.payers > 0)
    notes.push_back("Insurance not read in " + base::counted(aside.payers, "row", "rows") +
                    ": not known.");
  return notes;
}

} // namespace

RosterReading readRoster(std::span<const CsvRow> rows, const RosterLayout& layout, Date today) {
  RosterReading reading;
  const Dates dates(rows, layout, today);
  reading.dates = layout.dates != DateOrder::unsaid ? layout.dates : dates.proven();
  if (reading.dates == DateOrder::unsaid) reading.question = dates.question();
  RosterSkips skips(rows, layout, today);
  std::vector<std::size_t> children;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (layout.heading && i == *layout.heading) continue;
    const RosterRow cells(rows[i], layout, reading.dates, today);
    if (auto why = skips.why(i, rows[i], cells); !why.empty())
      reading.skipped.push_back({rows[i].line, std::move(why)});
    else
      children.push_back(i);
  }
  const auto sharedIds = sharedStudentIds(rows, children, layout, today);
  ReadAside aside;
  std::map<std::string, std::size_t> numbers;
  for (const auto i : children) {
    const auto& row = rows[i];
    RosterRow cells(row, layout, reading.dates, today);
    auto line = readLine(cells, layout, row, today, sharedIds, aside);
    if (line) line->row = i;
    if (line && !line->number.empty()) {
      const auto [first, isNew] = numbers.emplace(line->number, row.line);
      if (!isNew)
        cells.problem(RosterColumn::number, "the same as on line " + std::to_string(first->second));
    }
    if (!cells.problems().empty())
      reading.held.push_back({row.line, i, std::move(cells.problems())});
    else
      reading.lines.push_back(std::move(*line));
  }
  reading.notes = notesOf(aside);
  if (!layout.has(RosterColumn::room)) reading.onlyRoom = layout.roomOfAll;
  return reading;
}

} // namespace gk::roster
