#pragma once

#include "session/session.h"
#include "ui/asking/context.h"
#include "ui/support/text.h"

namespace gk::ui {

/// A form that comes for a student who left is asked about, as Session::leftQuestion words it; none
/// where the person thinks better of it. Where it cannot be read, the entry itself says why.
inline std::optional<session::Confirmed> askWhoLeft(Context& context, roster::ChildId child) {
  const auto question = context.session.leftQuestion(child);
  if (!question || question->empty()) return session::Confirmed::no;
  if (!context.prompter.confirm(u"%1. Enter the form anyway?"_s.arg(capital(toQt(*question)))))
    return std::nullopt;
  return session::Confirmed::yes;
}

} // namespace gk::ui
