#include "ui/close_out/closing_counts.h"

#include "base/text.h"
#include "ui/support/text.h"

#include <QRegularExpression>

#include <type_traits>

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
Result<roster::DayEffort> readChairs(const QString& text) {
  const auto words = wordsIn(text);
  const auto chairs = words.size() == 2 ? base::parseInt(toStd(words[0])) : base::parseInt("");
  if (!chairs || *chairs < 0 || *chairs > 100)
    return malformed("type how many chairs and for how many hours: 2 5.5");
  const auto open = roster::parseHours(toStd(words[1]));
  if (!open) return open.error();
  roster::DayEffort effort{.day = roster::DayId(base::Uuid{}),
                           .chairs = static_cast<int>(*chairs),
                           .open = *open,
                           .people = {}};
  if (const auto sound = roster::checkEffort(effort); !sound) return sound.error();
  return effort;
}

Result<int> wholeNumber(const QString& text, const char* otherwise) {
  const auto number = base::parseInt(toStd(text.trimmed()));
  if (!number || *number < 0 || *number > 100000) return malformed(otherwise);
  return static_cast<int>(*number);
}

/// Asks until the answer can be read, with what was typed and why it cannot.
template <class Read>
auto askUntilRead(Context& context, const QString& question, const QString& suggestion, Read read)
    -> std::optional<typename std::invoke_result_t<Read, const QString&>::value_type> {
  auto asked = question;
  auto standing = suggestion;
  while (true) {
    const auto said = context.prompter.text(asked, standing);
    if (!said) return std::nullopt;
    auto value = read(*said);
    if (value) return std::move(*value);
    asked = toQt(value.error().detail) + u".\n"_s + question;
    standing = *said;
  }
}

base::Error nobodyAtWork() {
  return {base::ErrorCode::ruleCredential, "select the team member first"};
}

/// Left blank or backed out of, the costs stay as they are: bills often come later.
Result<base::Done> sayCosts(Context& context, const reports::CloseOut& sheet,
                            const roster::DayEffort& effort) {
  const auto usual = context.session.lastCosts();
  if (!usual) return usual.error();
  const auto textOf = [](const roster::DayCost& one) { return toQt(roster::costsText(one.lines)); };
  const auto last = *usual && !sheet.cost ? u" Last time: %1."_s.arg(textOf(**usual)) : QString();
  const auto lines = askUntilRead(
      context,
      u"What did the day cost? Such as staff 412.50, supplies 60, travel 25; \"hygienist 42/h\" is "
      "the hours above at that rate. Leave it blank if not known yet."_s +
          last,
      sheet.cost ? textOf(*sheet.cost) : QString(),
      [&](const QString& text) { return roster::parseCosts(toStd(text), effort.people); });
  if (!lines || lines->empty()) return base::Done{};
  return context.session.enterCosts(context.acting.by(), {effort.day, *lines});
}

} // namespace

Result<bool> sayEffort(Context& context, const reports::CloseOut& sheet, roster::DayId day) {
  if (!context.acting.by().author) return nobodyAtWork();
  const auto usual = context.session.lastEffort();
  if (!usual) return usual.error();
  // Another day's figures are told, not put in: three Enters would write them for today.
  const auto last = [&](const QString& words) {
    return *usual && !sheet.effort ? u" Last time: %1."_s.arg(words) : QString();
  };
  const auto chairsOf = [](const roster::DayEffort& one) {
    return u"%1 %2"_s.arg(one.chairs).arg(toQt(roster::hoursText(one.open)));
  };
  const auto peopleOf = [](const roster::DayEffort& one) {
    return toQt(roster::peopleText(one.people));
  };
  const auto chairs = askUntilRead(
      context,
      u"How many chairs today, and for how many hours were they open? Such as 2 5.5"_s +
          last(*usual ? chairsOf(**usual) : QString()),
      sheet.effort ? chairsOf(*sheet.effort) : QString(), readChairs);
  if (!chairs) return false;
  const auto people =
      askUntilRead(context,
                   u"Total hours by role? Such as hygienist 6, dental assistant 5.5"_s +
                       last(*usual ? peopleOf(**usual) : QString()),
                   sheet.effort ? peopleOf(*sheet.effort) : QString(), [&](const QString& text) {
                     auto read = roster::parsePeople(toStd(text));
                     if (!read) return read;
                     auto effort = *chairs;
                     effort.day = day;
                     effort.people = *read;
                     if (const auto sound = roster::checkEffort(effort); !sound)
                       return Result<std::vector<roster::RoleTime>>(sound.error());
                     return read;
                   });
  if (!people) return false;
  const auto taught = askUntilRead(
      context, u"Students receiving oral health education today? 0 if none."_s,
      QString::number(sheet.effort ? sheet.effort->taught : 0), [](const QString& text) {
        return wholeNumber(text, "type the number of students taught, 0 if none");
      });
  if (!taught) return false;
  auto effort = *chairs;
  effort.day = day;
  effort.people = *people;
  effort.taught = *taught;
  if (const auto noted = context.session.enterEffort(context.acting.by(), effort); !noted)
    return noted.error();
  if (const auto noted = sayCosts(context, sheet, effort); !noted) return noted.error();
  return true;
}

Result<bool> countSupply(Context& context, const reports::SupplyLine& line, roster::DayId day) {
  if (!context.acting.by().author) return nobodyAtWork();
  const auto lot = toQt(line.words);
  int chosen = 0;
  if (!line.setAside) {
    const auto what = context.prompter.decide(
        lot + u": what to record?"_s,
        {u"Packages opened and left"_s, u"Set aside: recalled, or in doubt"_s});
    if (!what) return false;
    chosen = *what;
  }
  if (chosen == 1) {
    const auto why =
        askUntilRead(context, u"Why is %1 set aside? It can no longer be used."_s.arg(lot), {},
                     [](const QString& text) -> Result<QString> {
                       if (text.trimmed().isEmpty()) return malformed("say why");
                       return text.trimmed();
                     });
    if (!why) return false;
    const auto aside = context.session.quarantineLot(context.acting.by(), line.lot, toStd(*why));
    if (!aside) return aside.error();
    return true;
  }
  const auto suggestion = line.opened
                              ? u"%1 %2"_s.arg(*line.opened)
                                    .arg(line.left ? QString::number(*line.left) : QString())
                                    .trimmed()
                              : QString();
  const auto read = [&](const QString& text) -> Result<kit::LotCount> {
    const auto words = wordsIn(text);
    if (words.isEmpty() || words.size() > 2)
      return malformed("type how many were opened and how many are left: 1 4");
    kit::LotCount count{.day = day, .lot = line.lot};
    const auto opened = wholeNumber(words[0], "type how many packages were opened: 1 4");
    if (!opened) return opened.error();
    count.opened = *opened;
    if (words.size() < 2) return count;
    const auto left = wholeNumber(words[1], "type how many packages are left: 1 4");
    if (!left) return left.error();
    count.left = *left;
    return count;
  };
  const auto count = askUntilRead(
      context,
      u"%1: how many packages were opened today, and how many are left? Such as 1 4. 0 left closes "
      "the lot."_s.arg(lot),
      suggestion, read);
  if (!count) return false;
  if (const auto noted = context.session.countLot(context.acting.by(), *count); !noted)
    return noted.error();
  return true;
}

} // namespace gk::ui
