#include "session/importing/roster_match.h"

#include "base/text/text.h"
#include "roster/list/student_id.h"

#include <algorithm>
#include <map>

namespace gk::session {

using roster::LinkPerson;
using roster::LinkVerdict;
using roster::RosterLine;

roster::LinkPerson linkPerson(const Identity& identity, dentition::Sex sex) {
  return {base::folded(identity.first),
          base::folded(identity.middle),
          base::folded(identity.last),
          base::folded(identity.nameUsed),
          identity.birth,
          sex,
          roster::isNoStudentId(identity.studentId) ? std::string()
                                                    : roster::studentIdKey(identity.studentId)};
}

namespace {

/// An ID of two says of neither who it is.
void unsayShared(std::vector<LinkPerson>& people) {
  std::map<std::string, int> counts;
  for (const auto& one : people)
    ++counts[one.studentId];
  for (auto& one : people)
    if (counts[one.studentId] > 1) one.studentId.clear();
}

constexpr std::size_t mostPairs = 5; ///< of one row, the likest; the others once those are answered

/// "the same birth date and almost the same name".
std::string why(const roster::LinkAgreements& agree) {
  using roster::Agreement;
  std::vector<std::string> parts;
  const auto add = [&](Agreement how, const std::string& what) {
    if (how == Agreement::same) parts.push_back("the same " + what);
    if (how == Agreement::near) parts.push_back("almost the same " + what);
    if (how == Agreement::differs) parts.push_back("another " + what);
  };
  add(agree.studentId, "student ID");
  add(agree.first, "first name");
  add(agree.last, "last name");
  add(agree.birth, "birth date");
  return base::join(parts, ", ");
}

class Matching {
 public:
  Matching(std::span<const RosterLine> lines, std::span<const Identity> identities,
           std::span<const KnownChild> known, std::span<const PairAnswer> answers)
      : lines_(lines), known_(known), answers_(answers), takenBy_(known.size()) {
    for (std::size_t i = 0; i < lines.size(); ++i)
      rows_.push_back(linkPerson(identities[i], lines[i].sex));
    for (const auto& one : known)
      children_.push_back(linkPerson(one.identity, one.card.value.sex));
    unsayShared(rows_);
    unsayShared(children_);
    for (std::size_t k = 0; k < known.size(); ++k) {
      byNumber_[known[k].card.value.number].push_back(k);
      byBirth_[known[k].identity.birth].push_back(k);
      byCalled_[personOf(known[k].identity).called].push_back(k);
      if (!children_[k].studentId.empty()) byId_[children_[k].studentId].push_back(k);
    }
    for (const auto& identity : identities)
      people_.push_back(personOf(identity));
    matches_.rows.resize(lines.size());
  }

  RosterMatches run() {
    for (std::size_t i = 0; i < lines_.size(); ++i)
      takeNumber(i);
    for (std::size_t i = 0; i < lines_.size(); ++i)
      takeAnswers(i);
    takeSure();
    for (std::size_t i = 0; i < lines_.size(); ++i)
      askAbout(i);
    return std::move(matches_);
  }

 private:
  [[nodiscard]] bool isOpen(std::size_t row) const {
    return !matches_.rows[row].known && matches_.rows[row].problem.empty();
  }

  bool take(std::size_t row, std::size_t child, const std::string& where) {
    auto& match = matches_.rows[row];
    if (takenBy_[child]) {
      match.problem = "is the same student as on line " + std::to_string(*takenBy_[child]);
      match.where = where;
      return false;
    }
    takenBy_[child] = lines_[row].line;
    match.known = child;
    return true;
  }

  void takeNumber(std::size_t row) {
    const auto found = byNumber_.find(lines_[row].number);
    if (lines_[row].number.empty() || found == byNumber_.end()) return;
    // Two laptops may have given one number twice; the likest is meant.
    const auto child = *std::ranges::max_element(found->second, {}, [&](auto one) {
      return roster::linkWeight(rows_[row], children_[one]);
    });
    const auto agree = roster::agreements(rows_[row], children_[child]);
    if (roster::linkWeight(agree) < roster::leastUnsure) {
      // Its number and its birth date under another name: a person looks at the two.
      if (agree.birth == roster::Agreement::same && !isOther(row, child) && !takenBy_[child])
        return ask(row, {child});
      matches_.rows[row].problem = "is another student's in the logbook";
      matches_.rows[row].where = "number";
      return;
    }
    take(row, child, "number");
  }

