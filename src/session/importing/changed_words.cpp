#include "session/importing/changed_words.h"

#include "base/text/text.h"
#include "roster/display_names.h"

#include <algorithm>

namespace gk::session {

namespace {

std::string guardianWords(const Guardian& one) {
  std::vector<std::string> words;
  for (const auto* part : {&one.name, &one.relation, &one.phone, &one.language})
    if (!part->empty()) words.push_back(*part);
  return base::join(words, ", ");
}

std::string namesWords(const Identity& who) {
  return who.legalName() + (who.nameUsed.empty() ? "" : " (" + who.nameUsed + ")");
}

/// Both sides of whatever differs, each as "what: value".
class BeforeAfter {
 public:
  void add(const std::string& what, const std::string& before, const std::string& after) {
    if (before == after) return;
    const auto said = [&](const std::string& value) {
      return (what.empty() ? "" : what + " ") + (value.empty() ? "blank" : value);
    };
    before_.push_back(said(before));
    after_.push_back(said(after));
  }
  /// What is new beside what stays.
  void added(const std::string& what) { after_.push_back(what); }

  [[nodiscard]] std::string before() const { return base::join(before_, "; "); }
  [[nodiscard]] std::string after() const { return base::join(after_, "; "); }

 private:
  std::vector<std::string> before_{};
  std::vector<std::string> after_{};
};

void addIdentity(BeforeAfter& words, const Identity& was, const Identity& now) {
  words.add("", namesWords(was), namesWords(now));
  words.add("born", was.birth.words(), now.birth.words());
  words.add("student ID", was.studentId, now.studentId);
  words.add("teacher", was.teacher, now.teacher);
  for (std::size_t i = 0; i < std::max(was.guardians.size(), now.guardians.size()); ++i)
    words.add("guardian", i < was.guardians.size() ? guardianWords(was.guardians[i]) : "",
              i < now.guardians.size() ? guardianWords(now.guardians[i]) : "");
}

void addCard(BeforeAfter& words, const PlannedChange& one,
             const std::function<std::string(roster::SchoolId)>& schoolName) {
  const auto& was = one.was.value;
  const auto& now = one.card;
  if (was.school != now.school) words.add("", schoolName(was.school), schoolName(now.school));
  words.add("grade", was.grade, now.grade);
  words.add("room", was.room, now.room);
  words.add("sex", std::string(base::displayName(was.sex)),
            std::string(base::displayName(now.sex)));
  words.add("", was.left ? "left" : "on the roster", now.left ? "left" : "on the roster");
  words.add("", was.provisional ? "not confirmed" : "confirmed",
            now.provisional ? "not confirmed" : "confirmed");
}

} // namespace

std::vector<ChangedLine>
changedLines(const RosterPlan& plan,
             const std::function<std::string(roster::SchoolId)>& schoolName) {
  std::vector<ChangedLine> lines;
  for (const auto& one : plan.changed) {
    BeforeAfter words;
    if (one.identity) addIdentity(words, one.before, *one.identity);
    addCard(words, one, schoolName);
    if (one.form) words.added("form: " + std::string(base::displayName(one.form->state)));
    for (const auto& alert : one.alerts)
      words.added("health alert: " + std::string(base::displayName(alert.kind)) + " (" +
                  std::string(base::displayName(alert.action)) + ")");
    if (one.background) words.added("race and ethnicity, insurance");
    lines.push_back({one.card.number, one.before.shownName(), words.before(), words.after(),
                     one.what.has(RosterChange::name) || one.what.has(RosterChange::birthDate)});
  }
  std::ranges::stable_sort(lines, std::greater{}, &ChangedLine::isWho);
  return lines;
}

} // namespace gk::session
