#include "session/importing/roster_draft.h"

#include "base/text/text.h"
#include "exchange/lists/list_rows.h"

#include <algorithm>

namespace gk::session {

using base::Error;
using base::ErrorCode;

Result<RosterDraft> RosterDraft::open(Session& session, std::string_view bytes,
                                      roster::SchoolId school) {
  const auto remembered = session.listColumns(school);
  if (!remembered) return remembered.error();
  auto draft = read(bytes, *remembered);
  if (!draft) return draft;
  if (const auto named = draft->meanSchool(session, school); !named) return named.error();
  return draft;
}

Result<RosterDraft> RosterDraft::read(std::string_view bytes, const std::string& remembered,
                                      const base::Progress& progress) {
  const Error stopped{ErrorCode::workCanceled, "the list was not read to its end"};
  progress.at(base::Stage::reading);
  if (progress.isStopped()) return stopped;
  auto list = exchange::readList(bytes, [&](std::span<const base::CsvRow> rows) {
    const auto layout = roster::suggestLayout(rows, remembered);
    using enum roster::RosterColumn;
    const bool isNamed = layout.has(wholeName) || layout.has(first) || layout.has(last);
    return isNamed && (layout.has(birthDate) || layout.has(grade));
  });
  if (!list) return list.error();
  progress.at(base::Stage::counting);
  if (progress.isStopped()) return stopped;
  RosterDraft draft;
  draft.rows_ = std::move(list->rows);
  draft.notes_ = std::move(list->notes);
  draft.layout_ = roster::suggestLayout(draft.rows_, remembered);
  draft.remembered_ = remembered;
  if (progress.isStopped()) return stopped;
  return draft;
}

Result<base::Done> RosterDraft::meanSchool(Session& session, roster::SchoolId school) {
  const auto all = session.schools();
  if (!all) return all.error();
  const auto of = std::ranges::find(*all, school, &base::Recorded<roster::School>::id);
  if (of == all->end()) return base::Done{};
  for (const auto& said : schools())
    if (base::folded(said) == base::folded(of->value.name) ||
        base::folded(said) == base::folded(of->value.code))
      layout_.rowsOf = said;
  return base::Done{};
}

void RosterDraft::useHeading(std::optional<std::size_t> row) {
  auto layout = roster::layoutUnder(rows_, row, remembered_);
  // These are no matter of the headings.
  layout.dates = layout_.dates;
  layout.early = layout_.early;
  layout.gradeOfAll = layout_.gradeOfAll;
  layout.roomOfAll = layout_.roomOfAll;
  layout.rowsOf = layout_.rowsOf;
  layout_ = std::move(layout);
}

std::vector<std::string> RosterDraft::notes() const {
  auto all = notes_;
  all.insert(all.end(), reading_.notes.begin(), reading_.notes.end());
  return all;
}

std::vector<roster::LeftOutColumn> RosterDraft::leftOut() const {
  return roster::leftOutColumns(rows_, layout_);
}

void RosterDraft::correct(std::size_t row, std::size_t column, const std::string& text) {
  base::require(row < rows_.size() && column < base::mostColumns, "no such cell of the list");
  auto& cells = rows_[row].cells;
  if (column >= cells.size()) cells.resize(column + 1);
  cells[column] = std::string(base::trim(text));
}

Result<base::Done> RosterDraft::look(Session& session, const RosterAim& aim,
                                     const base::Progress& progress) {
  plan_ = {};
  reading_ = {};
  aim_.reset();
  // Which column is what is no choice to make for anybody.
  if (const auto open = roster::layoutProblems(layout_); !open.empty())
    return Error{ErrorCode::csvMalformed,
                 (layout_.heading
                      ? "line " + std::to_string(rows_[*layout_.heading].line) + ", header: "
                      : "no row with headings was found: ") +
                     base::join(open, "; ")};
  // All of them would come to one school, and those known elsewhere would move there.
  if (const auto schools = this->schools(); schools.size() > 1 && !layout_.rowsOf)
    return Error{ErrorCode::csvMalformed,
                 "the list has rows of " + base::counted(std::ssize(schools), "school", "schools") +
                     "; say whose rows are meant"};
  progress.at(base::Stage::reading);
  reading_ = roster::readRoster(rows_, layout_, aim.today);
  if (reading_.lines.empty() && reading_.held.empty())
    return Error{ErrorCode::csvMalformed, "no student below the headings; look at the file"};
  auto plan = planRoster(session, reading_, aim, progress);
  if (!plan) return plan.error();
  plan_ = std::move(*plan);
  aim_ = aim;
  return base::Done{};
}

std::string RosterDraft::problems() const {
  return roster::problemsCsv(rows_, layout_, plan_.held);
}

Result<std::vector<roster::ChildId>> RosterDraft::write(Session& session, By by) const {
  base::require(aim_.has_value(), "a list is looked at before it is written");
  return session.importRoster(by, plan_.import(*aim_, roster::rememberedLayout(rows_, layout_)));
}

} // namespace gk::session
