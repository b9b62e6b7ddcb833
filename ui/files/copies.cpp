#include "ui/files/copies.h"

#include "session/values/erasure.h"
#include "ui/asking/own_pin.h"
#include "ui/support/text.h"

namespace gk::ui {

namespace {

using session::Agreed;

/// Whether the merge stopped to ask.
bool isAsked(const base::Error& why) {
  return why.code == base::ErrorCode::storeForked || why.code == base::ErrorCode::storeAhead ||
         why.code == base::ErrorCode::storeErases;
}

/// The one who erases them here says how many entries go, as was asked, and gives her PIN.
std::optional<session::ErasureYes> erasureYes(Context& context, const QString& asked) {
  auto& prompter = context.prompter;
  const auto answer = prompter.decide(
      asked + u"Take their records out of this logbook too?"_s,
      {u"Yes, it was decided: erase them here too"_s, u"No, or not sure: leave both unchanged"_s});
  if (answer != 0) return std::nullopt;
  const auto typed =
      prompter.text(u"Number of entries, as counted in the question, to erase them"_s, QString());
  bool isNumber = false;
  const auto entries = typed ? typed->trimmed().toLongLong(&isNumber) : 0;
  if (!isNumber) return std::nullopt;
  const auto by = context.acting.by();
  const auto own = askOwnPin(context, by.author, u"erasing students"_s);
  if (!own) return std::nullopt;
  return session::ErasureYes{by, entries, *own};
}

/// What is agreed to now as well, or none.
std::optional<Agreed> agreedNow(Context& context, const base::Error& why, Agreed before) {
  const auto asked = toQt(why.detail) + u". "_s;
  if (why.code == base::ErrorCode::storeErases) {
    before.erasures = erasureYes(context, asked);
    return before.erasures ? std::optional(before) : std::nullopt;
  }
  if (why.code == base::ErrorCode::storeAhead) {
    before.ahead = context.prompter.decide(asked + u"Was that laptop's clock wrong?"_s,
                                           {u"Yes, its clock was wrong: take the entries"_s,
                                            u"No, or not sure: leave both unchanged"_s}) == 0;
    return before.ahead ? std::optional(before) : std::nullopt;
  }
  before.copies = context.prompter.decide(asked + u"Was the disk or the logbook copied?"_s,
                                          {u"Yes, it was copied: join both"_s,
                                           u"No, or not sure: leave both unchanged"_s}) == 0;
  return before.copies ? std::optional(before) : std::nullopt;
}

} // namespace

void mergeAsking(Context& context, QObject* owner, const Absorb& absorb, const MergeSaid& words,
                 const MergeDone& then, const Agreed& agreed) {
  // Nothing else asks the book meanwhile: the window is covered (LongWork::hasBook).
  context.work.runOnBook(
      LongKind::merge, owner, context.session,
      [absorb, agreed](const base::Progress& progress) { return absorb(agreed, progress); },
      [&context, owner, absorb, words, then, agreed](const base::Result<session::Merged>& merged) {
        if (merged) return then(words(*merged));
        if (!isAsked(merged.error())) return then(merged.error());
        if (const auto more = agreedNow(context, merged.error(), agreed))
          return mergeAsking(context, owner, absorb, words, then, *more);
        then(u"Not merged. Nothing is lost: both logbooks are as they were."_s);
      });
}

QString mergedWords(const session::Merged& merged) {
  auto words = merged.newEntries > 0
                   ? u"Merged: "_s + counted(merged.newEntries, "new entry", "new entries")
                   : u"Nothing new was in it"_s;
  if (merged.erased > 0)
    words +=
        u". "_s + counted(merged.erased, "entry", "entries") + u" of erased students removed"_s;
  if (!merged.isForgotten) words += u". ▲ "_s + toQt(session::tracesLeft).chopped(1);
  if (merged.lines > 0)
    words += u". The copies are joined, each under its own name, and it is not asked again"_s;
  return words;
}

} // namespace gk::ui
