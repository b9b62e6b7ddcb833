#include "base/text/text.h"
#include "reports/records/inputs.h"
#include "session/cards/card_fold.h"
#include "session/reader_held.h"
#include "session/session_write.h"

#include <algorithm>
#include <limits>

namespace gk::session {

using store::subjectIs;

roster::Person personOf(const Identity& identity) {
  return {base::folded(identity.legalName()), base::folded(identity.shownName()), identity.birth};
}

Result<bool> Reader::readRoll(int atMost) {
  const auto edition = book_.edition();
  // A merge may have brought rows from between those already read.
  if (held_->roll && held_->roll->edition->merges != edition.merges) forgetRoll();
  if (!held_->roll) {
    held_->roll = std::make_unique<Held::RollRead>();
    held_->roll->edition = edition;
  }
  if (!held_->roll->isWhole) {
    const auto after = held_->roll->last.value_or(base::EntryId(base::Uuid{}));
    auto page = book_.current<roster::Child>(store::pageAfter(after, atMost));
    if (!page) return page.error();
    for (const auto& child : *page) {
      if (auto added = addToRoll(child); !added) return added.error();
      held_->roll->last = child.stamp.entry;
    }
    if (std::ssize(*page) == atMost) return false;
    held_->roll->isWhole = true;
  }
  if (*held_->roll->edition != edition) {
    if (auto caught = catchUp(held_->roll->edition->newest); !caught) return caught.error();
    held_->roll->edition = edition;
  }
  return true;
}

Result<base::Done> Reader::catchUp(base::EntryId after) {
  auto touched = book_.childrenTouched(after);
  if (!touched) return touched.error();
  std::vector<Recorded<roster::Child>> rows;
  for (const auto child : *touched) {
    auto row = book_.current<roster::Child>(subjectIs(child));
    if (!row) return row.error();
    if (row->empty()) held_->roll->roll.remove(child);
    std::ranges::move(*row, std::back_inserter(rows));
  }
  std::ranges::sort(rows, {}, [](const auto& row) { return row.stamp.entry; });
  for (const auto& row : rows)
    if (auto added = addToRoll(row); !added) return added.error();
  return base::Done{};
}

Result<base::Done> Reader::addToRoll(const Recorded<roster::Child>& child) {
  Roll::Line line{child.id, child.stamp.entry, child.value.number, child.value.room,
                  child.value.birth};
  if (vault_) {
    auto identity = this->identity(child.id);
    if (!identity && !hasNoName(identity.error())) return identity.error();
    if (identity) {
      line.name = identity->shownName();
      line.called = base::folded(line.name);
      line.searched = base::folded(line.name + " " + identity->legalName());
    }
  }
  held_->roll->roll.put(std::move(line));
  return base::Done{};
}

Result<const Roll*> Reader::roll() {
  const auto read = readRoll(std::numeric_limits<int>::max());
  if (!read) return read.error();
  return &held_->roll->roll;
}

Result<std::vector<Found>> Reader::findChildren(const std::string& text, std::size_t limit) {
  const auto all = roll();
  if (!all) return all.error();
  auto found = (*all)->find(text, limit);
  if (!found.empty()) return found;
  // A slip of a card that was joined to another finds that one.
  const auto kept = keptFor(book_, text);
  if (!kept) return kept.error();
  return *kept ? (*all)->find(**kept, limit) : std::move(found);
}

Result<std::vector<NearMatch>> Reader::nearMatches(const std::string& number,
                                                   const std::optional<Identity>& identity) {
  const auto all = roll();
  if (!all) return all.error();
  std::optional<roster::Person> wanted;
  if (identity && vault_) wanted = personOf(*identity);
  std::vector<NearMatch> found;
  std::optional<base::Error> failure;
  (*all)->each([&](const Roll::Line& line) {
    const auto add = [&](roster::Likeness why) {
      found.push_back(
          {{line.child, line.number, line.name.empty() ? line.number : line.name, line.room}, why});
    };
    if (roster::areLikeNumbers(number, line.number)) return add(roster::Likeness::number);
    if (!wanted || failure) return;
    // Only such names are unsealed as can be near: of one month, or called the same.
    const bool isSameMonth =
        line.birth.year == wanted->birth.year() && line.birth.month == wanted->birth.month();
    if (!isSameMonth && line.called != wanted->called) return;
    const auto known = this->identity(line.child);
    if (!known) {
      if (!hasNoName(known.error())) failure = known.error();
      return;
    }
    if (const auto why = roster::likeness(*wanted, personOf(*known))) add(*why);
  });
  if (failure) return *failure;
  std::ranges::stable_sort(found, {}, &NearMatch::why);
  return found;
}

Result<std::vector<KnownChild>> Reader::known(const Sought& sought) {
  if (!vault_)
    return base::Error{base::ErrorCode::vaultLocked, "unlock the logbook to compare names"};
  const auto all = roll();
  if (!all) return all.error();
  std::set<roster::ChildId> wanted;
  const auto ofSchool = book_.current<roster::Child>(store::rowsOf("school", sought.school));
  if (!ofSchool) return ofSchool.error();
  for (const auto& child : *ofSchool)
    wanted.insert(child.id);
  (*all)->each([&](const Roll::Line& line) {
    if (sought.months.contains({line.birth.year, line.birth.month}) ||
        sought.called.contains(line.called) || sought.numbers.contains(line.number))
      wanted.insert(line.child);
  });
  std::vector<KnownChild> known;
  for (const auto& id : wanted) {
    auto identity = this->identity(id);
    if (!identity && identity.error().code != base::ErrorCode::vaultReplaced &&
        hasNoName(identity.error()))
      continue;
    if (!identity) return identity.error();
    auto card = child(id);
    if (!card) return card.error();
    known.push_back({std::move(*card), std::move(*identity)});
  }
  return known;
}

Result<std::vector<std::string>> Reader::numbers() {
  const auto all = roll();
  if (!all) return all.error();
  std::vector<std::string> numbers;
  (*all)->each([&](const Roll::Line& line) { numbers.push_back(line.number); });
  // Paper of an erased student must not become another's.
  const auto erased = book_.history<roster::Erasure>(store::everything());
  if (!erased) return erased.error();
  for (const auto& one : *erased)
    numbers.push_back(one.value.number);
  return numbers;
}

Result<std::string> Reader::nextNumber() {
  const auto taken = numbers();
  if (!taken) return taken.error();
  const auto part = oneSchool();
  if (!part) return part.error();
  std::int64_t highest = *part ? (*part)->highestNumber : 1000;
  for (const auto& number : *taken)
    if (const auto digits = base::parseInt(number.substr(0, number.find('-'))))
      highest = std::max(highest, *digits);
  return roster::withCheckDigit(std::to_string(highest + 1));
}

Result<std::string> Reader::nameOf(roster::ChildId child) {
  if (!vault_) return std::string();
  const auto identity = this->identity(child);
  if (identity) return identity->shownName();
  if (!hasNoName(identity.error())) return identity.error();
  return std::string();
}

Result<std::string> Reader::shortName(roster::ChildId id) {
  if (vault_) {
    const auto identity = this->identity(id);
    if (identity) return identity->headerName();
    if (!hasNoName(identity.error())) return identity.error();
  }
  const auto known = book_.history<roster::Child>(store::subjectIs(id));
  if (!known) return known.error();
  return known->empty() ? std::string() : known->back().value.number;
}

Result<reports::Names> Reader::names() {
  const auto all = roll();
  if (!all) return all.error();
  reports::Names names;
  (*all)->each([&](const Roll::Line& line) {
    if (!line.name.empty()) names.emplace(line.child, line.name);
  });
  return names;
}

Result<reports::Names> Reader::names(const reports::DayRecords& records) {
  reports::Names names;
  for (const auto& child : records.children) {
    auto name = nameOf(child.id);
    if (!name) return name.error();
    if (!name->empty()) names.emplace(child.id, std::move(*name));
  }
  return names;
}

} // namespace gk::session
