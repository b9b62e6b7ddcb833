#include "roster/list/roster_columns.h"

#include "base/text/text.h"
#include "roster/list/display_names.h"
#include "roster/list/roster_cells.h"
#include "roster/list/roster_headings.h"

#include <algorithm>
#include <map>
#include <set>

namespace gk::roster {

namespace {

constexpr std::size_t rowsLooked = 40;       ///< a title is no longer
constexpr std::size_t leastKnown = 2;        ///< headings that make a row of headings
constexpr std::size_t mostRemembered = 8000; ///< bytes; a list has some thirty headings

bool isOfPerson(RosterColumn column) {
  using enum RosterColumn;
  return column == wholeName || column == first || column == last;
}

/// A second column of the same is another guardian's.
RosterColumn secondOf(RosterColumn column) {
  using enum RosterColumn;
  if (column == guardian) return secondGuardian;
  if (column == relation) return secondRelation;
  if (column == phone) return secondPhone;
  if (column == guardianFirst) return secondGuardianFirst;
  if (column == guardianLast) return secondGuardianLast;
  return leftOut;
}

/// Of these every column counts: an allergy that is passed over is worse than one that is asked.
bool mayBeSeveral(RosterColumn column) {
  return column == RosterColumn::leftOut || column == RosterColumn::allergies ||
         column == RosterColumn::health;
}

std::vector<RosterColumn> columnsOf(const base::CsvRow& row,
                                    const std::map<std::string, RosterColumn>& remembered) {
  std::vector<RosterColumn> columns;
  const auto isTaken = [&](RosterColumn column) {
    return std::ranges::find(columns, column) != columns.end();
  };
  for (const auto& cell : row.cells) {
    const auto key = headingKey(cell);
    const auto said = remembered.find(key);
    auto column = said != remembered.end() ? said->second
                                           : columnCalled(cell).value_or(RosterColumn::leftOut);
    if (!mayBeSeveral(column) && isTaken(column)) column = secondOf(column);
    if (!mayBeSeveral(column) && isTaken(column)) column = RosterColumn::leftOut;
    columns.push_back(column);
  }
  // Where the name is in parts, the whole of it says nothing more.
  using enum RosterColumn;
  if (isTaken(first) && isTaken(last)) std::ranges::replace(columns, wholeName, leftOut);
  return columns;
}

/// How many headings of a row are known; 0 where it cannot be the one with the headings.
std::size_t headingsIn(const base::CsvRow& row,
                       const std::map<std::string, RosterColumn>& remembered) {
  std::size_t known = 0;
  std::size_t filled = 0;
  bool tellsOfChild = false;
  for (const auto& cell : row.cells) {
    if (cell.empty()) continue;
    ++filled;
    const auto said = remembered.find(headingKey(cell));
    const auto column = said != remembered.end() ? std::optional(said->second) : columnCalled(cell);
    if (!column) continue;
    ++known;
    if (isOfPerson(*column) || *column == RosterColumn::birthDate || *column == RosterColumn::grade)
      tellsOfChild = true;
  }
  // A child called Grade in room Class is not to be taken for one.
  return tellsOfChild && known >= leastKnown && 2 * known >= filled ? known : 0;
}

bool hasDigit(const std::string& cell) {
  return cell.find_first_of("0123456789") != std::string::npos;
}

/// Whether a row of unknown words is the one with the headings: no digit in it, and one in most
/// rows that follow, where a child has a birth date.
bool looksLikeHeadings(std::span<const base::CsvRow> rows, std::size_t at) {
  constexpr std::size_t followed = 5;
  const auto& cells = rows[at].cells;
  const auto filled = std::ranges::count_if(cells, [](const auto& cell) { return !cell.empty(); });
  if (filled < std::ssize(cells) || filled < 2 || std::ranges::any_of(cells, hasDigit))
    return false;
  const auto below = rows.subspan(at + 1, std::min(followed, rows.size() - at - 1));
  const auto with = std::ranges::count_if(
      below, [](const auto& row) { return std::ranges::any_of(row.cells, hasDigit); });
  return !below.empty() && 2 * with >= std::ssize(below);
}

/// Whether the cells of a column only count the rows, from 1 on, and again where a page begins.
bool onlyCounts(std::span<const base::CsvRow> below, std::size_t column) {
  std::int64_t last = 0;
  std::size_t counted = 0;
  for (const auto& row : below) {
    if (column >= row.cells.size() || row.cells[column].empty()) continue;
    const auto number = base::parseInt(row.cells[column]);
    if (!number) {
      // The name of a group, or a total, stands in the first column.
      const auto filled =
          std::ranges::count_if(row.cells, [](const auto& cell) { return !cell.empty(); });
      if (filled > 2) return false;
      continue;
    }
    if (*number != last + 1 && *number != 1) return false;
    last = *number;
    ++counted;
  }
  return counted > 0;
}

void leaveOutCounts(std::span<const base::CsvRow> rows,
                    const std::map<std::string, RosterColumn>& remembered, RosterLayout& layout) {
  const auto& headings = rows[*layout.heading].cells;
  for (std::size_t i = 0; i < layout.columns.size(); ++i) {
    auto& column = layout.columns[i];
    if (column != RosterColumn::number && column != RosterColumn::studentId) continue;
    if (remembered.contains(headingKey(headings[i]))) continue;
    if (onlyCounts(rows.subspan(*layout.heading + 1), i)) column = RosterColumn::leftOut;
  }
}

struct Remembered {
  std::map<std::string, RosterColumn> columns{};
  DateOrder dates = DateOrder::unsaid;
  EarlyGrades early = EarlyGrades::hold;
};

Remembered readRemembered(std::string_view text) {
  Remembered read;
  for (const auto part : base::split(text, ';')) {
    const auto equals = part.rfind('=');
    if (equals == std::string_view::npos) continue;
    const auto key = part.substr(0, equals);
    const auto value = part.substr(equals + 1);
    if (key == "*dates")
      read.dates = base::fromName<DateOrder>(value).value_or(DateOrder::unsaid);
    else if (key == "*early")
      read.early = base::fromName<EarlyGrades>(value).value_or(EarlyGrades::hold);
    else if (const auto column = base::fromName<RosterColumn>(value))
      read.columns.emplace(key, *column);
  }
  return read;
}

} // namespace

bool RosterLayout::has(RosterColumn column) const {
  return std::ranges::find(columns, column) != columns.end();
}

std::string headingKey(std::string_view heading) {
  std::string plain;
  for (const char c : heading) {
    if (c == '#')
      plain += " number ";
    else
      plain +=
          std::string_view("_/\\:()[]*,;=\"\n\r\t&").find(c) == std::string_view::npos ? c : ' ';
  }
  // Folding drops points, which part initials: "D.O.B." is "dob".
  return std::string(base::trim(base::folded(plain)));
}

namespace {

std::optional<RosterColumn> columnKeyed(const std::string& key) {
  const auto* const found = std::ranges::find(knownHeadings, key, &Heading::key);
  if (found == knownHeadings.end()) return std::nullopt;
  return found->column;
}

bool holdsOneOf(const std::string& key, std::initializer_list<std::string_view> words) {
  return std::ranges::any_of(words, [&](auto word) { return key.find(word) != std::string::npos; });
}

/// By a word within: "Allergy list", "Student medical information". What is of a payer, a doctor or
/// a form is not of the student's health.
std::optional<RosterColumn> healthHeading(const std::string& key) {
  if (holdsOneOf(key, {"allerg", "alerg"})) return RosterColumn::allergies;
  if (!holdsOneOf(key, {"medical", "health", "salud"})) return std::nullopt;
  if (holdsOneOf(key, {"insur", "seguro", "phone", "telefono", "doctor", "physician", "provider",
                       "consent", "permission", "release", "date", "number", "policy", "nurse",
                       "office", "record"}))
    return std::nullopt;
  const auto words = base::split(key, ' ');
  const bool isPaper = std::ranges::any_of(words, [](auto word) {
    return word == "form" || word == "forms" || word == "card" || word == "plan" || word == "id";
  });
  return isPaper ? std::nullopt : std::optional(RosterColumn::health);
}

/// "Parent 1 First Name", "mothers last", "First name guardian": the words but those of the part
/// are the heading of a guardian.
std::optional<RosterColumn> guardianPart(const std::string& key) {
  bool isFirst = false;
  bool isLast = false;
  std::string rest;
  for (const auto word : base::split(key, ' ')) {
    if (word == "first" || word == "fname" || word == "firstname" || word == "given")
      isFirst = true;
    else if (word == "last" || word == "lname" || word == "lastname" || word == "surname" ||
             word == "family")
      isLast = true;
    else if (word != "name" && word != "of")
      rest += (rest.empty() ? "" : " ") + std::string(word);
  }
  if (isFirst == isLast || rest.empty()) return std::nullopt; // "Parent (last, first)" is the whole
  for (const auto& whose : {rest, rest + " name"}) {
    using enum RosterColumn;
    const auto column = columnKeyed(whose);
    if (column == guardian) return isFirst ? guardianFirst : guardianLast;
    if (column == secondGuardian) return isFirst ? secondGuardianFirst : secondGuardianLast;
  }
  return std::nullopt;
}

/// "phone3" and "phone 3" as "phone"; "grade 2" and "room 4" say more than a heading.
std::string withoutEndDigits(std::string key) {
  while (!key.empty() && key.back() >= '0' && key.back() <= '9')
    key.pop_back();
  return std::string(base::trim(key));
}

} // namespace

std::optional<RosterColumn> columnCalled(std::string_view heading) {
  if (base::trim(heading) == "#") return RosterColumn::leftOut;
  const auto key = headingKey(heading);
  if (const auto column = columnKeyed(key)) return column;
  using enum RosterColumn;
  if (const auto stem = withoutEndDigits(key); stem != key)
    if (const auto column = columnKeyed(stem);
        column && *column != grade && *column != room && *column != teacher)
      return column;
  if (const auto part = guardianPart(key)) return part;
  return healthHeading(key);
}

RosterLayout suggestLayout(std::span<const base::CsvRow> rows) {
  return suggestLayout(rows, {});
}

RosterLayout suggestLayout(std::span<const base::CsvRow> rows, std::string_view remembered) {
  const auto said = readRemembered(remembered);
  std::optional<std::size_t> heading;
  std::size_t most = 0;
  for (std::size_t i = 0; i < std::min(rows.size(), rowsLooked); ++i)
    if (const auto known = headingsIn(rows[i], said.columns); known > most) {
      most = known;
      heading = i;
    }
  for (std::size_t i = 0; i < std::min(rows.size(), rowsLooked) && !heading; ++i)
    if (looksLikeHeadings(rows, i)) heading = i;
  return layoutUnder(rows, heading, remembered);
}

RosterLayout layoutUnder(std::span<const base::CsvRow> rows, std::optional<std::size_t> heading,
                         std::string_view remembered) {
  base::require(!heading || *heading < rows.size(), "the headings are a row of the list");
  const auto said = readRemembered(remembered);
  RosterLayout layout;
  layout.heading = heading;
  layout.dates = said.dates;
  layout.early = said.early;
  if (layout.heading) {
    layout.columns = columnsOf(rows[*layout.heading], said.columns);
    leaveOutCounts(rows, said.columns, layout);
    return layout;
  }
  std::size_t width = 0;
  for (const auto& row : rows)
    width = std::max(width, row.cells.size());
  layout.columns.assign(width, RosterColumn::leftOut);
  return layout;
}

std::vector<std::string> schoolsIn(std::span<const base::CsvRow> rows, const RosterLayout& layout) {
  const auto placeOf = [&](RosterColumn column) {
    return static_cast<std::size_t>(std::ranges::find(layout.columns, column) -
                                    layout.columns.begin());
  };
  const auto at = placeOf(RosterColumn::school);
  const auto birth = placeOf(RosterColumn::birthDate);
  std::vector<std::string> schools;
  std::set<std::string> known;
  for (std::size_t i = layout.heading ? *layout.heading + 1 : 0; i < rows.size(); ++i) {
    const auto& cells = rows[i].cells;
    if (at >= cells.size() || birth >= cells.size() || !hasDigit(cells[birth])) continue;
    const auto name = base::trim(cells[at]);
    if (!name.empty() && known.insert(base::folded(name)).second) schools.emplace_back(name);
  }
  return schools;
}

std::vector<std::string> layoutProblems(const RosterLayout& layout) {
  std::vector<std::string> problems;
  using enum RosterColumn;
  if (!layout.has(wholeName) && !layout.has(first) && !layout.has(last))
    problems.emplace_back("no column is the name");
  if (layout.has(wholeName) && (layout.has(first) || layout.has(last)))
    problems.emplace_back("the name is in one column or in two, not both; leave one out");
  if (!layout.has(birthDate)) problems.emplace_back("no column is the birth date");
  if (!layout.has(grade) && layout.gradeOfAll.empty())
    problems.emplace_back("no column is the grade; say which one all rows are");
  std::map<RosterColumn, int> counts;
  for (const auto column : layout.columns)
    if (!mayBeSeveral(column) && ++counts[column] == 2)
      problems.push_back("two columns are the " + std::string(base::displayName(column)) +
                         "; leave one out");
  return problems;
}

std::string rememberedLayout(std::span<const base::CsvRow> rows, const RosterLayout& layout) {
  if (!layout.heading || *layout.heading >= rows.size()) return {};
  std::string text;
  const auto add = [&](const std::string& key, std::string_view value) {
    if (key.empty() || text.size() + key.size() + value.size() + 2 > mostRemembered) return;
    text += key + "=" + std::string(value) + ";";
  };
  if (layout.dates != DateOrder::unsaid) add("*dates", base::nameOf(layout.dates));
  if (layout.early != EarlyGrades::hold) add("*early", base::nameOf(layout.early));
  const auto& headings = rows[*layout.heading].cells;
  const auto suggested = suggestLayout(rows);
  const auto guessOf = [&](std::size_t i) {
    if (suggested.heading == layout.heading && i < suggested.columns.size())
      return suggested.columns[i];
    return columnCalled(headings[i]).value_or(RosterColumn::leftOut);
  };
  // A child without a birth date and grade at the top would be taken for headings, or a child's row
  // may have been chosen for them: nothing of it may be kept.
  for (std::size_t i = 0; i < layout.columns.size(); ++i) {
    const bool isBirth = layout.columns[i] == RosterColumn::birthDate;
    const bool isGrade = layout.columns[i] == RosterColumn::grade;
    if (!isBirth && !isGrade) continue;
    if (i >= headings.size() || headings[i].empty()) return {};
    if (isBirth && hasDigit(headings[i])) return {};
    if (isGrade && readGrade(headings[i])) return {};
  }
  for (std::size_t i = 0; i < headings.size() && i < layout.columns.size(); ++i) {
    const bool isGuessed = guessOf(i) == layout.columns[i];
    // An unknown heading that is left out may be anything, so it is not kept.
    if (!isGuessed) add(headingKey(headings[i]), base::nameOf(layout.columns[i]));
  }
  return text;
}

} // namespace gk::roster
