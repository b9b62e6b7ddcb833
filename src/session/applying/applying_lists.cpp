#include "base/files/files.h"
#include "session/applying/applying_work.h"
#include "session/importing/roster_draft.h"

#include <map>

// What is of a school, a term or a light: counts, times, planned days, lists of students.
namespace gk::session {

using base::Error;
using base::ErrorCode;

Result<Recorded<roster::School>> Applying::schoolOf(const std::string& code,
                                                    const std::string& at) {
  const auto all = session_.schools();
  if (!all) return all.error();
  for (const auto& school : *all)
    if (school.value.code == code) return school;
  return located(at, ErrorCode::notFound,
                 "no school with that code is in the logbook or in the document");
}

Result<Recorded<roster::Term>> Applying::termOf(const std::string& name, const std::string& at) {
  const auto all = session_.terms();
  if (!all) return all.error();
  for (const auto& term : *all)
    if (term.value.name == name) return term;
  return located(at, ErrorCode::notFound,
                 "no term of that name is in the logbook or in the document");
}

Result<base::Done> Applying::enrollment() {
  // Read once for a term: a school has a dozen of them.
  std::map<std::string, std::pair<roster::TermId, std::vector<Recorded<roster::Enrollment>>>> terms;
  std::map<std::string, Recorded<roster::School>> schools;
  std::vector<roster::Enrollment> changed;
  for (const auto& said : document_.enrollment) {
    if (!terms.contains(said.term)) {
      const auto term = termOf(said.term, said.at);
      if (!term) return term.error();
      auto counted = session_.enrollments(term->id);
      if (!counted) return counted.error();
      terms.emplace(said.term, std::pair(term->id, std::move(*counted)));
    }
    if (!schools.contains(said.school)) {
      auto school = schoolOf(said.school, said.at);
      if (!school) return school.error();
      schools.emplace(said.school, std::move(*school));
    }
    const auto& [term, counted] = terms.at(said.term);
    const auto& school = schools.at(said.school);
    std::size_t before = 0;
    std::size_t same = 0;
    for (const auto& count : counted)
      if (count.value.school == school.id && count.value.grade == said.grade) {
        ++before;
        same += count.value.students == said.students ? 1 : 0;
      }
    if (before > 0 && same == before) {
      ++counts(SetupKind::enrollment).unchanged;
      continue;
    }
    changed.push_back({term, school.id, said.grade, said.students});
    note(SetupKind::enrollment, before == 0 ? SetupChange::added : SetupChange::corrected, said.at,
         school.value.name + ", " + said.term + ", grade " + said.grade + ": " +
             base::counted(said.students, "student", "students"));
  }
  if (changed.empty()) return base::Done{};
  if (const auto done = session_.enterEnrollments(by_, changed); !done)
    return located("/schools", done.error());
  return base::Done{};
}

Result<base::Done> Applying::eligibility() {
  for (const auto& said : document_.eligibility) {
    const auto term = termOf(said.term, said.at);
    if (!term) return term.error();
    const auto school = schoolOf(said.school, said.at);
    if (!school) return school.error();
    auto known = session_.eligibilities(term->id);
    if (!known) return known.error();
    std::erase_if(*known, [&](const auto& row) { return row.value.school != school->id; });
    const roster::MealEligibility now{term->id, school->id, said.percent, said.source};
    if (!known->empty() &&
        std::ranges::all_of(*known, [&](const auto& row) { return row.value == now; })) {
      ++counts(SetupKind::eligibility).unchanged;
      continue;
    }
    if (const auto done = session_.enterEligibility(by_, now); !done)
      return located(said.at, done.error());
    note(SetupKind::eligibility, known->empty() ? SetupChange::added : SetupChange::corrected,
         said.at,
         school->value.name + ", " + said.term + ": " + std::to_string(said.percent) +
             "% with free or reduced-price meals");
  }
  return base::Done{};
}

Result<base::Done> Applying::cureTimes() {
  if (document_.cureTimes.empty()) return base::Done{};
  const auto lights = session_.lights();
  if (!lights) return lights.error();
  const auto lots = session_.lots();
  if (!lots) return lots.error();
  for (const auto& said : document_.cureTimes) {
    const auto light =
        std::ranges::find(*lights, said.light, [](const auto& row) { return row.value.tag; });
    base::require(light != lights->end(), "a light that was just entered");
    // A time for a name that no lot has would never count.
    if (std::ranges::none_of(*lots,
                             [&](const auto& row) { return row.value.material == said.material; }))
      return located(said.at, ErrorCode::notFound,
                     "no lot of that material is in the logbook or in the document");
    auto known = session_.cureTimes();
    if (!known) return known.error();
    std::erase_if(*known, [&](const auto& row) {
      return row.value.light != light->id || row.value.material != said.material;
    });
    const kit::CureTime now{light->id, said.material, said.seconds};
    if (!known->empty() &&
        std::ranges::all_of(*known, [&](const auto& row) { return row.value == now; })) {
      ++counts(SetupKind::cureTimes).unchanged;
      continue;
    }
    if (const auto done = session_.enterCureTime(by_, now); !done)
      return located(said.at, done.error());
    note(
        SetupKind::cureTimes, known->empty() ? SetupChange::added : SetupChange::corrected, said.at,
        said.light + " with " + said.material + ": " + std::to_string(said.seconds.count()) + " s");
  }
  return base::Done{};
}

Result<base::Done> Applying::plans() {
  if (document_.plans.empty()) return base::Done{};
  const auto terms = session_.terms();
  if (!terms) return terms.error();
  for (const auto& said : document_.plans)
    if (auto done = plan(said, *terms); !done) return done;
  return base::Done{};
}

Result<base::Done> Applying::plan(const exchange::SetupPlan& said,
                                  const std::vector<Recorded<roster::Term>>& terms) {
  const auto& [at, day] = std::tie(said.day.at, said.day.value);
  const auto term = std::ranges::find_if(terms, [&](const auto& one) {
    return one.value.start <= day.date && day.date <= one.value.end;
  });
  if (term == terms.end()) return located(at, ErrorCode::ruleDate, "no term has that date");
  const auto school = schoolOf(said.school, at);
  if (!school) return school.error();
  const auto known = session_.plannedDays(term->id);
  if (!known) return known.error();
  const Recorded<roster::PlannedDay>* old = nullptr;
  for (const auto& one : *known)
    if (one.value.school == school->id && one.value.date == day.date &&
        one.value.team == day.team && (!old || old->value.canceled))
      old = &one;
  const auto words = school->value.name + " on " + day.date.words();
  const auto anyway = said.isConfirmed ? Confirmed::yes : Confirmed::no;
  if (!old) {
    auto now = day;
    now.term = term->id;
    now.school = school->id;
    if (const auto made = session_.planDay(by_, now, anyway); !made)
      return located(at, made.error());
    note(SetupKind::plannedDays, SetupChange::added, at, words);
    return base::Done{};
  }
  auto now = old->value;
  said.day.into(now, {});
  if (now == old->value) {
    ++counts(SetupKind::plannedDays).unchanged;
    return base::Done{};
  }
  if (auto given = hasReason(at); !given) return given;
  const auto names = changedNames(said.day, old->value);
  if (const auto done = session_.correctPlan(by_, old->id, now, document_.reason, anyway); !done)
    return located(at, done.error());
  note(SetupKind::plannedDays, SetupChange::corrected, at, words, names);
  return base::Done{};
}

Result<base::Done> Applying::students() {
  for (const auto& said : document_.rosters)
    if (auto done = students(said); !done) return done;
  return base::Done{};
}

namespace {

/// Whether no link on the way to it leads elsewhere. What is not there is nowhere else.
bool staysBelow(const base::Path& folder, const base::Path& file) {
  std::error_code unseen;
  const auto top = std::filesystem::weakly_canonical(folder.empty() ? "." : folder, unseen);
  if (unseen) return false;
  const auto at = std::filesystem::weakly_canonical(top / file, unseen);
  return !unseen && *at.lexically_relative(top).begin() != "..";
}

/// Below the folder of the document: by its words alone none has another file read.
Result<std::string> readList(const base::Path& folder, const exchange::SetupRoster& said) {
  const base::Path file(said.file);
  const bool isBelow = !said.file.empty() && file.is_relative() &&
                       std::ranges::none_of(file, [](const auto& part) { return part == ".."; }) &&
                       staysBelow(folder, file);
  if (!isBelow)
    return located(said.at + "/file", ErrorCode::documentMalformed,
                   "the list must be in the folder of the document or below it, without \"..\" and "
                   "not through a link to elsewhere");
  auto text = base::readFile(folder / file);
  if (text) return text;
  const auto code = text.error().code;
  return located(said.at + "/file", code,
                 code == ErrorCode::fileNotFound   ? "no such file in the folder of the document"
                 : code == ErrorCode::fileTooLarge ? "the list is larger than any school's"
                                                   : "the list cannot be read");
}

} // namespace

Result<base::Done> Applying::students(const exchange::SetupRoster& said) {
  const auto term = termOf(said.term, said.at);
  if (!term) return term.error();
  const auto school = schoolOf(said.school, said.at);
  if (!school) return school.error();
  const auto text = readList(aim_.folder, said);
  if (!text) return text.error();
  auto draft = RosterDraft::open(session_, *text, school->id);
  if (!draft) return located(said.at, draft.error());
  auto layout = draft->layout();
  layout.dates = said.dates.value_or(layout.dates);
  layout.early = said.early.value_or(layout.early);
  draft->setLayout(layout);
  const RosterAim aim{*term, school->id, aim_.today, said.agesConfirmed, said.othersConfirmed, {}};
  if (const auto looked = draft->look(session_, aim); !looked)
    return located(said.at, looked.error());
  const auto& plan = draft->plan();
  if (!plan.held.empty() && !said.acceptGood) {
    auto error = located(said.at, roster::problemsError(plan.held));
    error.detail += " (\"accept_good\" imports the other rows; import-roster answers questions)";
    return error;
  }
  if (const auto written = draft->write(session_, by_); !written)
    return located(said.at, written.error());
  auto& count = counts(SetupKind::students);
  count.added += plan.entering.size();
  count.corrected += plan.changed.size();
  count.unchanged += plan.unchanged;
  applied_.held += plan.held.size();
  if (plan.entering.empty() && plan.changed.empty()) return base::Done{};
  applied_.lines.push_back({said.at,
                            plan.entering.empty() ? SetupChange::corrected : SetupChange::added,
                            school->value.name + ": " + countsOf(plan),
                            {}});
  return base::Done{};
}

} // namespace gk::session
