#include "reports/merges/merge_questions.h"

#include "base/text/text.h"
#include "reports/merges/merge_compare.h"
#include "reports/records/words.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace gk::reports {

namespace {

using followup::MergeVerdict;

/// What one laptop wrote about one child on the day.
struct Visit {
  std::optional<base::LocalInstant> from{};
  std::string who{};
  int screenings = 0;
  int varnishes = 0;
  std::optional<chairside::DayEnd> end{};
  std::set<dentition::Tooth> sealed{};
};

using Visits = std::map<base::LaptopId, Visit>;

Visits visitsOf(const DayView& view, const roster::ChildId& child) {
  Visits visits;
  const auto each = [&](const auto& rows, auto note) {
    for (const auto* row : rows) {
      const auto& first = firstWord(view, *row);
      auto& visit = visits[first.laptop];
      if (!visit.from || first.at < *visit.from) {
        visit.from = first.at;
        visit.who = view.initials(first.by.author);
      }
      note(visit, row->value);
    }
  };
  each(view.seatings.of(child), [](Visit&, const auto&) {});
  each(view.screenings.of(child), [](Visit& visit, const auto&) { ++visit.screenings; });
  each(view.varnishes.of(child), [](Visit& visit, const auto&) { ++visit.varnishes; });
  each(view.outcomes.of(child), [](Visit& visit, const auto& row) { visit.end = row.end; });
  each(view.placements.of(child), [](Visit& visit, const auto& row) {
    if (row.attempt == chairside::Attempt::complete) visit.sealed.insert(row.tooth);
  });
  return visits;
}

std::vector<dentition::Tooth> sealedTwice(const Visits& visits) {
  std::map<dentition::Tooth, int> times;
  for (const auto& entry : visits)
    for (const auto& tooth : entry.second.sealed)
      ++times[tooth];
  std::vector<dentition::Tooth> twice;
  for (const auto& [tooth, count] : times)
    if (count > 1) twice.push_back(tooth);
  return twice;
}

/// What both laptops have, in words; empty when each has a part of one visit.
std::string clash(const Visits& visits, dentition::Notation notation) {
  const auto onSeveral = [&](auto has) {
    return std::ranges::count_if(visits, [&](const auto& entry) { return has(entry.second); }) > 1;
  };
  std::vector<std::string> words;
  if (onSeveral([](const Visit& visit) { return visit.screenings > 0; }))
    words.emplace_back("screened on both");
  if (const auto twice = sealedTwice(visits); !twice.empty())
    words.push_back(teethWords(twice, notation) +
                    " sealed on both, almost certainly one sealant recorded twice");
  if (onSeveral([](const Visit& visit) { return visit.varnishes > 0; }))
    words.emplace_back("varnish on both");
  if (onSeveral([](const Visit& visit) { return visit.end.has_value(); }))
    words.emplace_back("an outcome on both");
  return base::join(words, "; ");
}

std::string visitHeading(const Visit& visit) {
  return visit.from->clockWords() + (visit.who.empty() ? "" : " " + visit.who);
}

std::string visitWords(const Visit& visit) {
  std::vector<std::string> words;
  if (visit.screenings > 0) words.emplace_back("screened");
  if (!visit.sealed.empty())
    words.push_back(counted(static_cast<int>(visit.sealed.size()), "tooth", "teeth") + " sealed");
  if (visit.varnishes > 0) words.emplace_back("varnish");
  if (visit.end) words.push_back(named(*visit.end));
  return visitHeading(visit) + ": " + (words.empty() ? "seated" : base::join(words, ", "));
}

bool isAnswered(const DayView& view, const roster::ChildId& child, std::size_t visits) {
  return std::ranges::any_of(view.records.mergeAnswers, [&](const auto& row) {
    return row.value.child == child && !row.value.other && row.value.day == view.records.id &&
           row.value.verdict == MergeVerdict::bothStand &&
           static_cast<std::size_t>(row.value.seen) >= visits;
  });
}

std::optional<MergeQuestion> twoVisits(const DayView& view, const roster::ChildId& child) {
  const auto visits = visitsOf(view, child);
  if (visits.size() < 2) return std::nullopt;
  const auto what = clash(visits, view.records.notation);
  if (what.empty() || isAnswered(view, child, visits.size())) return std::nullopt;
  MergeQuestion question{child, view.shown(child), std::nullopt, what, {}, {}};
  std::vector<std::pair<base::LaptopId, const Visit*>> inOrder;
  for (const auto& [laptop, visit] : visits)
    inOrder.emplace_back(laptop, &visit);
  std::ranges::stable_sort(inOrder, {}, [](const auto& one) { return *one.second->from; });
  for (const auto& [laptop, visit] : inOrder)
    question.sides.push_back({laptop, std::nullopt, visitWords(*visit), visitHeading(*visit), {}});
  compareSides(view, question);
  return question;
}

bool areTwoChildren(const DayView& view, const roster::ChildId& one, const roster::ChildId& two) {
  return std::ranges::any_of(view.records.mergeAnswers, [&](const auto& row) {
    const auto& answer = row.value;
    return answer.verdict == MergeVerdict::bothStand && answer.other &&
           ((answer.child == one && *answer.other == two) ||
            (answer.child == two && *answer.other == one));
  });
}

MergeSide cardSide(const DayView& view, const base::Recorded<roster::Child>& card) {
  return {std::nullopt,
          card.id,
          card.value.number + ", room " + (card.value.room.empty() ? nothing : card.value.room) +
              ", card made " + firstWord(view, card).at.words() +
              (view.wasSeen(card.id) ? ", seen today" : ""),
          "card " + card.value.number,
          {}};
}

/// Cards that two laptops made apart: under one number, or of one name and birth month.
void addTwoCards(const DayView& view, const Names& names, std::vector<MergeQuestion>& out) {
  using Card = base::Recorded<roster::Child>;
  enum class By { number, nameAndMonth };
  using Alike = std::tuple<By, std::string, roster::BirthMonth>;
  std::map<Alike, std::vector<const Card*>> alike;
  for (const auto& row : view.records.children) {
    alike[{By::number, row.value.number, {}}].push_back(&row);
    const auto name = names.find(row.id);
    if (name == names.end()) continue;
    alike[{By::nameAndMonth, base::folded(name->second), row.value.birth}].push_back(&row);
  }
  std::set<std::pair<roster::ChildId, roster::ChildId>> told;
  for (const auto& [key, cards] : alike)
    for (std::size_t i = 1; i < cards.size(); ++i) {
      const auto& one = *cards.front();
      const auto& two = *cards[i];
      const bool isNumber = std::get<By>(key) == By::number;
      if (!isNumber && firstWord(view, one).laptop == firstWord(view, two).laptop)
        continue; // nothing of a merge
      if (areTwoChildren(view, one.id, two.id)) continue;
      if (!told.insert(std::minmax(one.id, two.id)).second) continue;
      out.push_back({one.id,
                     view.shown(one.id),
                     two.id,
                     isNumber ? "one number on two students' cards"
                              : "two cards of one name and month of birth",
                     {cardSide(view, one), cardSide(view, two)},
                     {}});
      compareSides(view, out.back());
    }
}

std::string answerWords(const DayView& view, const followup::MergeAnswer& answer) {
  if (answer.verdict == MergeVerdict::bothStand)
    return (answer.other ? "two students: " + view.shown(*answer.other) + " too"
                         : "both happened") +
           (answer.note.empty() ? "" : ", " + answer.note);
  if (answer.other) return "one student: the other card is in the history";
  const auto visits = visitsOf(view, answer.child);
  const auto kept = answer.kept ? visits.find(*answer.kept) : visits.end();
  return (kept == visits.end() ? "one is kept" : "kept: " + visitWords(kept->second)) +
         "; the other is in the history" + (answer.note.empty() ? "" : ", " + answer.note);
}

} // namespace

