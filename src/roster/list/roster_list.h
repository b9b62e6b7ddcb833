#pragma once

#include "roster/child/background.h"
#include "roster/child/child.h"
#include "roster/consent/consent.h"
#include "roster/list/roster_columns.h"

#include <string_view>

namespace gk::roster {

/// What a school's list says about a child's form. Not checked against `checkForm`: a yes that
/// fails there is entered as incomplete.
struct RosterConsent {
  ConsentState state = ConsentState::notReturned;
  ServiceSet services;
  std::optional<base::Date> signedOn;
  std::optional<base::Date> receivedOn;
  std::optional<base::Date> validUntil;
  HistoryAnswered history = HistoryAnswered::no; ///< a blank history is not answered
  bool operator==(const RosterConsent&) const = default;
};

struct RosterGuardian {
  std::string name{};
  std::string relation{}; ///< as written
  std::string phone{};
  bool operator==(const RosterGuardian&) const = default;
  [[nodiscard]] bool isBlank() const { return *this == RosterGuardian(); }
};

/// What a list says of a child's health, for the team to confirm with the family.
struct RosterAlert {
  FlagKind kind;
  FlagAction action;
  std::string detail; ///< as written
  bool operator==(const RosterAlert&) const = default;
};

/// One child of a school's list. Names stay plain text here, as typed but trimmed; whoever stores
/// them seals them.
struct RosterLine {
  std::size_t line;      ///< in the file, which begins with 1
  std::size_t row = 0;   ///< of the rows that were read, from 0
  std::string number;    ///< with its check digit; empty when the book is to give one
  std::string studentId; ///< the school's own, as plainStudentId
  std::string first;
  std::string middle;
  std::string last; ///< first or last is filled; many children have one name
  std::string nameUsed;
  base::Date birth;
  BirthVerdict birthVerdict; ///< fine, or ask; an impossible one is a problem of the row
  std::string grade;         ///< "K", "1" ... "12"
  std::string room;
  std::string teacher;
  dentition::Sex sex = dentition::Sex::notStated;
  RosterGuardian guardian{};
  RosterGuardian secondGuardian{};
  Relation signer = Relation::parent; ///< of the words known; anything else is `other`, so reviewed
  std::string language;               ///< as readLanguage
  RosterConsent consent;
  EthnicitySet groups{}; ///< empty: not stated
  Payer payer = Payer::unknown;
  std::vector<RosterAlert> alerts{};
  bool operator==(const RosterLine&) const = default;
};

/// One thing that keeps a row from being taken. It never repeats a cell, which may hold a name.
struct RowProblem {
  std::string where; ///< the column as a person calls it: "birth date"; or "row"
  std::string what;
  bool isDate = false; ///< that alone is `dateMalformed`
  bool operator==(const RowProblem&) const = default;
};

/// A row that waits: its cells can be put right, and it is read again.
struct HeldRow {
  std::size_t line;
  std::size_t row; ///< of the rows that were read, from 0
  std::vector<RowProblem> problems;
};

/// A row that is no child, and why.
struct SkippedRow {
  std::size_t line;
  std::string why; ///< "a total", "the headings again"
};

/// Two readings of its dates fit the whole list, and no one said which is meant.
struct DateQuestion {
  /// Places of up to five cells, for a person to see: row and column.
  std::vector<std::pair<std::size_t, std::size_t>> examples;
  std::size_t count; ///< dates that could be either
};

/// Everything that a list says, row by row: each row is a child, held or skipped, never lost.
struct RosterReading {
  std::vector<RosterLine> lines{};
  std::vector<HeldRow> held{};
  std::vector<SkippedRow> skipped{};
  std::optional<DateQuestion> question{}; ///< then every row with such a date is held
  DateOrder dates = DateOrder::unsaid;    ///< as said, or as the dates themselves prove
  std::string onlyRoom{};                 ///< of one class's list, as said of all rows, or empty
  std::vector<std::string> notes{};       ///< what was not read as it is written; repeats no cell
};

/// Reads the rows of a list with its columns as the layout says. A row without a birth date that
/// names a total, a page or a room is skipped, like the headings again, a title and a row that is
/// there twice; what cannot be read is held, and so is whoever the school says is gone. A student
/// ID that is none, or that stands at two students, is read as blank; so is what is not understood
/// of race and insurance. Precondition: layoutProblems is empty.
RosterReading readRoster(std::span<const base::CsvRow> rows, const RosterLayout& layout,
                         base::Date today);

/// The rows as they came, with a column "problem" behind: the held ones alone, or all.
std::string problemsCsv(std::span<const base::CsvRow> rows, const RosterLayout& layout,
                        std::span<const HeldRow> held);

/// "3 problems in the roster, nothing was imported: line 4, grade: ...; and 1 more", of the first
/// five; `dateMalformed` when every problem is a date, else `csvMalformed`. Precondition: some.
base::Error problemsError(std::span<const HeldRow> held);

} // namespace gk::roster
