#pragma once

#include "session/importing/roster_plan.h"

namespace gk::session {

/// A school's list that is being looked at before it is imported: its rows, which a person may put
/// right, how they are read, and what they would change. Nothing is written before `write`. Holds
/// names: it goes when the logbook is locked.
class RosterDraft {
 public:
  /// Reads the bytes of a file, whatever program made it, with the columns as they are remembered
  /// of the school or else as the headings say. Fails as exchange::readList.
  static Result<RosterDraft> open(Session& session, std::string_view bytes,
                                  roster::SchoolId school);
  /// The same in two steps, of which the first, the long one, is done in any thread: `remembered`
  /// is Reader::listColumns of the school. Stopped, it fails with `workCanceled`.
  static Result<RosterDraft> read(std::string_view bytes, const std::string& remembered,
                                  const base::Progress& progress = {});
  /// Where a list of several schools calls the school by its name or code, its rows are meant.
  Result<base::Done> meanSchool(Session& session, roster::SchoolId school);

  [[nodiscard]] const std::vector<base::CsvRow>& rows() const { return rows_; }
  /// What of the reading a person should know: encoding, separator, sheets, and after a look what
  /// was not read as it is written.
  [[nodiscard]] std::vector<std::string> notes() const;
  /// As the list calls them, where it says whose rows they are.
  [[nodiscard]] std::vector<std::string> schools() const {
    return roster::schoolsIn(rows_, layout_);
  }
  /// Columns of which nothing is kept.
  [[nodiscard]] std::vector<roster::LeftOutColumn> leftOut() const;
  [[nodiscard]] const roster::RosterLayout& layout() const { return layout_; }
  void setLayout(const roster::RosterLayout& layout) { layout_ = layout; }
  /// The headings are in that row, as a person says, or in none; the columns are read from it
  /// again.
  void useHeading(std::optional<std::size_t> row);
  /// A row was put right; it is read again with the next `look`.
  void correct(std::size_t row, std::size_t column, const std::string& text);

  /// Reads the rows and plans what they change. Fails with `csvMalformed` where the columns are not
  /// all said yet (roster::layoutProblems), where the rows are of several schools and it is
  /// not said whose are meant, or where no row is a child, and as planRoster. In another thread
  /// only while the session is asked by no other; stopped, it fails with `workCanceled`.
  Result<base::Done> look(Session& session, const RosterAim& aim,
                          const base::Progress& progress = {});
  [[nodiscard]] const roster::RosterReading& reading() const { return reading_; }
  [[nodiscard]] const RosterPlan& plan() const { return plan_; }

  /// The rows that wait, as they came, with what is wrong with each.
  [[nodiscard]] std::string problems() const;
  /// What was looked at last, as one act: who came. The rows that wait are not written.
  Result<std::vector<roster::ChildId>> write(Session& session, By by) const;

 private:
  RosterDraft() = default;

  std::vector<base::CsvRow> rows_{};
  std::vector<std::string> notes_{};
  std::string remembered_{}; ///< of the school's lists
  roster::RosterLayout layout_{};
  roster::RosterReading reading_{};
  RosterPlan plan_{};
  std::optional<RosterAim> aim_{}; ///< of the last look
};

} // namespace gk::session
