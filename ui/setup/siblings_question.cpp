#include "ui/setup/siblings_question.h"

#include "session/desk/siblings.h"
#include "ui/support/text.h"

#include <QStringList>

namespace gk::ui {

QString phoneOfSiblings(Context& context, base::By by, roster::ChildId child,
                        const session::Identity& before, const session::Identity& after,
                        const std::string& reason) {
  const auto phones = session::newPhones(before, after);
  const auto others = session::alsoReachedAt(context.session, child, phones);
  if (!others)
    return u" Whether other students have the old phone could not be read: "_s +
           toQt(others.error().detail) + u'.';
  if (others->empty()) return {};
  QStringList names;
  for (const auto& one : *others)
    names += toQt(one.identity.shownName() + " (" + one.card.value.number + ")");
  if (!context.prompter.confirm(
          u"%1 is also a guardian of %2, with the old phone %3. Correct it there too?"_s.arg(
              toQt(phones.front().guardian), names.join(u", "_s), toQt(phones.front().from))))
    return u" The old phone stays for %1."_s.arg(names.join(u", "_s));
  for (qsizetype i = 0; i < names.size(); ++i) {
    const auto made = session::correctPhone(context.session, by,
                                            (*others)[static_cast<std::size_t>(i)], phones, reason);
    if (!made)
      return u" The old phone stays for %1: %2."_s.arg(names.mid(i).join(u", "_s),
                                                       toQt(made.error().detail));
  }
  return u" The phone is corrected for %1 too."_s.arg(names.join(u", "_s));
}

} // namespace gk::ui
