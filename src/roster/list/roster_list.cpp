#include "roster/list/roster_list.h"

#include "base/text/text.h"
#include "roster/list/display_names.h"
#include "roster/list/roster_cells.h"

#include <algorithm>
#include <map>

namespace gk::roster {

using base::CsvRow;
using base::Date;

namespace {

constexpr std::string_view dateHint = "not a day that exists; write it like 2019-03-04";
constexpr std::size_t examplesShown = 5;
/// What exchange::decodeList puts for a sign that cannot be read.
constexpr std::string_view unreadSign = "\xEF\xBF\xBD";

Relation relationOf(std::string_view text) {
  const auto word = base::folded(text);
  if (word.empty() || word == "mother" || word == "father") return Relation::parent;
  return base::fromName<Relation>(word).value_or(Relation::other);
}

/// The cells of one row by what they are; a column that is not there reads as blank.
class Cells {
 public:
  Cells(const CsvRow& row, const RosterLayout& layout, DateOrder order, Date today)
      : row_(row), layout_(layout), order_(order), today_(today) {}

  [[nodiscard]] std::string text(RosterColumn column) const {
    const auto at = std::ranges::find(layout_.columns, column) - layout_.columns.begin();
    const auto place = static_cast<std::size_t>(at);
    if (place >= layout_.columns.size() || place >= row_.cells.size()) return {};
    return std::string(base::trim(row_.cells[place]));
  }

  std::optional<Date> date(RosterColumn column) {
    const auto cell = text(column);
    if (cell.empty()) return std::nullopt;
    const auto read = readDates(cell, today_);
    if (const auto date = read.as(order_)) return date;
    if (read.areTwo())
      problem(column, "can be read month first or day first; say which", true);
    else if (read.monthFirst || read.dayFirst)
      problem(column, "no such day with the order of the other dates", true);
    else
      problem(column, dateHint, true);
    return std::nullopt;
  }

  template <class E>
  E word(RosterColumn column, E whenBlank) {
    const auto cell = base::folded(text(column));
    if (cell.empty()) return whenBlank;
    if (const auto value = base::fromName<E>(cell)) return *value;
    problem(column, "not one of: " + words<E>());
    return whenBlank;
  }

  ServiceSet services() {
    if (base::folded(text(RosterColumn::services)) == "all") return ServiceSet::all();
    return several<Service>(RosterColumn::services, "not all, and a word is not");
  }

  /// Words between semicolons; `instead` begins what is said when one is none of E.
  template <class E>
  base::EnumSet<E> several(RosterColumn column, std::string_view instead) {
    base::EnumSet<E> set;
    const auto cell = base::folded(text(column));
    for (auto part : base::split(cell, ';')) {
      part = base::trim(part);
      if (part.empty()) continue;
      if (const auto value = base::fromName<E>(part))
        set.add(*value);
      else
        problem(column,
                std::string(instead) + " one of these, with semicolons between: " + words<E>());
    }
    return set;
  }

  void problem(RosterColumn column, std::string_view what, bool isDate = false) {
    problem(std::string(base::displayName(column)), what, isDate);
  }
  void problem(const std::string& where, std::string_view what, bool isDate = false) {
    problems_.push_back({where, std::string(what), isDate});
  }

  [[nodiscard]] std::vector<RowProblem>& problems() { return problems_; }

 private:
  template <class E>
  static std::string words() {
    return base::join({base::enumNames<E>.begin(), base::enumNames<E>.end()}, ", ");
  }

