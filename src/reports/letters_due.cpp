#include "reports/letters_due.h"

#include "base/contract.h"
#include "base/text.h"
#include "reports/day_view.h"

#include <algorithm>
#include <set>

namespace gk::reports {

namespace {

using followup::Letter;
using followup::LetterState;

/// The letters of one child that no other replaced.
std::vector<const base::Recorded<Letter>*> standing(const DayView& view,
                                                    const roster::ChildId& child) {
  std::set<followup::LetterId> replaced;
  for (const auto* row : view.letters.of(child))
    if (row->value.replaces) replaced.insert(*row->value.replaces);
  std::vector<const base::Recorded<Letter>*> found;
  for (const auto* row : view.letters.of(child))
    if (!replaced.contains(row->id)) found.push_back(row);
  return found;
}

LetterStand standOf(LetterState state) {
  switch (state) {
  case LetterState::queued:
    return LetterStand::queued;
  case LetterState::printed:
    return LetterStand::printed;
  case LetterState::handed:
    return LetterStand::handed;
  case LetterState::returned:
    return LetterStand::returned;
  }
  base::fail("no such state of a letter");
}

LetterLine lineOf(const DayView& view, const roster::ChildId& child, const LetterFacts& facts) {
  const auto* known = view.child(child);
  LetterLine line{child,
                  view.shown(child),
                  known ? known->room : "",
                  facts.variant,
                  view.wasSeen(child),
                  LetterStand::missing,
                  {}};
  std::set<std::string> languages;
  std::optional<LetterStand> least; // two letters stand as the one that is further behind
  for (const auto* row : standing(view, child)) {
    languages.insert(row->value.language);
    auto changes = differences(row->value.facts, toLines(facts));
    const auto stand = changes.empty() ? standOf(row->value.state) : LetterStand::toReplace;
    if (!changes.empty()) line.changes = std::move(changes);
    least = std::min(least.value_or(stand), stand);
  }
  line.stand = least.value_or(LetterStand::missing);
  line.languages = base::join({languages.begin(), languages.end()}, ", ");
  return line;
}

} // namespace

std::vector<LetterLine> letterLines(const DayView& view) {
  std::vector<LetterLine> lines;
  for (const auto& child : view.lineUp())
    if (const auto facts = letterFacts(view, child)) lines.push_back(lineOf(view, child, *facts));
  return lines;
}

std::vector<DayLetter> dayLetters(const DayRecords& records, const LetterCards& cards,
                                  const LetterTemplates& templates) {
  Names names;
  for (const auto& [child, card] : cards)
    names.emplace(child, card.legalName);
  const DayView view(records, names);
  std::vector<DayLetter> letters;
  for (const auto& child : view.lineUp()) {
    const auto facts = letterFacts(view, child);
    const auto card = cards.find(child);
    if (!facts || card == cards.end()) continue;
    const auto earlier = standing(view, child);
    for (const auto& reader : card->second.readers) {
      const auto* known = view.child(child);
      const bool own = speaks(templates, reader);
      DayLetter letter{child, known ? known->number : "", card->second, reader, own, *facts};
      const auto* used = reader.language.empty() ? nullptr : templates.find(reader.language);
      const auto& language = (used ? *used : templates.english()).header().language;
      for (const auto* row : earlier)
        if (row->value.language == language && row->value.interpreter == !own)
          letter.written = *row;
      if (letter.written && !differences(letter.written->value.facts, toLines(*facts)).empty())
        letter.replaces = letter.written->value.written;
      letters.push_back(std::move(letter));
    }
  }
  return letters;
}

} // namespace gk::reports
