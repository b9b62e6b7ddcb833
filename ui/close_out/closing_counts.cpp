#include "ui/close_out/closing_counts.h"

#include "base/contract.h"
#include "base/text/text.h"
#include "reports/display_names.h"
#include "ui/support/text.h"

#include <type_traits>

namespace gk::ui {

using base::Result;

namespace {

base::Error malformed(const char* words) {
  return {base::ErrorCode::numberMalformed, words};
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

using Lines = std::vector<Prompter::FormLine>;

/// Likewise with a field for each number: what was typed stands in the fields again.
template <class Read>
auto fillUntilRead(Context& context, const QString& question, Lines lines, Read read)
    -> std::optional<typename std::invoke_result_t<Read, const QStringList&>::value_type> {
  auto asked = question;
  while (true) {
    const auto said = context.prompter.fill(asked, lines);
    if (!said) return std::nullopt;
    auto value = read(*said);
    if (value) return std::move(*value);
    asked = toQt(value.error().detail) + u".\n"_s + question;
    for (std::size_t i = 0; i < lines.size(); ++i)
      lines[i].standing = said->at(static_cast<qsizetype>(i));
  }
}

/// The fields of a day's hours: chairs, how long they were open, each role, students taught.
Lines effortLines(const std::optional<roster::DayEffort>& effort) {
  Lines lines{{u"Chairs"_s, effort ? QString::number(effort->chairs) : QString()},
              {u"Hours open"_s, effort ? toQt(roster::hoursText(effort->open)) : QString()}};
  for (std::size_t i = 0; i < base::enumCount<roster::Role>; ++i) {
    const auto role = static_cast<roster::Role>(i);
    QString hours;
    if (effort)
      for (const auto& one : effort->people)
        if (one.role == role) hours = toQt(roster::hoursText(one.time));
    lines.push_back({capital(toQt(base::displayName(role))) + u", hours"_s, hours});
  }
  lines.push_back({u"Students taught"_s, QString::number(effort ? effort->taught : 0)});
  return lines;
}

Result<roster::DayEffort> readEffort(const QStringList& said, roster::DayId day) {
  constexpr auto roles = static_cast<qsizetype>(base::enumCount<roster::Role>);
  base::require(said.size() == roles + 3, "a field of the day's hours is missing");
  const auto chairs = wholeNumber(said[0], "type how many chairs there were");
  if (!chairs) return chairs.error();
  if (*chairs > 100) return malformed("type how many chairs there were, 100 at most");
  const auto open = roster::parseHours(toStd(said[1]));
  if (!open) return open.error();
  roster::DayEffort effort{.day = day, .chairs = *chairs, .open = *open, .people = {}};
  for (qsizetype i = 0; i < roles; ++i) {
    const auto& text = said[i + 2];
    if (text.isEmpty()) continue;
    const auto hours = roster::parseHours(toStd(text));
    if (!hours) return hours.error();
    if (hours->count() > 0) effort.people.push_back({static_cast<roster::Role>(i), *hours});
  }
  const auto taught = wholeNumber(said.back(), "type the number of students taught, 0 if none");
  if (!taught) return taught.error();
  effort.taught = *taught;
  if (const auto sound = roster::checkEffort(effort); !sound) return sound.error();
  return effort;
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
  // Another day's figures are told, not put in: Enter would write them for today.
  QString last;
  if (*usual && !sheet.effort)
    last = u" Last time: %1 chairs for %2 h; %3."_s.arg((*usual)->chairs)
               .arg(toQt(roster::hoursText((*usual)->open)),
                    toQt(roster::peopleText((*usual)->people)));
  const auto filled = fillUntilRead(
      context,
      u"Hours of today: the chairs, and each role's hours together. Such as 5.5 or 5:30."_s + last,
      effortLines(sheet.effort), [day](const QStringList& said) { return readEffort(said, day); });
  if (!filled) return false;
  const auto& effort = *filled;
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
  const auto read = [&](const QStringList& said) -> Result<kit::LotCount> {
    kit::LotCount count{.day = day, .lot = line.lot};
    const auto opened = wholeNumber(said[0], "type how many packages were opened");
    if (!opened) return opened.error();
    count.opened = *opened;
    if (said[1].isEmpty()) return count;
    const auto left = wholeNumber(said[1], "type how many packages are left, or nothing");
    if (!left) return left.error();
    count.left = *left;
    return count;
  };
  const auto textOf = [](const auto& known) { return known ? QString::number(*known) : QString(); };
  const auto count =
      fillUntilRead(context, u"%1: packages of today. 0 left closes the lot."_s.arg(lot),
                    {{u"Opened"_s, textOf(line.opened)}, {u"Left"_s, textOf(line.left)}}, read);
  if (!count) return false;
  if (const auto noted = context.session.countLot(context.acting.by(), *count); !noted)
    return noted.error();
  return true;
}

} // namespace gk::ui
