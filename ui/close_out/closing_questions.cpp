#include "ui/close_out/closing_questions.h"

#include "base/contract.h"
#include "base/text/text.h"
#include "reports/display_names.h"
#include "ui/support/text.h"

#include <algorithm>
#include <array>

namespace gk::ui {

using base::Result;
using followup::Paper;
using followup::PaperCount;

namespace {

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
  if (const auto noted = context.session.countPaper(context.acting.by(), count); !noted)
    return noted.error();
  return true;
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
  const auto noted =
      context.session.countPaper(context.acting.by(), {.day = day, .paper = Paper::other});
  if (!noted) return noted.error();
  return true;
}

} // namespace

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
    const auto passed =
        context.session.passOverLight(context.acting.by(), {day, id, toStd(why->trimmed())});
    if (!passed) return passed.error();
    return true;
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
  if (!read) return read.error();
  return true;
}

Result<bool> joinAgain(Context& context, const reports::Blocker& blocker) {
  const auto pair = context.session.cardPair(*blocker.child, *blocker.joined);
  if (!pair) return pair.error();
  const auto how = context.prompter.decideBy(
      session::cardTable(*pair), u"%1: %2."_s.arg(toQt(blocker.shown), toQt(blocker.what)),
      {u"One student: put the entries on the kept card"_s,
       u"Leave it: two students after all (Desk, Students, Separate cards)"_s});
  if (how != 0) return false;
  const auto joined =
      context.session.joinCards(context.acting.by(base::Station::rosters), *blocker.child,
                                *blocker.joined, "entries of another laptop for the joined card");
  if (!joined) return joined.error();
  return true;
}

} // namespace gk::ui
