#include "ui/files/day_envelope.h"

#include "reports/records/inputs.h"
#include "ui/files/copies.h"
#include "ui/files/save_report.h"
#include "ui/support/text.h"

#include <algorithm>

namespace gk::ui {

namespace {

const QString envelopeFilter = u"Day envelope (*.gkday)"_s;

/// For which school's day; none: with everyone.
struct ForSchool {
  std::optional<roster::SchoolId> school{};
  QString words = u"Everyone"_s;
};

/// The school of the open day first, then the schools as the program has them. Nothing is asked
/// where there is nothing to choose.
base::Result<std::vector<ForSchool>> schoolsToSeal(session::Session& book, base::Date today) {
  std::vector<ForSchool> all;
  const auto one = book.oneSchool();
  if (!one) return one.error();
  const auto schools = book.openSchools(today);
  if (!schools) return schools.error();
  if (!*one && schools->size() > 1)
    for (const auto& school : *schools)
      all.push_back({school.id, toQt(school.value.name)});
  const auto open = book.openDayNow();
  if (open)
    std::ranges::stable_partition(
        all, [&](const auto& school) { return school.school == open->value.school; });
  all.emplace_back();
  return all;
}

} // namespace

void sealDayEnvelope(Context& context, QObject* owner, base::By by,
                     std::function<void(const base::Result<QString>&)> then) {
  const auto schools = schoolsToSeal(context.session, context.clock.now().date());
  if (!schools) return then(schools.error());
  ForSchool chosen;
  if (schools->size() > 1) {
    QStringList names;
    for (const auto& one : *schools)
      names += one.words;
    const auto at = context.prompter.choose(
        u"Whose day is it? The other laptop gets only that school's students."_s, names);
    if (!at) return;
    chosen = (*schools)[static_cast<std::size_t>(*at)];
  }
  const auto today = fileName(context.clock.now().date().words());
  auto path = context.prompter.newFile(u"Seal the logbook in a day envelope"_s,
                                       u"day-"_s + today + u".gkday"_s, envelopeFilter,
                                       FileHolds::sealedNames);
  if (!path) return;
  if (!path->endsWith(u".gkday"_s, Qt::CaseInsensitive)) *path += u".gkday"_s;
  const auto first = context.prompter.passphrase(
      u"A passphrase for this envelope. Tell it to the other laptop's team apart from the file."_s);
  if (!first) return;
  const auto second = context.prompter.passphrase(u"The same passphrase again"_s);
  if (!second) return;
  if (*first != *second)
    return then(base::Error{base::ErrorCode::callMalformed,
                            "the two passphrases differ; no envelope was made"});
  // The book is not asked meanwhile: the window is covered (LongWork::hasBook).
  context.work.runOnBook(
      LongKind::merge, owner, context.session,
      [&book = context.session, by, path = *path, chosen,
       words = toStd(*first)](const base::Progress& progress) -> base::Result<QString> {
        const auto sealed = book.sealDay(by, toStd(path), chosen.school, words, progress);
        if (!sealed) return sealed.error();
        return u"Sealed: %1. Carry file and passphrase apart."_s.arg(path) +
               (chosen.school ? u" It has only %1's students."_s.arg(chosen.words) : QString());
      },
      std::move(then));
}

void mergeDayEnvelope(Context& context, QObject* owner, base::By by,
                      const std::function<void(const base::Result<QString>&)>& then) {
  const auto path = context.prompter.openFile(u"The other laptop's day envelope"_s, envelopeFilter);
  if (!path) return;
  const auto typed = context.prompter.passphrase(u"The passphrase of this envelope"_s);
  if (!typed) return;
  auto& book = context.session;
  mergeAsking(
      context, owner,
      [&book, by, path = base::Path(toStd(*path)),
       words = toStd(*typed)](const session::Agreed& agreed, const base::Progress& progress) {
        return book.absorbEnvelope(by, path, words, agreed, progress);
      },
      [&book](const session::Merged& merged) {
        auto said = mergedWords(merged) + u"."_s;
        if (merged.newEntries > 0) said += u" Conflicts, if any, are in the close-out (F3)."_s;
        const auto late = book.lateOnCards();
        if (late && !late->empty())
          said += u" ▲ "_s + counted(std::ssize(*late), "joined card", "joined cards") +
                  u" got entries that are not on the kept card yet: see the close-out (F3), or "
                  u"Students on the desk (F8)."_s;
        return said;
      },
      then);
}

} // namespace gk::ui
