#include "ui/safety/withdrawal.h"

#include "ui/support/text.h"

#include <algorithm>

namespace gk::ui {

base::Result<bool> aFormSaysYes(session::Reader& book, roster::ChildId child) {
  const auto forms = book.consents(child);
  if (!forms) return forms.error();
  return std::ranges::any_of(*forms, [](const auto& form) {
    return form.value.state == roster::ConsentState::yes ||
           form.value.state == roster::ConsentState::yesWithLimits;
  });
}

base::Result<bool> askWithdrawal(Context& context, const QString& name, roster::ChildId child,
                                 std::optional<std::string>& how) {
  const auto open = aFormSaysYes(context.session, child);
  if (!open) return open.error();
  if (!*open) return true;
  const auto said =
      context.prompter.text(name + u": "_s + QString::fromUtf8(withdrawalQuestion), {});
  if (!said || said->trimmed().isEmpty()) return false;
  how = toStd(said->trimmed());
  return true;
}

} // namespace gk::ui
