#pragma once

#include "reports/print/cell.h"
#include "reports/print/front.h"
#include "reports/print/plot.h"

#include <span>
#include <string_view>

namespace gk::reports {

struct Participation;          // of reports/term
enum class SealantCount : int; // of reports/term

/// What is counted in a column, where the rows behind each of its numbers can be shown: of
/// children, or of sealants.
using Counted = std::variant<std::monostate, int Participation::*, SealantCount>;

/// What the cells of a column are, those apart that are missing or withheld.
enum class Kind { text, date, count, share, number, range };

/// Where a column stands. Paper is the screen too.
enum class Where { everywhere, paper, files };

/// A column, said once for screen, paper and every file.
struct Column {
  std::string heading;
  Kind kind = Kind::text;
  std::string key{};  ///< of files; `keyOf` of the heading where none is given
  std::string unit{}; ///< of a count or a number
  Counted counted{};
  Where where = Where::everywhere;
  bool group = false;     ///< the same again in the row below is not printed
  bool isEarlier = false; ///< of the term before: what its own report says, and no figure of this

  [[nodiscard]] bool isNumber() const { return kind != Kind::text && kind != Kind::date; }
  bool operator==(const Column&) const = default;
};

using Cells = std::vector<Cell>;

/// A report as a value: every row has one cell for each column.
struct Table {
  Table() = default;
  Table(std::string called, std::vector<Column> of, std::vector<std::string> says = {})
      : title(std::move(called)), columns(std::move(of)), notes(std::move(says)) {}
  Table(std::string called, std::vector<Column> of, std::vector<Cells> with,
        std::vector<std::string> says)
      : title(std::move(called)), columns(std::move(of)), rows(std::move(with)),
        notes(std::move(says)) {}

  std::string title;
  std::vector<Column> columns;
  std::vector<Cells> rows;
  std::vector<std::string> notes; ///< definitions and cautions, printed under the rows
  std::optional<Plot> plot{};     ///< drawn from the rows; printed above them
  std::optional<Front> front{};   ///< begins a page of its own, above title and rows
  std::string key{};              ///< of files; `keyOf` of the part where none is given
  bool operator==(const Table&) const = default;
};

/// Lower-case letters and digits with one `joint` between words: "forms_back" of "Forms back".
std::string keyOf(std::string_view words, char joint = '_');

/// What files call the table and its column.
std::string keyOf(const Table& table);
std::string keyOf(const Column& column);

/// The place of the column that files call so. Precondition: there is one.
std::size_t columnOf(const Table& table, std::string_view key);

/// The cell as a person reads it, in every row.
std::string cellShown(const Table& table, std::size_t row, std::size_t column);
/// The cell as it is printed.
std::string cellToRead(const Table& table, std::size_t row, std::size_t column);

/// The row as files have it.
std::vector<std::string> textsOf(const Cells& row);

/// The title up to a colon or a comma, without the day or the choice: what the part is called.
std::string_view partName(const Table& table);

/// Without the columns that stand elsewhere.
std::vector<Table> printed(std::vector<Table> tables);
std::vector<Table> filed(std::vector<Table> tables);
/// Without what it only has from the term before.
Table withoutEarlier(Table table);

/// What tables of the same columns say below them, once, at the end. Where one or two of them do
/// not say it, those are named behind it; what fewer say is true of those alone and stays there.
struct NotesOnce {
  std::vector<Table> tables;
  std::vector<std::string> shared;
};
NotesOnce notesOnce(std::span<const Table> tables);

/// Whether it reads better as a list of headings, each with its one value: a single row of many
/// columns.
bool isList(const Table& table);

/// How many of its first columns name a row: the groups, and the column behind them.
std::size_t namesOf(const Table& table);

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::Kind> =
    std::to_array<std::string_view>({"text", "date", "count", "share", "number", "range"});
