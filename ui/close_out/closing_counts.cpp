#include "ui/close_out/closing_counts.h"

#include "base/contract.h"
#include "base/text/text.h"
#include "reports/display_names.h"
#include "ui/support/text.h"

#include <algorithm>
#include <array>
#include <type_traits>

namespace gk::ui {

using base::Result;
using followup::Paper;

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

base::Error notNumbers() {
  return {base::ErrorCode::numberMalformed, "type whole numbers: returned, handed out, shredded"};
}

/// Of each field a number; an empty one is zero.
Result<std::array<int, 3>> threeCounts(const QStringList& said) {
  std::array<int, 3> counts{};
  base::require(said.size() == static_cast<qsizetype>(counts.size()), "three fields");
  for (std::size_t i = 0; i < counts.size(); ++i) {
    const auto& text = said[static_cast<qsizetype>(i)];
    if (text.isEmpty()) continue;
    const auto number = base::parseInt(toStd(text));
    if (!number || *number < 0 || *number > 9999) return notNumbers();
    counts[i] = static_cast<int>(*number);
  }
  return counts;
}

/// What is most likely: nurses keep their sheets, the rest comes back.
std::vector<Prompter::FormLine> usualPlaces(Paper paper, int missing) {
  const auto all = QString::number(std::max(missing, 0));
  const bool isKept = paper == Paper::nurseSheets;
  return {{u"Returned"_s, isKept ? u"0"_s : all},
          {u"Handed out"_s, isKept ? all : u"0"_s},
          {u"Shredded"_s, u"0"_s}};
}

/// Asks where the sheets are, and why they do not add up when they do not.
Result<bool> countIn(Context& context, const reports::PaperLine& line) {
  auto count = line.count;
  const int open = count.out - line.known;
  const auto words = capital(toQt(base::displayName(count.paper)));
  const auto said =
      context.prompter.fill(u"%1: %2 unaccounted for. Where are they?"_s.arg(words).arg(open),
                            usualPlaces(count.paper, open));
  if (!said) return false;
  const auto counts = threeCounts(*said);
  if (!counts) return counts.error();
  const auto& [back, handed, shredded] = *counts;
  count.back = back;
  count.handed = handed;
  count.shredded = shredded;
  count.reason.clear();
  if (const int missing = open - back - handed - shredded; missing != 0) {
    const auto question = missing > 0 ? u"%1: %2 unaccounted for. Where are they?"_s
                                      : u"%1: %2 more than went out. Why?"_s;
    const auto why = context.prompter.text(question.arg(words).arg(std::abs(missing)), {});
    if (why) count.reason = toStd(why->trimmed());
  }
  return isDone(context.session.countPaper(context.acting.by(), count));
}

Result<bool> askOtherPaper(Context& context, const reports::CloseOut& sheet, roster::DayId day) {
  reports::PaperLine line{{.day = day, .paper = Paper::other}};
  for (const auto& one : sheet.papers)
    if (one.count.paper == Paper::other) line = one;
  const auto said = context.prompter.text(
      u"How many other printed lists went out today (school lists, slips, copies)? "
      "0 if none."_s,
      QString::number(line.count.out));
  if (!said) return false;
  const auto number = base::parseInt(toStd(said->trimmed()));
  if (!number || *number < 0 || *number > 9999) return notNumbers();
  line.count.out = static_cast<int>(*number);
  if (line.count.out > 0) return countIn(context, line);
  return isDone(
      context.session.countPaper(context.acting.by(), {.day = day, .paper = Paper::other}));
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
  return isDone(sayCosts(context, sheet, effort));
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
    return isDone(context.session.quarantineLot(context.acting.by(), line.lot, toStd(*why)));
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
  return isDone(context.session.countLot(context.acting.by(), *count));
}

Result<bool> countPaperIn(Context& context, const reports::CloseOut& sheet, roster::DayId day) {
  bool asked = false;
  for (const auto& line : sheet.papers) {
    if (line.isSettled() || line.count.paper == Paper::other) continue;
    asked = true;
    auto counted = countIn(context, line);
    if (!counted || !*counted) return counted;
  }
  const bool isOtherOpen = std::ranges::any_of(sheet.papers, [](const auto& line) {
    return line.count.paper == Paper::other && !line.isSettled();
  });
  if (asked && sheet.paperCounted && !isOtherOpen) return true;
  return askOtherPaper(context, sheet, day);
}

Result<bool> readLightAgain(Context& context, kit::LightId id, roster::DayId day) {
  const auto lights = context.session.lights();
  if (!lights) return lights.error();
  const auto light = std::ranges::find(*lights, id, &base::Recorded<kit::Light>::id);
  if (light == lights->end()) return false;
  const auto tag = toQt(light->value.tag);
  const auto said = context.prompter.text(
      u"Light %1 before leaving: what does meter %2 read, in mW/cm²? Baseline %3. "
      "Blank: not read."_s.arg(tag, toQt(light->value.meter))
          .arg(light->value.baseline.value),
      {});
  if (!said) return false;
  if (said->trimmed().isEmpty()) {
    const auto why = context.prompter.text(u"Why is %1 not read?"_s.arg(tag), {});
    if (!why || why->trimmed().isEmpty()) return false;
    return isDone(
        context.session.passOverLight(context.acting.by(), {day, id, toStd(why->trimmed())}));
  }
  const auto value = base::parseInt(toStd(said->trimmed()));
  if (!value) return value.error();
  const auto number = static_cast<int>(std::clamp<std::int64_t>(*value, -1, 9999));
  const auto on = context.session.day(day);
  if (!on) return on.error();
  const kit::MeterReading reading{.light = id,
                                  .on = on->value.date,
                                  .value = {number},
                                  .withSleeve = light->value.baselineWithSleeve,
                                  .meter = light->value.meter};
  auto read = context.session.enterReading(context.acting.by(), reading);
  if (!read && read.error().code == base::ErrorCode::ruleLight) {
    const auto chosen =
        context.prompter.decide(capital(toQt(read.error().detail)) + u'.',
                                {u"Read it again"_s, u"The meter shows %1"_s.arg(number)});
    if (!chosen) return false;
    if (*chosen == 0) return readLightAgain(context, id, day);
    read = context.session.enterReading(context.acting.by(), reading, session::Confirmed::yes);
  }
  return isDone(read);
}

} // namespace gk::ui
