#include "ui/models/overview.h"

#include "base/text/text.h"
#include "reports/term/terms_report.h"
#include "ui/support/text.h"

#include <QLocale>

#include <algorithm>
#include <cmath>

namespace gk::ui {

namespace {

using reports::RetentionLine;

QString number(int count) {
  return QLocale(QLocale::English, QLocale::UnitedStates).toString(count);
}

QString shareOf(int part, int whole) {
  return whole > 0 ? toQt(base::percent(part, whole, 1)) + u'%' : u"–"_s;
}

Overview::Figure figure(const QString& title, const QString& count, const QString& of,
                        std::optional<double> share, std::optional<double> benchmark) {
  Overview::Figure made{title, count, of, {}, std::nullopt};
  if (!share || !benchmark) return made;
  made.met = *share >= *benchmark;
  made.benchmark = u"benchmark %1%: %2"_s.arg(toQt(base::percent(*benchmark, 0)),
                                              *made.met ? u"met"_s : u"below"_s);
  return made;
}

/// Only where the whole CI is on one side of the benchmark.
void addVerdict(Overview::Figure& made, double benchmark, const reports::RetentionLine& line) {
  using reports::AgainstBenchmark;
  const auto verdict = reports::againstBenchmark(benchmark, line);
  if (verdict != AgainstBenchmark::cannotTell) made.met = verdict == AgainstBenchmark::met;
  made.benchmark =
      u"benchmark %1%: %2"_s.arg(toQt(base::percent(benchmark, 0)), !made.met   ? u"cannot tell"_s
                                                                    : *made.met ? u"met"_s
                                                                                : u"below"_s);
}

std::optional<double> share(int part, int whole) {
  return whole > 0 ? std::optional(static_cast<double>(part) / whole) : std::nullopt;
}

void addRetention(Overview& out, const reports::TermTotals& totals) {
  const auto target = totals.targets.retained;
  if (target) out.benchmark = *target * 100;
  for (const auto& line : totals.retention.schools) {
    if (line.hidden || !line.whole95 || line.assessable == 0) continue;
    const auto range = reports::printedRange(*line.whole95);
    out.dots.push_back(
        {toQt(line.label), line.whole95->estimate * 100,
         range ? std::optional(estimates::Interval{range->low * 100, range->high * 100})
               : std::nullopt,
         line.assessable,
         target && reports::againstBenchmark(*target, line) == reports::AgainstBenchmark::below});
  }
  const auto& all = totals.retention.total;
  if (all.whole95) out.all = all.whole95->estimate * 100;
  if (out.dots.empty()) {
    out.dotsSay = u"No sealant of a year ago was assessed at this point of the term."_s;
    return;
  }
  const auto below = std::ranges::count_if(out.dots, &Overview::Dot::isBelow);
  const auto assessed = all.assessable;
  const auto who = below == 0 ? u"No school is"_s
                   : below == 1
                       ? std::ranges::find_if(out.dots, &Overview::Dot::isBelow)->words + u" is"_s
                       : counted(below, "school", "schools") + u" are"_s;
  out.dotsSay =
      target
          ? u"%1 below the program's own benchmark by more than chance explains. Assessed: %2."_s
                .arg(who, number(assessed))
          : u"Assessed: %1. The program has set no benchmark of its own."_s.arg(number(assessed));
}

void addFindings(Overview& out, const reports::Participation& all) {
  reports::PlotSeries blocks{"", reports::PlotMark::blocks, {}};
  std::vector<std::string> names;
  const auto add = [&](const char* name, int count, int of) {
    blocks.points.push_back({of > 0 ? 100.0 * count / of : 0, static_cast<double>(names.size())});
    blocks.said.push_back(std::to_string(count) + " of " + std::to_string(of) + ", " +
                          toStd(shareOf(count, of)));
    names.emplace_back(name);
  };
  add("Untreated decay", all.untreated, all.decayKnown());
  add("Early care needed", all.early, all.screened);
  add("Urgent care needed", all.urgent, all.screened);
  out.findings = {"",
                  {"% of students screened", 0, 100},
                  reports::namedRows(std::move(names)),
                  {std::move(blocks)}};
  out.findingsSays =
      all.screened == 0
          ? u"No student was screened yet."_s
          : u"%1 of %2 had untreated decay; %3."_s.arg(
                number(all.untreated), counted(all.decayKnown(), "student", "students"),
                all.urgent == 0
                    ? u"none needed urgent care"_s
                    : counted(all.urgent, "student", "students") + u" needed urgent care"_s);
  out.findings.says = toStd(out.findingsSays);
}

} // namespace

Trend trendOf(const std::vector<reports::TermTotals>& terms,
              const std::optional<roster::SchoolId>& school) {
  using reports::Participation;
  Trend out;
  out.plot = reports::termsReport(terms, reports::SideBySide::terms, school).front().plot;
  if (terms.size() < 2) {
    out.says = u"This is the first term in this logbook: there is nothing to compare it with."_s;
    return out;
  }
  const auto& first = terms.at(terms.size() - 2);
  const auto& last = terms.back();
  QString where;
  const auto consented = [&](const reports::TermTotals& term) {
    auto all = term.total;
    if (school) {
      const auto at = std::ranges::find(term.schools, *school, &Participation::id);
      all = at == term.schools.end() ? Participation{} : *at;
      if (!all.school.empty()) where = toQt(all.school) + u". "_s;
    }
    return all.enrolled ? shareOf(all.consented, *all.enrolled) : u"unknown"_s;
  };
  const auto before = consented(first);
  const auto now = consented(last);
  out.says =
      where + u"Consented, of enrolled: %1 in %2, %3 in %4.%5"_s.arg(
                  before, toQt(first.term), now, toQt(last.term),
                  terms.size() == 2 ? u" Two terms are a change, not yet a trend."_s : QString());
  return out;
}

Overview overviewOf(const reports::TermTotals& totals) {
  Overview out;
  const auto& all = totals.total;
  const auto& targets = totals.targets;
  out.figures.push_back(figure(u"Students screened"_s, number(all.screened),
                               shareOf(all.screened, all.consented) + u" of "_s +
                                   number(all.consented) + u" consented"_s,
                               share(all.screened, all.consented), targets.screened));
  out.figures.push_back(figure(u"Students sealed"_s, number(all.sealed),
                               shareOf(all.sealedInNeed(), all.needing) + u" of "_s +
                                   number(all.needing) + u" in need; "_s +
                                   counted(all.teeth(), "tooth", "teeth"),
                               share(all.sealedInNeed(), all.needing), targets.sealed));
  const auto& held = totals.retention.total;
  if (held.whole95 && held.assessable > 0) {
    const auto range = reports::rangeCell(held.whole95, held.unit).text();
    // A remark needs the line; how many were assessed stands over the schools too.
    const auto assessed = range.find(',') == std::string::npos
                              ? u"; %1 assessed"_s.arg(number(held.assessable))
                              : QString();
    out.figures.push_back(figure(u"Fully retained at one year"_s,
                                 toQt(base::percent(held.whole95->estimate)) + u'%',
                                 range.empty() ? u"%1 assessed"_s.arg(number(held.assessable))
                                               : u"95% CI "_s + toQt(range) + assessed,
                                 std::nullopt, std::nullopt));
    if (targets.retained) addVerdict(out.figures.back(), *targets.retained, held);
  } else {
    out.figures.push_back(
        {u"Fully retained at one year"_s, u"–"_s, u"none assessed yet"_s, {}, {}});
  }
  if (const auto& spared = totals.averted.averted) {
    const auto range = spared->interval;
    out.figures.push_back({u"Cavities averted, "_s + counted(totals.averted.years, "year", "years"),
                           number(static_cast<int>(std::lround(spared->averted))),
                           range
                               ? u"95% CI "_s + number(static_cast<int>(std::lround(range->low))) +
                                     u'-' + number(static_cast<int>(std::lround(range->high)))
                               : u"no range"_s,
                           u"an estimate, not a count"_s,
                           {}});
  } else {
    out.figures.push_back({u"Cavities averted"_s, u"–"_s, u"not enough data yet"_s, {}, {}});
  }

  if (all.enrolled) out.funnel.push_back({u"Enrolled"_s, *all.enrolled, {}});
  const auto step = [&](const QString& words, int count, int of, const QString& name) {
    out.funnel.push_back(
        {words, count, of > 0 ? shareOf(count, of) + u" of "_s + name : QString()});
  };
  step(u"Forms back"_s, all.formsBack, all.enrolled.value_or(0), u"enrolled"_s);
  step(u"Consented"_s, all.consented, all.enrolled.value_or(all.formsBack),
       all.enrolled ? u"enrolled"_s : u"forms"_s);
  step(u"Screened"_s, all.screened, all.consented, u"consented"_s);
  step(u"Need sealants"_s, all.needing, all.screened, u"screened"_s);
  step(all.sealedUnscreened > 0 ? u"Screened, sealed"_s : u"Sealed"_s, all.sealedInNeed(),
       all.needing, u"need"_s);
  out.funnelSays =
      (all.enrolled ? u"Enrolled %1, screened %2, sealed %3."_s.arg(
                          number(*all.enrolled), number(all.screened), number(all.sealed))
                    : u"Screened %1, sealed %2."_s.arg(number(all.screened), number(all.sealed)));
  addRetention(out, totals);
  addFindings(out, all);
  return out;
}

} // namespace gk::ui
