#pragma once

#include "reports/day/close_out.h"
#include "ui/asking/context.h"

namespace gk::ui {

/// Which of two visits is kept or whether both happened; whether two cards are one child's. The
/// records stand side by side; an answer that would drop a serious finding is asked again. False
/// when the person backed out.
base::Result<bool> answerQuestion(Context& context, const reports::MergeQuestion& question,
                                  roster::DayId day);

/// Why an answer is to be changed; then it is taken back and the question is open again.
base::Result<bool> reopenQuestion(Context& context, const reports::AnsweredQuestion& old);

/// Entries that came for a card that is joined to another: put on the kept one, once a person saw
/// both cards.
base::Result<bool> joinAgain(Context& context, const reports::Blocker& blocker);

} // namespace gk::ui