std::vector<AnsweredQuestion> answeredQuestions(const DayView& view) {
  std::vector<AnsweredQuestion> out;
  for (const auto& row : view.records.mergeAnswers)
    if (row.value.day == view.records.id)
      out.push_back({row, view.shown(row.value.child), row.value.other ? "two cards" : "two visits",
                     answerWords(view, row.value), view.initials(row.stamp.by.author)});
  return out;
}

namespace {

std::string meanwhile(const RivalWords::Word& word) {
  if (!word.counts) return {};
  return word.isNarrowed ? " (counts meanwhile, as far as all allow)" : " (counts meanwhile)";
}

/// One thing, corrected on two laptops while they were apart.
MergeQuestion twoWords(const DayView& view, const RivalWords& rival) {
  const auto isBack = [](const RivalWords::Word& word) { return word.fields.empty(); };
  const auto what = std::ranges::any_of(rival.words, isBack)
                        ? "one laptop undid what another corrected: the " + rival.thing
                        : "two laptops corrected the " + rival.thing;
  MergeQuestion question{rival.child,  rival.child ? view.shown(*rival.child) : rival.thing,
                         std::nullopt, what,
                         {},           {}};
  for (const auto& word : rival.words) {
    const auto heading = (isBack(word) ? "undone " : "") + word.stamp.at.words() + " " +
                         view.initials(word.stamp.by.author);
    question.sides.push_back({.laptop = {},
                              .card = {},
                              .words = heading + ", " + word.stamp.reason + meanwhile(word),
                              .heading = heading,
                              .word = word.stamp.entry});
  }
  std::vector<std::string> names; // a tooth may be in one word alone
  for (const auto& word : rival.words)
    for (const auto& [name, said] : word.fields)
      if (std::ranges::find(names, name) == names.end()) names.push_back(name);
  for (const auto& name : names) {
    MergeLine line{name, {}, false};
    for (const auto& word : rival.words) {
      const auto said =
          std::ranges::find(word.fields, name, [](const auto& one) { return one.first; });
      line.said.push_back(said == word.fields.end() || said->second.empty() ? nothing
                                                                            : said->second);
    }
    line.differs =
        std::ranges::any_of(line.said, [&](const auto& one) { return one != line.said.front(); });
    question.lines.push_back(std::move(line));
  }
  return question;
}

} // namespace

std::vector<MergeQuestion> mergeQuestions(const DayView& view) {
  std::vector<MergeQuestion> out;
  for (const auto& rival : view.records.rivals)
    out.push_back(twoWords(view, rival));
  for (const auto& child : view.lineUp())
    if (auto question = twoVisits(view, child)) out.push_back(*std::move(question));
  addTwoCards(view, view.names(), out);
  return out;
}

} // namespace gk::reports
