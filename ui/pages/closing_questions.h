#pragma once

#include "reports/close_out.h"
#include "ui/support/context.h"

namespace gk::ui {

// What the close-out asks before everybody leaves, noted at once. False when the person backed out.

/// Where the sheets with names are that went out: each sort that does not add up, then, once or
/// when asked for again, whatever else went out.
base::Result<bool> countPaperIn(Context& context, const reports::CloseOut& sheet,
                                roster::DayId day);

/// The meter's number for this light, or why it is not read.
base::Result<bool> readLightAgain(Context& context, kit::LightId light, roster::DayId day);

/// Which of two visits stands or whether both do; whether two cards are one child's.
base::Result<bool> answerQuestion(Context& context, const reports::MergeQuestion& question,
                                  roster::DayId day);

/// Why an answer is to be given anew; then it is taken back and the question is open again.
base::Result<bool> askAnew(Context& context, const reports::AnsweredQuestion& old);

} // namespace gk::ui