  void takeAnswers(std::size_t row) {
    for (const auto& answer : answers_) {
      if (answer.row != lines_[row].row) continue;
      if (!answer.isSame) {
        matches_.rows[row].others.push_back(answer.child);
        continue;
      }
      if (!isOpen(row)) continue;
      const auto child =
          std::ranges::find(known_, answer.child, [](const auto& one) { return one.card.id; });
      if (child != known_.end())
        take(row, static_cast<std::size_t>(child - known_.begin()), "name");
    }
  }

  [[nodiscard]] bool isOther(std::size_t row, std::size_t child) const {
    const auto& others = matches_.rows[row].others;
    return std::ranges::find(others, known_[child].card.id) != others.end();
  }

  /// Of these alone an agreement can be near enough: of one birth date, student ID or name.
  [[nodiscard]] std::vector<std::size_t> candidates(std::size_t row) const {
    std::vector<std::size_t> found;
    const auto add = [&](const auto& index, const auto& key) {
      if (const auto at = index.find(key); at != index.end())
        found.insert(found.end(), at->second.begin(), at->second.end());
    };
    add(byBirth_, rows_[row].birth);
    if (!rows_[row].studentId.empty()) add(byId_, rows_[row].studentId);
    add(byCalled_, people_[row].called);
    std::ranges::sort(found, {}, [&](auto child) { return known_[child].card.id; });
    const auto twice = std::ranges::unique(found);
    found.erase(twice.begin(), twice.end());
    std::erase_if(found, [&](auto child) { return takenBy_[child] || isOther(row, child); });
    return found;
  }

  [[nodiscard]] LinkVerdict verdict(std::size_t row, std::size_t child) const {
    return roster::verdictOn(roster::agreements(rows_[row], children_[child]));
  }

  /// Rows with one child that is theirs alone.
  void takeSure() {
    std::vector<std::vector<std::size_t>> sure(lines_.size());
    std::map<std::size_t, int> wanted;
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      if (!isOpen(i)) continue;
      for (const auto child : candidates(i))
        if (verdict(i, child) == LinkVerdict::same) sure[i].push_back(child);
      for (const auto child : sure[i])
        ++wanted[child];
    }
    for (std::size_t i = 0; i < lines_.size(); ++i)
      if (sure[i].size() == 1 && wanted[sure[i].front()] == 1) take(i, sure[i].front(), "name");
  }

  void askAbout(std::size_t row) {
    if (!isOpen(row)) return;
    auto near = candidates(row);
    std::erase_if(near, [&](auto child) { return verdict(row, child) == LinkVerdict::different; });
    std::ranges::stable_sort(near, std::greater{}, [&](auto child) {
      return roster::linkWeight(rows_[row], children_[child]);
    });
    if (near.size() > mostPairs) near.resize(mostPairs);
    if (!near.empty()) ask(row, near);
  }

  void ask(std::size_t row, const std::vector<std::size_t>& near) {
    std::vector<std::string> alike;
    for (const auto child : near) {
      const auto agree = roster::agreements(rows_[row], children_[child]);
      matches_.pairs.push_back(
          {lines_[row].line, lines_[row].row, child, roster::linkWeight(agree)});
      alike.push_back("number " + known_[child].card.value.number + " of the logbook (" +
                      why(agree) + ")");
    }
    auto& match = matches_.rows[row];
    match.where = "name";
    match.problem =
        "may be the student of " + base::join(alike, ", ") + "; say whether it is the same student";
  }

  std::span<const RosterLine> lines_;
  std::span<const KnownChild> known_;
  std::span<const PairAnswer> answers_;
  std::vector<LinkPerson> rows_{};
  std::vector<LinkPerson> children_{};
  std::vector<roster::Person> people_{};
  std::map<std::string, std::vector<std::size_t>> byNumber_{};
  std::map<base::Date, std::vector<std::size_t>> byBirth_{};
  std::map<std::string, std::vector<std::size_t>> byCalled_{};
  std::map<std::string, std::vector<std::size_t>> byId_{};
  std::vector<std::optional<std::size_t>> takenBy_; ///< the line
  RosterMatches matches_{};
};

} // namespace

RosterMatches matchRoster(std::span<const RosterLine> lines, std::span<const Identity> identities,
                          std::span<const KnownChild> known, std::span<const PairAnswer> answers) {
  return Matching(lines, identities, known, answers).run();
}

} // namespace gk::session
