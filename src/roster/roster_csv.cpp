#include "roster/roster_csv.h"

#include "base/csv.h"
#include "base/text.h"

#include <algorithm>
#include <map>

namespace gk::roster {

using base::Date;
using base::Error;
using base::ErrorCode;

namespace {

constexpr std::array<std::string_view, 22> knownColumns{
    "number",   "first",    "middle",    "last",      "name_used",   "birth_date",
    "grade",    "room",     "teacher",   "sex",       "guardian",    "relation",
    "phone",    "language", "consent",   "signed_on", "received_on", "valid_until",
    "services", "history",  "ethnicity", "payer"};

constexpr std::size_t mostChildren = 20000;

constexpr std::string_view dateHint = "write a day that exists as year-month-day, like 2019-03-04";

/// Trouble gathered over the whole file, so that it is mended in one go.
class Problems {
 public:
  void add(std::size_t line, std::string_view column, std::string_view what,
           ErrorCode code = ErrorCode::csvMalformed) {
    onlyDates_ = onlyDates_ && code == ErrorCode::dateMalformed;
    if (++count_ <= shown)
      text_.push_back("line " + std::to_string(line) + ", " + std::string(column) + ": " +
                      std::string(what));
  }

  [[nodiscard]] bool isEmpty() const { return count_ == 0; }

  [[nodiscard]] Error error() const {
    const auto head = std::to_string(count_) + (count_ == 1 ? " problem" : " problems") +
                      " in the roster, nothing was read: ";
    const auto rest = count_ > shown ? "; and " + std::to_string(count_ - shown) + " more" : "";
    return {onlyDates_ ? ErrorCode::dateMalformed : ErrorCode::csvMalformed,
            head + base::join(text_, "; ") + rest};
  }

 private:
  static constexpr std::size_t shown = 5;
  std::size_t count_ = 0;
  bool onlyDates_ = true;
  std::vector<std::string> text_;
};

using Columns = std::map<std::string_view, std::size_t>;

Columns readHeader(const std::vector<std::string>& header, Problems& problems) {
  Columns columns;
  for (std::size_t i = 0; i < header.size(); ++i) {
    auto name = base::folded(header[i]);
    std::ranges::replace(name, ' ', '_');
    const auto* known = std::ranges::find(knownColumns, name);
    const auto where = "column " + std::to_string(i + 1);
    // The name is not repeated: without a header row it would be a child's.
    if (known == knownColumns.end())
      problems.add(1, where, "not a roster column; see docs/data-dictionary.md, or remove it");
    else if (!columns.emplace(*known, i).second)
      problems.add(1, where, "a second column " + std::string(*known));
  }
  if (!columns.contains("first") && !columns.contains("last"))
    problems.add(1, "header", "no column first or last");
  for (std::string_view needed : {"birth_date", "grade"})
    if (!columns.contains(needed)) problems.add(1, "header", "no column " + std::string(needed));
  return columns;
}

Relation relationOf(std::string_view text) {
  const auto word = base::folded(text);
  if (word.empty() || word == "mother" || word == "father") return Relation::parent;
  return base::fromName<Relation>(word).value_or(Relation::other);
}

/// The cells of one row by column name; a column that is not there reads as blank.
class Cells {
 public:
  Cells(const Columns& columns, const base::CsvRow& row, Problems& problems)
      : columns_(columns), row_(row), problems_(problems) {}

  [[nodiscard]] std::string text(std::string_view column) const {
    const auto found = columns_.find(column);
    return found == columns_.end() ? "" : std::string(base::trim(row_.cells.at(found->second)));
  }

  [[nodiscard]] std::optional<Date> date(std::string_view column) const {
    const auto cell = text(column);
    if (cell.empty()) return std::nullopt;
    if (const auto date = Date::parse(cell)) return *date;
    problem(column, dateHint, ErrorCode::dateMalformed);
    return std::nullopt;
  }

  template <class E>
  [[nodiscard]] E word(std::string_view column, E whenBlank) const {
    const auto cell = base::folded(text(column));
    if (cell.empty()) return whenBlank;
    if (const auto value = base::fromName<E>(cell)) return *value;
    problem(column, "not one of: " + words<E>());
    return whenBlank;
  }

  [[nodiscard]] ServiceSet services() const {
    if (base::folded(text("services")) == "all") return ServiceSet::all();
    return several<Service>("services", "not all, and a word is not");
  }

