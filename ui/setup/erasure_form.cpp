#include "ui/setup/erasure_form.h"

#include "base/text/text.h"
#include "session/values/erasure.h"
#include "ui/asking/context.h"
#include "ui/asking/own_pin.h"

#include <limits>

namespace gk::ui {

namespace {

using base::ErrorCode;

const QString requestKey = u"Request"_s;
const QString authorityKey = u"Authority"_s;
const QString rowsKey = u"Rows"_s;

Result<QStringList> erased(session::Session& book, const Thing& id) {
  const auto plan = book.erasurePlan(roster::ChildId(*id));
  if (!plan) return plan.error();
  QStringList said{u"%1 of student %2 would be erased permanently; nothing brings them back."_s.arg(
      counted(plan->total, "row", "rows"), toQt(plan->number))};
  if (plan->cards.size() > 1)
    said += u"This includes another card entered as the same student's."_s;
  if (!plan->counts.empty())
    said += u"These counts change, in signed days and earlier terms too: "_s +
            toQt(base::join(plan->counts, "; ")) + u"."_s;
  return said + QStringList{u"Reports that were issued keep their figures. Backups keep the "
                            "student until they are destroyed."_s};
}

/// The PIN with which the student is erased; nothing where the person backed out.
Result<std::optional<session::OwnPin>>
askForErasure(Context& context, By by, const session::ErasurePlan& plan, std::int64_t rows) {
  const std::optional<session::OwnPin> nothing;
  auto& book = context.session;
  // Before the last question, so that it is asked of what will happen.
  if (rows == plan.total &&
      !context.prompter.confirm(u"Erase the records of student %1 permanently? This cannot be "
                                "undone."_s.arg(toQt(plan.number))))
    return nothing;
  if (by.author) {
    const auto gives = book.asksToSign(*by.author);
    if (!gives) return gives.error();
    if (*gives == session::SignerGives::passphrase) {
      const auto given =
          context.prompter.passphrase(u"Type your own passphrase to sign the erasure."_s);
      if (!given) return nothing;
      if (const auto open = book.openKey(*by.author, toStd(*given)); !open) return open.error();
    }
  }
  return askOwnPin(context, by.author, u"erasing a student"_s);
}

Result<QString> saidErased(session::Session& book, const session::ErasureDone& done,
                           const QString& number) {
  auto said = u"Erased "_s + counted(done.rows, "row", "rows") + u" of student "_s + number +
              u". The logbook keeps who erased it and who requested it."_s;
  if (!done.isForgotten) said += u' ' + toQt(session::tracesLeft);
  const auto lines = book.erasures();
  if (!lines) return lines.error();
  if (!lines->empty() && !lines->back().copies.empty())
    said +=
        u" These copies may still hold the student: "_s +
        toQt(base::join(lines->back().copies, "; ")) +
        u". Destroy each backup; a laptop that is merged with this one asks, and then erases the "
        u"student there."_s;
  return said;
}

void erase(Context& context, By by, const Thing& id, const Values& values,
           const FormAnswer& answer) {
  auto& book = context.session;
  const roster::ChildId child(*id);
  const auto plan = book.erasurePlan(child);
  if (!plan) return answer.give(plan.error());
  const auto rows = values.number(rowsKey).value_or(0);
  const auto pin = askForErasure(context, by, *plan, rows);
  if (!pin) return answer.give(pin.error());
  if (!*pin) return answer.give(QString());
  const session::ErasureGrounds grounds{values.text(requestKey), values.text(authorityKey),
                                        values.text(reasonKey)};
  context.work.runOnBook(
      LongKind::erasing, answer.page, book,
      [&book, by, child, grounds, rows, own = **pin](const base::Progress& progress) {
        return book.eraseStudent(by, child, grounds, rows, own, progress);
      },
      [&book, number = toQt(plan->number),
       give = answer.give](const Result<session::ErasureDone>& done) {
        give(done ? saidErased(book, *done, number) : done.error());
      });
}

} // namespace

AreaForm erasingStudent(Context& context) {
  auto& book = context.session;
  return {
      .name = u"Erase"_s,
      .words = u"Erase student"_s,
      .key = Qt::Key_R,
      .asksReason = true,
      .save = u"Erase permanently"_s,
      .note = u"Only where a law or a court requires it. A mistake is corrected instead, and a "
              "student who left is kept. Write without names: what is typed here stays in the "
              "logbook."_s,
      .changes = [&book](const Thing& id) { return erased(book, id); },
      .fields = [](const Thing&) -> std::vector<Field> {
        return {{.key = requestKey,
                 .words = u"Requested by"_s,
                 .hint = u"Such as: mother, letter of October 12"_s,
                 .isNeeded = true},
                {.key = authorityKey,
                 .words = u"Rule that requires it"_s,
                 .hint = u"Law or order, with its section"_s,
                 .isNeeded = true},
                {.key = rowsKey,
                 .words = u"Number of rows"_s,
                 .hint = u"As counted above, to confirm"_s,
                 .kind = FieldKind::number,
                 .least = 1,
                 .most = std::numeric_limits<int>::max(),
                 .isNeeded = true}};
      },
      .values = [](const Thing&) -> Result<Values> { return Values(); },
      .actAside = [&context](By by, const Thing& id, const Values& values,
                             const FormAnswer& answer) { erase(context, by, id, values, answer); },
      .refusedAt = {{ErrorCode::recordChanged, rowsKey}, {ErrorCode::textMalformed, requestKey}}};
}

} // namespace gk::ui
