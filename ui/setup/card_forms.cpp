#include "ui/setup/card_forms.h"

#include "ui/asking/context.h"

namespace gk::ui {

namespace {

using base::ErrorCode;

const QString otherNumber = u"Other"_s;

Result<QString> joinCards(Context& context, By by, const Thing& id, const Values& values) {
  auto& book = context.session;
  const auto other = book.cardNumbered(values.text(otherNumber));
  if (!other) return other.error();
  const auto pair = book.cardPair(roster::ChildId(*id), *other);
  if (!pair) return pair.error();
  // A day on which both were seen is refused below, with the date.
  if (!pair->onBoth) {
    const auto answer = context.prompter.decideBy(
        session::cardTable(*pair), u"Are these two cards one student?"_s,
        {u"One student: join the cards"_s, u"Two students: change nothing"_s});
    if (answer != 0) return QString();
  }
  return saidIf(book.joinCards(by, pair->kept.child, pair->other.child, values.text(reasonKey)),
                u"The cards are joined under number %1. Separate cards undoes it."_s.arg(
                    toQt(pair->kept.number)));
}

} // namespace

AreaForm joiningCards(Context& context) {
  return {.name = u"Join"_s,
          .words = u"Join cards"_s,
          .key = Qt::Key_J,
          .asksReason = true,
          .save = u"Compare and join"_s,
          .note = u"For one student with two cards. Both are shown side by side before anything "
                  "changes."_s,
          .changes = [](const Thing&) -> Result<QStringList> {
            return QStringList{u"Forms, visits and letters of both are on one card; the card "
                               "entered first is kept, on every laptop."_s};
          },
          .fields = [](const Thing&) -> std::vector<Field> {
            return {{.key = otherNumber,
                     .words = u"Number of the other card"_s,
                     .hint = u"From its slip: scan it or type it"_s,
                     .isNeeded = true,
                     .takesScan = true}};
          },
          .values = [](const Thing&) -> Result<Values> { return Values(); },
          .act = [&context](By by, const Thing& id,
                            const Values& values) { return joinCards(context, by, id, values); },
          .refusedAt = {{ErrorCode::notFound, otherNumber},
                        {ErrorCode::ruleSameChild, otherNumber},
                        {ErrorCode::textMalformed, reasonKey}}};
}

AreaForm partingCards(Context& context) {
  auto& book = context.session;
  return {.name = u"Part"_s,
          .words = u"Separate cards"_s,
          .key = Qt::Key_X,
          .asksReason = true,
          .save = u"Separate cards"_s,
          .note = u"For two students who were joined by mistake: the card joined last is a card of "
                  "its own again."_s,
          .changes = [&book](const Thing& id) -> Result<QStringList> {
            const auto joins = book.joinsOf(roster::ChildId(*id));
            if (!joins) return joins.error();
            if (joins->empty()) return QStringList{u"No other card is joined to this student."_s};
            return QStringList{u"What was the other card's returns to it. What was entered since "
                               "stays here; move it by hand."_s};
          },
          .fields = [](const Thing&) { return std::vector<Field>(); },
          .values = [](const Thing&) -> Result<Values> { return Values(); },
          .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
            return saidIf(
                book.partCards(by, roster::ChildId(*id), values.text(reasonKey)),
                u"The cards are separate again. Find the other student by name or number."_s);
          },
          .refusedAt = {{ErrorCode::textMalformed, reasonKey}}};
}

} // namespace gk::ui