  /// Words between semicolons; `instead` begins what is said when one is none of E.
  template <class E>
  [[nodiscard]] base::EnumSet<E> several(std::string_view column, std::string_view instead) const {
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

  void problem(std::string_view column, std::string_view what,
               ErrorCode code = ErrorCode::csvMalformed) const {
    problems_.add(row_.line, column, what, code);
  }

 private:
  template <class E>
  static std::string words() {
    return base::join({base::enumNames<E>.begin(), base::enumNames<E>.end()}, ", ");
  }

  const Columns& columns_;
  const base::CsvRow& row_;
  Problems& problems_;
};

/// With a dash it carries its check digit; bare digits are given one.
std::string numberOf(const Cells& cells) {
  const auto cell = cells.text("number");
  if (cell.empty()) return {};
  if (cell.find_first_not_of("0123456789") == std::string::npos) return withCheckDigit(cell);
  if (auto number = parseChildNumber(cell)) return *number;
  cells.problem("number", "not digits, nor digits, a dash and the right check digit, like 1043-0");
  return {};
}

std::string gradeOf(const Cells& cells) {
  if (auto grade = parseGrade(cells.text("grade"))) return *grade;
  cells.problem("grade", "write K or 1 to 12");
  return {};
}

RosterConsent consentOf(const Cells& cells) {
  RosterConsent consent;
  consent.state = cells.word("consent", ConsentState::notReturned);
  consent.services = cells.services();
  consent.signedOn = cells.date("signed_on");
  consent.receivedOn = cells.date("received_on");
  consent.validUntil = cells.date("valid_until");
  consent.history = cells.word("history", HistoryAnswered::no);
  if (!cells.text("consent").empty()) return consent;
  for (auto column : {"signed_on", "received_on", "valid_until", "services", "history"})
    if (!cells.text(column).empty()) {
      cells.problem("consent", "blank means not returned, yet " + std::string(column) +
                                   " is filled; write the state of the form");
      break;
    }
  return consent;
}

std::optional<RosterLine> readLine(const Cells& cells, std::size_t line, Date today) {
  const auto birth = cells.date("birth_date");
  if (cells.text("birth_date").empty())
    cells.problem("birth_date", dateHint, ErrorCode::dateMalformed);
  const auto grade = gradeOf(cells);
  const auto verdict = birth ? judgeBirthDate(*birth, grade, today) : BirthVerdict::fine;
  if (verdict == BirthVerdict::impossible)
    cells.problem("birth_date", "makes an age outside 3 to 19; look at the year",
                  ErrorCode::dateMalformed);
  auto number = numberOf(cells);
  auto consent = consentOf(cells);
  const auto sex = cells.word("sex", dentition::Sex::notStated);
  const auto groups = cells.several<Ethnicity>("ethnicity", "a word is not");
  const auto payer = cells.word("payer", Payer::unknown);
  if (cells.text("first").empty() && cells.text("last").empty())
    cells.problem("first", "a child needs a first or a last name");
  if (!birth) return std::nullopt;
  return RosterLine{.line = line,
                    .number = std::move(number),
                    .first = cells.text("first"),
                    .middle = cells.text("middle"),
                    .last = cells.text("last"),
                    .nameUsed = cells.text("name_used"),
                    .birth = *birth,
                    .birthVerdict = verdict,
                    .grade = grade,
                    .room = cells.text("room"),
                    .teacher = cells.text("teacher"),
                    .sex = sex,
                    .guardian = cells.text("guardian"),
                    .relation = cells.text("relation"),
                    .signer = relationOf(cells.text("relation")),
                    .phone = cells.text("phone"),
                    .language = cells.text("language"),
                    .consent = consent,
                    .groups = groups,
                    .payer = payer};
}

} // namespace

base::Result<std::vector<RosterLine>> readRoster(std::string_view csv, Date today) {
  const auto table = base::parseCsv(csv);
  if (!table) return table.error();
  if (table->rows.size() > mostChildren)
    return Error{ErrorCode::csvMalformed,
                 "more than " + std::to_string(mostChildren) +
                     " lines, where a list is of one school; look whether it is the right file"};
  Problems problems;
  const auto columns = readHeader(table->header, problems);
  if (!problems.isEmpty()) return problems.error();
  if (table->rows.empty()) problems.add(1, "header", "no child below it");

  std::vector<RosterLine> lines;
  std::map<std::string, std::size_t> seen;
  for (const auto& row : table->rows) {
    const Cells cells(columns, row, problems);
    auto line = readLine(cells, row.line, today);
    if (!line) continue;
    if (!line->number.empty()) {
      const auto [first, isNew] = seen.emplace(line->number, row.line);
      if (!isNew) cells.problem("number", "the same as on line " + std::to_string(first->second));
    }
    lines.push_back(std::move(*line));
  }
  if (!problems.isEmpty()) return problems.error();
  return lines;
}

} // namespace gk::roster
