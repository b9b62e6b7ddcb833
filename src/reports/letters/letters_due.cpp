#include "reports/letters/letters_due.h"

#include "base/contract.h"
#include "base/text/text.h"
#include "reports/records/day_view.h"
#include "reports/records/words.h"

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

/// A guardian was reached after the letter was handed over and after what made it wrong.
bool wasTold(const DayView& view, const base::Recorded<Letter>& letter) {
  auto since = letter.stamp.entry;
  for (const auto* row : view.outcomes.of(letter.value.child))
    since = std::max(since, row->stamp.entry);
  return std::ranges::any_of(view.contacts.of(letter.value.child), [&](const auto* row) {
    return row->stamp.entry > since && row->value.channel != followup::Channel::nurse &&
           row->value.result == followup::ContactResult::reached;
  });
}

/// Of a letter where none is due.
LetterStand standInError(const DayView& view, const base::Recorded<Letter>& letter) {
  switch (letter.value.state) {
  case LetterState::queued:
  case LetterState::printed:
    return LetterStand::keepBack;
  case LetterState::handed:
    return wasTold(view, letter) ? LetterStand::told : LetterStand::handedInError;
  case LetterState::returned:
    return LetterStand::returned;
  }
  base::fail("no such state of a letter");
}

/// None for a child who neither gets a letter nor has one.
std::optional<LetterLine> lineOf(const DayView& view, const roster::ChildId& child) {
  const auto facts = letterFacts(view, child);
  const auto letters = standing(view, child);
  if (!facts && letters.empty()) return std::nullopt;
  const auto* known = view.child(child);
  LetterLine line{child,
                  view.shown(child),
                  known ? known->room : "",
                  facts ? facts->variant : letters.back()->value.variant,
                  facts.has_value(),
                  view.wasSeen(child),
                  LetterStand::missing,
                  {}};
  std::set<std::string> languages;
  std::optional<LetterStand> least; // two letters stand as the one that is further behind
  for (const auto* row : letters) {
    const auto& letter = row->value;
    languages.insert(letter.language);
    line.printed += letter.state == LetterState::queued ? 0 : 1;
    line.handed += letter.state == LetterState::handed ? 1 : 0;
    line.returned += letter.state == LetterState::returned ? 1 : 0;
    auto stand = facts ? standOf(letter.state) : standInError(view, *row);
    std::vector<std::string> changes;
    if (facts) changes = changedFacts(letter.facts, toLines(*facts));
    if (!changes.empty()) {
      stand = LetterStand::toReplace;
      line.replaced = letter.written;
      line.changes = std::move(changes);
    }
    least = std::min(least.value_or(stand), stand);
  }
  line.stand = least.value_or(LetterStand::missing);
  line.languages = base::join({languages.begin(), languages.end()}, ", ");
  return line;
}

/// Children who have a letter and no other record of the day any more.
std::vector<roster::ChildId> onlyWithLetters(const DayView& view) {
  std::set<roster::ChildId> found;
  for (const auto& entry : view.letters.all())
    found.insert(entry.first);
  for (const auto& child : view.lineUp())
    found.erase(child);
  return {found.begin(), found.end()};
}

} // namespace

std::string LetterLine::toDo() const {
  switch (stand) {
  case LetterStand::missing:
    return "print it and hand it out";
  case LetterStand::toReplace:
    return "print and hand out the one that replaces the letter of " +
           (replaced ? replaced->words() : std::string()) + ": " + base::join(changes, "; ");
  case LetterStand::handedInError:
    return "given out by mistake: tell the guardian";
  case LetterStand::keepBack:
    return "printed by mistake: do not hand it out";
  case LetterStand::queued:
    return "print it and hand it out";
  case LetterStand::printed:
    return "hand it out";
  case LetterStand::told:
    return "none: the parent was told";
  case LetterStand::handed:
  case LetterStand::returned:
    return "";
  }
  base::fail("no such stand of a letter");
}

std::vector<LetterLine> letterLines(const DayView& view) {
  std::vector<LetterLine> lines;
  const auto add = [&](const std::vector<roster::ChildId>& children) {
    for (const auto& child : children)
      if (auto line = lineOf(view, child)) lines.push_back(*std::move(line));
  };
  add(view.lineUp());
  add(onlyWithLetters(view));
  return lines;
}

LetterSums letterSums(const std::vector<LetterLine>& lines) {
  LetterSums sums;
  for (const auto& line : lines) {
    if (!line.isDue) continue;
    ++(line.wasSeen ? sums.seen : sums.absent);
    if (!line.isOwed()) ++(line.wasSeen ? sums.seenWith : sums.absentWith);
  }
  return sums;
}

std::string LetterSums::words() const {
  return std::to_string(seenWith) + " of " + counted(seen, "student", "students") + " seen and " +
         std::to_string(absentWith) + " of " + std::to_string(absent) + " absent";
}

Rows<Letter> lettersInError(const DayRecords& records) {
  const Names nobody;
  const DayView view(records, nobody);
  Rows<Letter> found;
  for (const auto& entry : view.letters.all()) {
    if (letterFacts(view, entry.first)) continue;
    for (const auto* row : standing(view, entry.first))
      if (row->value.state != LetterState::returned) found.push_back(*row);
  }
  return found;
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
      if (letter.written && !changedFacts(letter.written->value.facts, toLines(*facts)).empty())
        letter.replaces = letter.written->value.written;
      letters.push_back(std::move(letter));
    }
  }
  return letters;
}

} // namespace gk::reports
