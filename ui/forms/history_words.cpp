#include "ui/forms/history_words.h"

#include <ranges>

namespace gk::ui {

namespace {

QString whoOf(const base::Stamp& stamp,
              const std::vector<base::Recorded<roster::Member>>& members) {
  if (!stamp.by.author) return u"at setup"_s;
  for (const auto& member : members)
    if (member.id == *stamp.by.author) return toQt(member.value.initials);
  return u"someone not on the team"_s;
}

QString changesOf(const Values& before, const Values& now, const std::vector<Field>& fields) {
  QStringList changes;
  for (const auto& field : fields) {
    const auto was = shownValue(field, before);
    const auto is = shownValue(field, now);
    if (was != is) changes += field.words + u": "_s + was + u" → "_s + is;
  }
  return changes.join(u"; "_s);
}

} // namespace

QString wordsOf(const std::vector<Revision>& revisions, const std::vector<Field>& fields,
                const std::vector<base::Recorded<roster::Member>>& members) {
  QStringList lines{u"History"_s};
  for (std::size_t i = revisions.size(); i-- > 0;) {
    const auto& [stamp, values] = revisions[i];
    const auto when = toQt(stamp.at.date().words()) + u", "_s + whoOf(stamp, members);
    if (i == 0) {
      lines += when + u": entered"_s;
      continue;
    }
    const auto changes = changesOf(revisions[i - 1].values, values, fields);
    lines += when + u": "_s + toQt(stamp.reason) +
             (changes.isEmpty() ? QString() : u" ("_s + changes + u")"_s);
  }
  return lines.join(u'\n');
}

} // namespace gk::ui
