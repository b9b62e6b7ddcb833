#pragma once

#include "base/text/text.h"
#include "roster/list/display_names.h"
#include "roster/list/roster_list.h"

#include <map>
#include <set>

namespace gk::roster {

/// What was not read as it is written, counted for the notes.
struct ReadAside {
  std::size_t ids = 0;       ///< student IDs that are none
  std::size_t sharedIds = 0; ///< rows whose student ID stands at another student too
  std::size_t groups = 0;    ///< cells of race and ethnicity
  std::size_t payers = 0;    ///< cells of insurance
};

/// The cells of one row by what they are; a column that is not there reads as blank. Everything
/// that is referred to outlives it.
class RosterRow {
 public:
  RosterRow(const base::CsvRow& row, const RosterLayout& layout, DateOrder order, base::Date today)
      : row_(row), layout_(layout), order_(order), today_(today) {}

  [[nodiscard]] std::string text(RosterColumn column) const;
  /// Of all columns that are that, as where allergies have two; without the blank ones.
  [[nodiscard]] std::vector<std::string> texts(RosterColumn column) const;
  [[nodiscard]] bool has(RosterColumn column) const { return layout_.has(column); }

  std::optional<base::Date> date(RosterColumn column);
  /// "Y" and "N" are yes and no.
  template <class E>
  E word(RosterColumn column, E whenBlank) {
    auto cell = base::folded(text(column));
    if (cell.empty()) return whenBlank;
    if (cell == "y") cell = "yes";
    if (cell == "n") cell = "no";
    if (const auto value = base::fromName<E>(cell)) return *value;
    problem(column, "not one of: " + words<E>());
    return whenBlank;
  }
  ServiceSet services();

  /// What is read so does not keep a student waiting: no one is treated by it.
  EthnicitySet groups(std::size_t& unread) const;
  Payer payer(std::size_t& unread) const;

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

  const base::CsvRow& row_;
  const RosterLayout& layout_;
  DateOrder order_;
  base::Date today_;
  std::vector<RowProblem> problems_{};
};

/// Why a row is no child; empty where it is to be read as one.
class RosterSkips {
 public:
  /// All outlive it.
  RosterSkips(std::span<const base::CsvRow> rows, const RosterLayout& layout, base::Date today);

  std::string why(std::size_t at, const base::CsvRow& row, const RosterRow& cells);

 private:
  [[nodiscard]] bool areHeadings(const base::CsvRow& row) const;
  /// Whether the cell stands where a name does.
  [[nodiscard]] bool isOfName(std::size_t column) const;
  /// A total or a footer that has a count, or a page, where a grade would stand.
  [[nodiscard]] bool isFooter(const base::CsvRow& row) const;
  /// A row that is word for word an earlier one, as where a page was printed twice.
  std::string twice(const base::CsvRow& row);

  const RosterLayout& layout_;
  base::Date today_;
  std::vector<std::string> headings_{};
  std::map<std::string, std::size_t> seen_{};
};

/// Student IDs that stand on rows of two students, by studentIdKey: they say of neither who it is.
std::set<std::string> sharedStudentIds(std::span<const base::CsvRow> rows,
                                       const std::vector<std::size_t>& children,
                                       const RosterLayout& layout, base::Date today);

} // namespace gk::roster
