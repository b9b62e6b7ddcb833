#include "roster/list/roster_row.h"

#include "roster/list/roster_cells.h"
#include "roster/list/student_id.h"

#include <algorithm>

namespace gk::roster {

using base::CsvRow;
using base::Date;

namespace {

constexpr std::string_view dateHint = "not a day that exists; write it like 2019-03-04";

/// "########": what a spreadsheet shows in place of a date.
bool isTooNarrow(std::string_view cell) {
  return cell.size() > 1 && std::ranges::all_of(cell, [](char c) { return c == '#'; });
}

} // namespace

std::string RosterRow::text(RosterColumn column) const {
  const auto at = std::ranges::find(layout_.columns, column) - layout_.columns.begin();
  const auto place = static_cast<std::size_t>(at);
  if (place >= layout_.columns.size() || place >= row_.cells.size()) return {};
  return std::string(base::trim(row_.cells[place]));
}

std::vector<std::string> RosterRow::texts(RosterColumn column) const {
  std::vector<std::string> all;
  for (std::size_t i = 0; i < layout_.columns.size() && i < row_.cells.size(); ++i)
    if (layout_.columns[i] == column && !base::isBlank(row_.cells[i]))
      all.emplace_back(base::trim(row_.cells[i]));
  return all;
}

std::optional<Date> RosterRow::date(RosterColumn column) {
  const auto cell = text(column);
  if (cell.empty()) return std::nullopt;
  if (isTooNarrow(cell)) {
    problem(column,
            "the column was too narrow when saved; widen it in the spreadsheet and save again, or "
            "type the date",
            true);
    return std::nullopt;
  }
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

ServiceSet RosterRow::services() {
  const auto cell = base::folded(text(RosterColumn::services));
  if (cell == "all") return ServiceSet::all();
  ServiceSet set;
  for (auto part : base::split(cell, ';')) {
    part = base::trim(part);
    if (part.empty()) continue;
    if (const auto value = base::fromName<Service>(part))
      set.add(*value);
    else
      problem(RosterColumn::services,
              "not all, and a word is not one of these, with semicolons between: " +
                  words<Service>());
  }
  return set;
}

EthnicitySet RosterRow::groups(std::size_t& unread) const {
  EthnicitySet set;
  bool isRead = true;
  const auto cell = base::folded(text(RosterColumn::ethnicity));
  for (auto part : base::split(cell, ';')) {
    part = base::trim(part);
    if (part.empty()) continue;
    if (const auto value = base::fromName<Ethnicity>(part))
      set.add(*value);
    else
      isRead = false;
  }
  // Half an answer would count the student in one group alone.
  if (isRead) return set;
  ++unread;
  return {};
}

Payer RosterRow::payer(std::size_t& unread) const {
  const auto cell = base::folded(text(RosterColumn::payer));
  if (cell.empty()) return Payer::unknown;
  if (const auto value = base::fromName<Payer>(cell)) return *value;
  ++unread;
  return Payer::unknown;
}

RosterSkips::RosterSkips(std::span<const CsvRow> rows, const RosterLayout& layout, Date today)
    : layout_(layout), today_(today) {
  if (!layout.heading) return;
  for (const auto& cell : rows[*layout.heading].cells)
    headings_.push_back(base::folded(cell));
}

std::string RosterSkips::why(std::size_t at, const CsvRow& row, const RosterRow& cells) {
  if (layout_.heading && at < *layout_.heading) return "above the headings";
  if (areHeadings(row)) return "the headings again";
  // A child has a birth date or a grade that can be read; one with neither is held, unless it says
  // what it is.
  const auto birth = cells.text(RosterColumn::birthDate);
  const bool hasBirth = isTooNarrow(birth) || !readDates(birth, today_).isNone();
  const bool isBare = !hasBirth && !readGrade(cells.text(RosterColumn::grade));
  const auto isFilled = [](const auto& cell) { return !cell.empty(); };
  const auto filled = std::ranges::count_if(row.cells, isFilled);
  if (isBare && std::ranges::any_of(row.cells, isFooterWord)) return "a total or a footer";
  if (!hasBirth && isFooter(row)) return "a total or a footer";
  if (isBare && filled == 1) {
    const auto only = std::ranges::find_if(row.cells, isFilled);
    if (isGroupWord(*only)) return "the name of a group";
    if (!isOfName(static_cast<std::size_t>(only - row.cells.begin())))
      return "one cell alone, and no name";
  }
  if (isBare && filled == 2 && std::ranges::any_of(row.cells, isGroupWord))
    return "the name of a group";
  if (layout_.early == EarlyGrades::leaveOut)
    if (const auto read = readGrade(cells.text(RosterColumn::grade)); read && read->isEarly)
      return "before kindergarten, left out as said";
  if (const auto of = base::folded(cells.text(RosterColumn::school));
      !of.empty() && layout_.rowsOf && !layout_.rowsOf->empty() &&
      of != base::folded(*layout_.rowsOf))
    return "of another school";
  return twice(row);
}

bool RosterSkips::areHeadings(const CsvRow& row) const {
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

bool RosterSkips::isOfName(std::size_t column) const {
  using enum RosterColumn;
  if (column >= layout_.columns.size()) return false;
  const auto is = layout_.columns[column];
  return is == wholeName || is == first || is == last;
}

bool RosterSkips::isFooter(const CsvRow& row) const {
  const auto isFooterCell = [&](const std::string& cell) {
    return isFooterWord(cell) || !readDates(cell, today_).isNone();
  };
  bool isFirst = true;
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    const auto& cell = row.cells[i];
    if (cell.empty()) continue;
    // Where no name stands, the first cell alone may be the total's.
    if (isOfName(i) ? isFooterCell(cell) : isFirst && isFooterWord(cell)) return true;
    isFirst = false;
  }
  return false;
}

std::string RosterSkips::twice(const CsvRow& row) {
  std::string all;
  for (const auto& cell : row.cells)
    all += cell + '\x1F';
  const auto [first, isNew] = seen_.emplace(std::move(all), row.line);
  return isNew ? std::string() : "the same as line " + std::to_string(first->second);
}

std::set<std::string> sharedStudentIds(std::span<const CsvRow> rows,
                                       const std::vector<std::size_t>& children,
                                       const RosterLayout& layout, Date today) {
  using enum RosterColumn;
  std::map<std::string, std::string> whose;
  std::set<std::string> shared;
  if (!layout.has(studentId)) return shared;
  for (const auto at : children) {
    const RosterRow cells(rows[at], layout, DateOrder::unsaid, today);
    const auto id = plainStudentId(cells.text(studentId));
    if (id.empty() || isNoStudentId(id)) continue;
    // One student may stand in two rooms.
    std::string who;
    for (const auto column : {wholeName, first, last, birthDate})
      who += base::folded(cells.text(column)) + '\x1F';
    const auto [known, isNew] = whose.emplace(studentIdKey(id), who);
    if (!isNew && known->second != who) shared.insert(known->first);
  }
  return shared;
}

} // namespace gk::roster