  const CsvRow& row_;
  const RosterLayout& layout_;
  DateOrder order_;
  Date today_;
  std::vector<RowProblem> problems_{};
};

/// With a dash it carries its check digit; bare digits are given one.
std::string numberOf(Cells& cells) {
  const auto cell = cells.text(RosterColumn::number);
  if (cell.empty()) return {};
  if (cell.size() < 19 && cell.find_first_not_of("0123456789") == std::string::npos)
    return withCheckDigit(cell);
  if (auto number = parseChildNumber(cell)) return *number;
  cells.problem(RosterColumn::number,
                "not digits, nor digits, a dash and the right check digit, like 1043-0");
  return {};
}

std::string gradeOf(Cells& cells, EarlyGrades early) {
  const auto read = readGrade(cells.text(RosterColumn::grade));
  if (read && !read->isEarly) return read->grade;
  if (read && early == EarlyGrades::kindergarten) return "K";
  cells.problem(RosterColumn::grade,
                read ? "before kindergarten, and the logbook has K to 12; say what these count as"
                     : "write K or 1 to 12");
  return {};
}

RosterConsent consentOf(Cells& cells) {
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

NameParts nameOf(Cells& cells, const RosterLayout& layout) {
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

std::vector<RosterAlert> alertsOf(Cells& cells) {
  std::vector<RosterAlert> alerts;
  for (const auto column : {RosterColumn::allergies, RosterColumn::health}) {
    auto text = cells.text(column);
    if (const auto read = readHealth(text)) {
      const bool isThere = std::ranges::any_of(alerts, [&](const auto& one) {
        return one.kind == read->kind && base::folded(one.detail) == base::folded(text);
      });
      if (!isThere) alerts.push_back({read->kind, read->action, std::move(text)});
    }
  }
  return alerts;
}

dentition::Sex sexOf(Cells& cells) {
  if (const auto sex = readSex(cells.text(RosterColumn::sex))) return *sex;
  cells.problem(RosterColumn::sex, "not one of: female, male, other, not stated");
  return dentition::Sex::notStated;
}

std::optional<RosterLine> readLine(Cells& cells, const RosterLayout& layout, const CsvRow& row,
                                   Date today) {
  using Is = RosterColumn;
  auto name = nameOf(cells, layout);
  const auto birth = cells.date(Is::birthDate);
  if (cells.text(Is::birthDate).empty()) cells.problem(Is::birthDate, "is blank", true);
  auto grade = gradeOf(cells, layout.early);
  const auto verdict =
      birth ? judgeBirthDate(*birth, grade.empty() ? "1" : grade, today) : BirthVerdict::fine;
  if (verdict == BirthVerdict::impossible)
    cells.problem(Is::birthDate, "makes an age outside 3 to 19; look at the year", true);
  auto number = numberOf(cells);
  auto form = consentOf(cells);
  const auto sex = sexOf(cells);
  const auto groups = cells.several<Ethnicity>(Is::ethnicity, "a word is not");
  const auto payer = cells.word(Is::payer, Payer::unknown);
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
      .studentId = cells.text(Is::studentId),
      .first = std::move(name.first),
      .middle = std::move(name.middle),
      .last = std::move(name.last),
      .nameUsed = cells.text(Is::nameUsed),
      .birth = *birth,
      .birthVerdict = verdict,
      .grade = std::move(grade),
      .room = cells.text(Is::room),
      .teacher = cells.text(Is::teacher),
      .sex = sex,
      .guardian = {cells.text(Is::guardian), cells.text(Is::relation), cells.text(Is::phone)},
      .secondGuardian = {cells.text(Is::secondGuardian), cells.text(Is::secondRelation),
                         cells.text(Is::secondPhone)},
      .signer = relationOf(cells.text(Is::relation)),
      .language = cells.text(Is::language),
      .consent = form,
      .groups = groups,
      .payer = payer,
      .alerts = alertsOf(cells)};
}

/// Why a row is no child; empty where it is to be read as one.
class Skips {
 public:
  Skips(std::span<const CsvRow> rows, const RosterLayout& layout, Date today)
      : layout_(layout), today_(today) {
    if (!layout.heading) return;
    for (const auto& cell : rows[*layout.heading].cells)
      headings_.push_back(base::folded(cell));
  }

  std::string why(std::size_t at, const CsvRow& row, Cells& cells) {
    if (layout_.heading && at < *layout_.heading) return "above the headings";
    if (areHeadings(row)) return "the headings again";
    // A child has a birth date or a grade that can be read; one with neither is held, unless it
    // says what it is.
    const bool isBare = readDates(cells.text(RosterColumn::birthDate), today_).isNone() &&
                        !readGrade(cells.text(RosterColumn::grade));
    const auto isFilled = [](const auto& cell) { return !cell.empty(); };
    const auto filled = std::ranges::count_if(row.cells, isFilled);
    if (isBare && std::ranges::any_of(row.cells, isFooterWord)) return "a total or a footer";
    if (isBare && filled == 1) {
      const auto& only = *std::ranges::find_if(row.cells, isFilled);
      if (isGroupWord(only)) return "the name of a group";
      if (!isNameOf(row)) return "one cell alone, and no name";
    }
    if (isBare && filled == 2 && std::ranges::any_of(row.cells, isGroupWord))
      return "the name of a group";
    if (layout_.early == EarlyGrades::leaveOut)
      if (const auto read = readGrade(cells.text(RosterColumn::grade)); read && read->isEarly)
        return "before kindergarten, left out as said";
    return twice(row);
  }

 private:
  [[nodiscard]] bool areHeadings(const CsvRow& row) const {
    if (!layout_.heading) return false;
    std::size_t filled = 0;
    std::size_t same = 0;
    for (std::size_t i = 0; i < headings_.size(); ++i) {
      if (headings_[i].empty()) continue;
      ++filled;
      if (i < row.cells.size() && base::folded(row.cells[i]) == headings_[i]) ++same;
    }
    return filled > 0 && 3 * same >= 2 * filled;
  }

  /// Whether the one filled cell stands where a name does.
  [[nodiscard]] bool isNameOf(const CsvRow& row) const {
    using enum RosterColumn;
    for (std::size_t i = 0; i < row.cells.size() && i < layout_.columns.size(); ++i)
      if (!row.cells[i].empty())
        return layout_.columns[i] == wholeName || layout_.columns[i] == first ||
               layout_.columns[i] == last;
    return false;
  }

  /// A row that is word for word an earlier one, as where a page was printed twice.
  std::string twice(const CsvRow& row) {
    std::string all;
    for (const auto& cell : row.cells)
      all += cell + '\x1F';
    const auto [first, isNew] = seen_.emplace(std::move(all), row.line);
    return isNew ? std::string() : "the same as line " + std::to_string(first->second);
  }

  const RosterLayout& layout_;
  Date today_;
  std::vector<std::string> headings_{};
  std::map<std::string, std::size_t> seen_{};
};

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

} // namespace

RosterReading readRoster(std::span<const CsvRow> rows, const RosterLayout& layout, Date today) {
  RosterReading reading;
  const Dates dates(rows, layout, today);
  reading.dates = layout.dates != DateOrder::unsaid ? layout.dates : dates.proven();
  if (reading.dates == DateOrder::unsaid) reading.question = dates.question();
  Skips skips(rows, layout, today);
  std::map<std::string, std::size_t> numbers;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto& row = rows[i];
    if (layout.heading && i == *layout.heading) continue;
    Cells cells(row, layout, reading.dates, today);
    if (auto why = skips.why(i, row, cells); !why.empty()) {
      reading.skipped.push_back({row.line, std::move(why)});
      continue;
    }
    auto line = readLine(cells, layout, row, today);
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
  return reading;
}

} // namespace gk::roster
