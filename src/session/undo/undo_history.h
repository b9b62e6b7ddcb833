#pragma once

#include "session/rights/undo.h"
#include "store/book.h"

namespace gk::session {

/// The rows of one act, oldest first.
struct PastAct {
  base::EntryId act;
  const VerbRule* rule; ///< none for acts of older books
  std::vector<store::HistoryLine> rows;
};

/// This laptop's acts, newest first, read from the book as they are asked for.
class PastActs {
 public:
  explicit PastActs(store::Book& book) : book_(book), before_(book.lastSequence() + 1) {}

  /// None when there is no older one.
  base::Result<std::optional<PastAct>> next();

 private:
  store::Book& book_;
  std::int64_t before_;
  std::vector<store::HistoryLine> read_{}; ///< newest first, not given out yet
  bool isAll_ = false;
};

/// How one thing stands: the row whose words count, and the row that carries them now, which is
/// another after an undo that said them again. Empty when it was taken back.
struct SubjectState {
  base::EntryId meant;
  base::EntryId carried;
};

/// The row whose words `carried` carried, which is itself unless an undo said them again.
base::EntryId meantBy(const std::vector<store::HistoryLine>& rowsOfSubject, base::EntryId carried);

/// Every state that the thing went through and that undo can go back to, the present one last.
std::vector<SubjectState> statesOf(const std::vector<store::HistoryLine>& rowsOfSubject);

} // namespace gk::session
