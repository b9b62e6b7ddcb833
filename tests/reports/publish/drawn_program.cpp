#include "reports/publish/drawn_program.h"

#include <algorithm>

namespace gk::test {

using namespace reports;

namespace {

bool isCounted(const Drawn& one, bool firstIssue) {
  return one.seen && (!firstIssue || one.early);
}

} // namespace

DrawnProgram::DrawnProgram(base::Random& random)
    : random_(random), schools_(3 + below(5)), lowestGrade_(static_cast<int>(below(2))),
      grades_(3 + static_cast<int>(below(4))), hasSeconds_(below(3) == 0),
      eachHasFirst_(below(2) == 0), cohortIsWhole_(below(4) > 0), isSure_(below(3) > 0),
      refersAll_(below(2) == 0), looksSoon_(below(3) > 0), reseals_(below(2) == 0) {
  for (std::size_t i = 0; i < schools_; ++i)
    sizes_.push_back(40 + static_cast<int>(below(below(3) == 0 ? 40 : 130)));
}

std::vector<Drawn> DrawnProgram::drawTerm(const std::vector<Drawn>& before) {
  std::vector<Drawn> children;
  const double forms = .45 + .4 * random_.uniform();
  const double decay = .1 + .25 * random_.uniform();
  for (std::size_t school = 0; school < schools_; ++school) {
    const double missed = .2 * random_.uniform();
    const double unsealed = .3 * random_.uniform();
    for (int i = 0; i < sizes_[school]; ++i)
      children.push_back(drawChild(school, forms, decay, missed, unsealed));
  }
  if (reseals_) drawReseals(children, before);
  return children;
}

/// One in twenty of those sealed last term: a recheck finds the sealant lost and reseals it, and
/// no one screens the child.
void DrawnProgram::drawReseals(std::vector<Drawn>& children, const std::vector<Drawn>& before) {
  for (std::size_t school = 0; school < schools_; ++school) {
    auto left = std::ranges::count_if(before, [&](const auto& one) {
      return one.school == school && one.sealed && random_.uniform() < .05;
    });
    for (auto& one : children) {
      if (left == 0) break;
      if (one.school != school || one.seen) continue;
      --left;
      one.resealed = true;
      one.first = 1 + static_cast<int>(below(2));
      one.varnish = random_.uniform() < .4;
    }
  }
}

Participation DrawnProgram::count(const std::vector<Drawn>& children, bool firstIssue,
                                  std::optional<std::size_t> school,
                                  std::optional<int> grade) const {
  Participation at;
  at.enrolled = 0;
  for (const auto& one : children) {
    if ((school && one.school != *school) || (grade && one.grade != *grade)) continue;
    *at.enrolled += 1;
    at.formsBack += one.form ? 1 : 0;
    at.consented += one.yes ? 1 : 0;
    if (one.resealed && (!firstIssue || one.early)) {
      at.sealed += 1;
      at.sealedUnscreened += 1;
      at.firstMolars += one.first;
      at.varnish += one.varnish ? 1 : 0;
      at.varnishUnscreened += one.varnish ? 1 : 0;
    }
    if (!isCounted(one, firstIssue)) continue;
    at.screened += 1;
    at.needing += one.needs ? 1 : 0;
    at.sealed += one.sealed ? 1 : 0;
    at.varnish += one.varnish ? 1 : 0;
    at.firstMolars += one.first;
    at.secondMolars += one.second;
    at.otherTeeth += one.other;
    at.early += one.urgency == 1 ? 1 : 0;
    at.urgent += one.urgency == 2 ? 1 : 0;
    at.untreated = at.early + at.urgent;
    at.couldNotTell += one.toldOf ? 0 : 1;
  }
  return at;
}

StudentCounts DrawnProgram::students(const std::vector<Drawn>& children, bool firstIssue) {
  StudentCounts counts{};
  for (const auto& one : children) {
    if (!isCounted(one, firstIssue)) continue;
    ++counts.front();
    for (std::size_t i = 0; i < one.answers.size(); ++i)
      ++counts.at(static_cast<std::size_t>(studentQuestions().at(i).figures.at(one.answers.at(i))));
  }
  return counts;
}

EarlyChecks DrawnProgram::shortTerm(const std::vector<Drawn>& children, bool firstIssue) {
  EarlyChecks at;
  at.label = "Total";
  for (const auto& one : children) {
    if (one.looks.empty() || !isCounted(one, firstIssue)) continue;
    ++at.children;
    for (const auto look : one.looks)
      ++(look == 1 ? at.whole : look == 2 ? at.part : look == 3 ? at.lost : at.cannotAssess);
  }
  at.assessable = at.whole + at.part + at.lost;
  at.examined = at.assessable + at.cannotAssess;
  return at;
}

std::vector<SeenChild> DrawnProgram::seen(const std::vector<Drawn>& children, bool firstIssue) {
  std::vector<SeenChild> out;
  for (const auto& one : children) {
    if (!isCounted(one, firstIssue)) continue;
    const auto untreated =
        one.toldOf ? std::optional<bool>(one.urgency > 0) : std::optional<bool>();
    out.push_back({roster::SchoolId(base::Uuid{}),
                   one.grade == 0 ? "K" : std::to_string(one.grade),
                   {one.school, untreated, one.treated, one.hadSealants,
                    static_cast<estimates::CareNeed>(one.urgency)}});
  }
  return out;
}

RetentionLine DrawnProgram::check(const std::vector<Drawn>& before, std::size_t school) {
  RetentionLine at;
  const double found = .5 + .45 * random_.uniform();
  for (const auto& one : before) {
    if (one.school != school || !one.sealed) continue;
    if (!cohortIsWhole_ && below(12) == 0) continue;
    const int teeth = one.first + one.second + one.other;
    at.childrenDue += 1;
    at.due += teeth;
    if (random_.uniform() > found) continue;
    at.childrenFound += 1;
    for (int i = 0; i < teeth; ++i)
      look(at);
  }
  at.assessable = at.whole + at.part + at.lost;
  at.examined = at.assessable + at.cannotAssess;
  return at;
}

Drawn DrawnProgram::drawChild(std::size_t school, double forms, double decay, double missed,
                              double unsealed) {
  const auto chance = [&](double share) { return random_.uniform() < share; };
  Drawn one;
  one.school = school;
  one.grade = lowestGrade_ + static_cast<int>(below(static_cast<std::size_t>(grades_)));
  one.early = chance(.6);
  one.form = chance(forms);
  one.yes = one.form && chance(.9);
  one.seen = one.yes && !chance(missed);
  if (!one.seen) return one;
  one.needs = chance(.75);
  one.varnish = chance(.8);
  one.urgency = chance(decay) ? (chance(.15) ? 2 : 1) : 0;
  one.toldOf = isSure_ || one.urgency > 0 || !chance(.08);
  one.sealed = one.needs && !chance(unsealed);
  drawCare(one);
  if (!one.sealed) return one;
  one.second = hasSeconds_ && chance(.3) ? 1 + static_cast<int>(below(4)) : 0;
  one.first = 1 + static_cast<int>(below(2) + below(2) + below(2));
  if (one.second > 0 && !eachHasFirst_ && chance(.5)) one.first = 0;
  one.other = chance(.02) ? 1 : 0;
  if (looksSoon_ && chance(.3))
    for (int i = 0; i < one.first + one.second + one.other; ++i)
      one.looks.push_back(chance(.9) ? 1 : 2 + static_cast<int>(below(3)));
  return one;
}

/// What the forms said, what was there before, and what became of the call for a dentist.
void DrawnProgram::drawCare(Drawn& one) {
  const auto chance = [&](double share) { return random_.uniform() < share; };
  if (chance(.3)) one.treated = true;
  if (!one.toldOf && chance(.7)) one.treated.reset();
  if (chance(.15)) one.hadSealants = true;
  if (!isSure_ && chance(.05)) one.hadSealants.reset();
  for (std::size_t i = 0; i < one.answers.size(); ++i) {
    const auto answers = studentQuestions().at(i).figures.size();
    // Common ones and rare ones.
    const auto first = below(answers);
    one.answers.at(i) = std::min(first, below(answers));
  }
  if (one.urgency == 0 || !(refersAll_ || chance(.9))) return;
  one.referred = true;
  one.reached = chance(.7);
  one.closedEarly = chance(.4);
  one.outcome = chance(.6) ? 1 + below(6) : 0;
}

void DrawnProgram::look(RetentionLine& at) {
  const auto what = below(100);
  if (what < 84)
    at.whole += 1;
  else if (what < 90)
    at.part += 1;
  else if (what < 97)
    at.lost += 1;
  else
    at.cannotAssess += 1;
}

} // namespace gk::test
