#include "ui/asking/own_pin.h"

#include "ui/support/message.h"
#include "ui/support/text.h"

namespace gk::ui {

QString memberName(session::Session& book, base::MemberId who) {
  if (const auto members = book.members())
    for (const auto& one : *members)
      if (one.id == who) return toQt(one.value.name);
  return {};
}

std::optional<session::OwnPin> askOwnPin(Context& context, const std::optional<base::MemberId>& who,
                                         const QString& act) {
  auto& book = context.session;
  // No one, or a team that cannot be read: the act itself says so.
  if (!who) return session::OwnPin();
  const auto state = book.pinOf(*who);
  if (!state || *state != roster::PinState::set) return session::OwnPin();
  const auto question = u"PIN of "_s + memberName(book, *who) + u", for "_s + act + u'.';
  QString trouble;
  while (true) {
    const auto pin = context.prompter.pin(trouble + question);
    if (!pin) return std::nullopt;
    const auto confirmed = book.confirm(*who, toStd(*pin));
    if (confirmed) return session::OwnPin(*confirmed);
    if (!book.isUnlocked()) return std::nullopt;
    const auto message = describe(confirmed.error());
    trouble = message.happened + u' ' + capital(message.detail) + u".\n"_s;
  }
}

} // namespace gk::ui
