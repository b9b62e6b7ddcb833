#include "ui/pages/closing_counts.h"

#include "base/text.h"
#include "ui/support/text.h"

#include <QRegularExpression>

namespace gk::ui {

using base::Result;

namespace {

base::Error malformed(const char* words) {
  return {base::ErrorCode::numberMalformed, words};
}

QStringList wordsIn(const QString& text) {
  return text.split(QRegularExpression(u"[\\s;]+"_s), Qt::SkipEmptyParts);
}

/// "2 5.5": chairs, and hours they were open.
Result<base::Done> readChairs(const QString& text, roster::DayEffort& into) {
  const auto words = wordsIn(text);
  const auto chairs = words.size() == 2 ? base::parseInt(toStd(words[0])) : base::parseInt("");
  if (!chairs || *chairs < 0 || *chairs > 50)
    return malformed("type how many chairs and for how many hours: 2 5.5");
  const auto open = roster::parseHours(toStd(words[1]));
  if (!open) return open.error();
  into.chairs = static_cast<int>(*chairs);
  into.open = *open;
  return base::Done{};
}

Result<int> wholeNumber(const QString& text, const char* otherwise) {
  const auto number = base::parseInt(toStd(text.trimmed()));
  if (!number || *number < 0 || *number > 100000) return malformed(otherwise);
  return static_cast<int>(*number);
}

} // namespace

Result<bool> sayEffort(Context& context, const reports::CloseOut& sheet, roster::DayId day) {
  const auto usual = context.session.lastEffort();
  if (!usual) return usual.error();
  const auto known = sheet.effort ? sheet.effort : *usual;
  roster::DayEffort effort{.day = day, .people = {}};
  const auto chairs = context.prompter.text(
      u"How many chairs today, and for how many hours were they open? Such as 2 5.5"_s,
      known ? u"%1 %2"_s.arg(known->chairs).arg(toQt(roster::hoursText(known->open))) : QString());
  if (!chairs) return false;
  if (const auto read = readChairs(*chairs, effort); !read) return read.error();
  const auto people = context.prompter.text(
      u"Hours of each role, all its people together? Such as hygienist 6, dental assistant 5.5"_s,
      known ? toQt(roster::peopleText(known->people)) : QString());
  if (!people) return false;
  auto read = roster::parsePeople(toStd(*people));
  if (!read) return read.error();
  effort.people = std::move(*read);
  const auto taught =
      context.prompter.text(u"How many pupils had a lesson on oral health today? 0 when none."_s,
                            QString::number(sheet.effort ? sheet.effort->taught : 0));
  if (!taught) return false;
  const auto count = wholeNumber(*taught, "type how many pupils were taught, 0 when none");
  if (!count) return count.error();
  effort.taught = *count;
  if (const auto noted = context.session.enterEffort(context.acting.by(), effort); !noted)
    return noted.error();
  return true;
}

Result<bool> countSupply(Context& context, const reports::SupplyLine& line, roster::DayId day) {
  const auto lot = toQt(line.words);
  int chosen = 0;
  if (!line.setAside) {
    const auto what = context.prompter.choose(
        lot + u": what is to be noted?"_s,
        {u"Packages opened and left"_s, u"Set aside: recalled, or in doubt"_s});
    if (!what) return false;
    chosen = *what;
  }
  if (chosen == 1) {
    const auto why =
        context.prompter.text(u"Why is %1 set aside? From now on it is refused."_s.arg(lot), {});
    if (!why || why->trimmed().isEmpty()) return false;
    const auto aside =
        context.session.quarantineLot(context.acting.by(), line.lot, toStd(why->trimmed()));
    if (!aside) return aside.error();
    return true;
  }
  const auto suggestion = line.opened
                              ? u"%1 %2"_s.arg(*line.opened)
                                    .arg(line.left ? QString::number(*line.left) : QString())
                                    .trimmed()
                              : QString();
  const auto said = context.prompter.text(
      u"%1: how many packages were opened today, and how many are left? Such as 1 4. 0 left closes "
      "the lot."_s.arg(lot),
      suggestion);
  if (!said) return false;
  const auto words = wordsIn(*said);
  if (words.isEmpty() || words.size() > 2)
    return malformed("type how many were opened and how many are left: 1 4");
  kit::LotCount count{.day = day, .lot = line.lot};
  const auto opened = wholeNumber(words[0], "type how many packages were opened: 1 4");
  if (!opened) return opened.error();
  count.opened = *opened;
  if (words.size() == 2) {
    const auto left = wholeNumber(words[1], "type how many packages are left: 1 4");
    if (!left) return left.error();
    count.left = *left;
  }
  if (const auto noted = context.session.countLot(context.acting.by(), count); !noted)
    return noted.error();
  return true;
}

} // namespace gk::ui
