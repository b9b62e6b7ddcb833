#include "ui/pages/withdrawal.h"

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

base::Result<std::optional<QString>> askWithdrawal(Context& context, const QString& name,
                                                   roster::ChildId child) {
  const auto open = aFormSaysYes(context.session, child);
  if (!open) return open.error();
  if (!*open) return std::optional(QString(u""_s));
  const auto how =
      context.prompter.text(name + u": "_s + QString::fromUtf8(withdrawalQuestion), {});
  if (!how || how->trimmed().isEmpty()) return std::optional<QString>{};
  return std::optional(how->trimmed());
}

} // namespace gk::ui
