#include "ui/close_out/merge_question.h"

#include "base/text/text.h"
#include "reports/merges/merge_table.h"
#include "ui/support/text.h"

namespace gk::ui {

using base::Result;
using followup::MergeVerdict;

namespace {

QString keepWords(const reports::MergeQuestion& question, const reports::MergeSide& side) {
  auto words = (question.other ? u"One student, keep "_s : u"Keep "_s) + toQt(side.words);
  if (!side.wouldLose.empty()) words += u". DROPS: "_s + toQt(base::join(side.wouldLose, "; "));
  return words;
}

/// The session refuses to drop a serious finding until it is told that this is meant.
Result<bool> answered(Context& context, const reports::MergeQuestion& question,
                      const followup::MergeAnswer& answer, const QString& wouldLose) {
  auto noted = context.session.answerMerge(context.acting.by(), answer);
  if (!noted && noted.error().code == base::ErrorCode::ruleSeriousFinding) {
    const auto meant = context.prompter.decide(
        u"%1: the dropped visit found more: %2. The kept visit did not. Nothing is "
        "saved yet. Drop it?"_s.arg(toQt(question.shown), wouldLose),
        {u"No: go back"_s, u"Drop it; it stays in the history"_s});
    if (meant != 1) return false;
    noted = context.session.answerMerge(context.acting.by(), answer, session::Confirmed::yes);
  }
  return isDone(noted);
}

/// One thing that two laptops corrected: one of the words is kept.
Result<bool> settled(Context& context, const reports::MergeQuestion& question) {
  QStringList options;
  for (const auto& side : question.sides)
    options += u"Keep: "_s + toQt(side.words);
  const auto chosen = context.prompter.decideBy(
      reports::mergeTable(question), toQt(question.shown) + u": "_s + toQt(question.what) + u"."_s,
      options);
  if (!chosen) return false;
  const auto& side = question.sides.at(static_cast<std::size_t>(*chosen));
  return isDone(context.session.settleWords(context.acting.by(), *side.word));
}

} // namespace

Result<bool> answerQuestion(Context& context, const reports::MergeQuestion& question,
                            roster::DayId day) {
  if (question.sides.front().word) return settled(context, question);
  QStringList options;
  for (const auto& side : question.sides)
    options += keepWords(question, side);
  options += question.other ? u"Two students"_s : u"Both happened (reason)"_s;
  const auto chosen = context.prompter.decideBy(
      reports::mergeTable(question), toQt(question.shown) + u": "_s + toQt(question.what) + u"."_s,
      options);
  if (!chosen) return false;
  followup::MergeAnswer answer{.day = day,
                               .child = *question.child,
                               .other = question.other,
                               .seen = static_cast<int>(question.sides.size())};
  QString wouldLose;
  const auto place = static_cast<std::size_t>(*chosen);
  if (place < question.sides.size()) {
    const auto& side = question.sides[place];
    answer.verdict = MergeVerdict::keptOne;
    answer.kept = side.laptop;
    wouldLose = toQt(base::join(side.wouldLose, "; "));
    if (question.other && side.card == question.other) std::swap(answer.child, *answer.other);
  } else if (!question.other) {
    const auto why = context.prompter.text(u"How did both happen?"_s, {});
    if (!why) return false;
    answer.note = toStd(why->trimmed());
  }
  return answered(context, question, answer, wouldLose);
}

Result<bool> reopenQuestion(Context& context, const reports::AnsweredQuestion& old) {
  const auto why = context.prompter.text(
      u"%1: %2. Reason for changing this answer? The old one stays in the history."_s.arg(
          toQt(old.shown), toQt(old.words)),
      {});
  if (!why || why->trimmed().isEmpty()) return false;
  return isDone(
      context.session.reopenMerge(context.acting.by(), old.answer, toStd(why->trimmed())));
}

Result<bool> joinAgain(Context& context, const reports::Blocker& blocker) {
  const auto pair = context.session.cardPair(*blocker.child, *blocker.joined);
  if (!pair) return pair.error();
  const auto how = context.prompter.decideBy(
      session::cardTable(*pair), u"%1: %2."_s.arg(toQt(blocker.shown), toQt(blocker.what)),
      {u"One student: put the entries on the kept card"_s,
       u"Leave it: two students after all (Desk, Students, Separate cards)"_s});
  if (how != 0) return false;
  return isDone(context.session.joinCards(context.acting.by(base::Station::rosters), *blocker.child,
                                          *blocker.joined,
                                          "entries of another laptop for the joined card"));
}

} // namespace gk::ui
