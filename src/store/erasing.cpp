#include "store/erasing.h"

#include "base/text/text.h"
#include "store/digest/act_digest.h"
#include "store/digest/card_numbers.h"
#include "store/part.h"
#include "store/records/closing_rows.h"
#include "store/records/key_rows.h"
#include "store/records/roster_rows.h"
#include "store/rows/book_queries.h"
#include "store/sqlite/transaction.h"
#include "store/sqlite/trouble.h"

#include <algorithm>
#include <optional>
#include <set>

namespace gk::store {

using base::ErrorCode;
using base::Result;

namespace {

/// A superset of the entries of a child, by every row that names it; Owners says which they are.
/// The steps of a field name the field, and a retraction what it took back.
std::set<std::int64_t> entriesAround(Connection& book, const OwnSchema& own, std::int64_t child) {
  std::set<std::int64_t> found;
  std::vector<std::int64_t> next;
  const auto take = [&](const std::string& sql, std::int64_t key) {
    auto rows = book.prepare(sql);
    rows.bind(1, key);
    while (rows.step())
      if (const auto id = rows.column<std::int64_t>(0); found.insert(id).second) next.push_back(id);
  };
  take("SELECT id FROM entry WHERE id = ?1 OR subject = ?1", child);
  for (const auto& table : own.records)
    if (table.has("child"))
      take("SELECT entry FROM \"" + table.name + "\" WHERE child = ?1", child);
  // What another laptop hung on rows that were erased here before it was merged.
  take("SELECT id FROM erased_entry WHERE child = ?1", child);
  // What hangs on those.
  while (!next.empty()) {
    const auto id = next.back();
    next.pop_back();
    take("SELECT id FROM entry WHERE supersedes = ?1 AND kind = " +
             std::to_string(own.retractionKind),
         id);
    for (const auto& table : own.records)
      if (table.has("field") && !table.has("child"))
        take("SELECT entry FROM \"" + table.name + "\" WHERE field = ?1", id);
  }
  return found;
}

/// The entries of the child that still have their content.
std::vector<OwnedContent> contentOf(Connection& book, const OwnSchema& own, std::int64_t child) {
  std::vector<OwnedContent> found;
  Owners owners(book, "main", own);
  const auto sql = "SELECT " + own.entry.list() + " FROM entry WHERE id = ?1";
  for (const auto& id : entriesAround(book, own, child)) {
    auto row = book.prepare(sql);
    row.bind(1, id);
    if (!row.step()) continue;
    const auto entry = ownedEntry(own, row);
    const auto owner = owners.read(entry);
    if (!owner || owner->child != child || owner->erased) continue;
    const auto records = recordsOf(book, own, entry);
    found.push_back({entry, child, contentHash(own, row, records, owner->salt)});
  }
  return found;
}

/// "by Mara Bell on November 12, 2026, signed".
std::string listedBy(const ListedElsewhere& listed, const base::Recorded<roster::Erasure>& row) {
  const auto author = row.stamp.by.author;
  const auto name = author ? listed.team.find(*author) : listed.team.end();
  const auto words = [&]() -> std::string {
    if (row.value.key) {
      const auto key = listed.keys.find(*row.value.key);
      if (key == listed.keys.end()) return "signed with a key that this logbook does not know";
      return key->second ? "signed with a key that was revoked here" : "signed";
    }
    return author && listed.holders.contains(*author) ? "not signed, though that person has a key"
                                                      : "not signed";
  };
  return "by " +
         (name == listed.team.end() ? "someone who is not on this logbook's team" : name->second) +
         " on " + row.stamp.at.date().words() + ", " + words();
}

/// A message is read: three at most.
std::string firstOf(const std::set<std::string>& all) {
  constexpr std::size_t most = 3;
  std::string text;
  std::size_t said = 0;
  for (const auto& one : all) {
    if (said++ == most) return text + " and " + std::to_string(all.size() - most) + " more times";
    text += (text.empty() ? "" : "; ") + one;
  }
  return text;
}

} // namespace

void takeOut(Connection& book, const OwnSchema& own, const OwnedContent& one) {
  book.prepare("INSERT INTO erased_entry (id, child, content) VALUES (?, ?, ?)")
      .bindAll(one.entry.id, one.child, std::span<const std::uint8_t>(one.hash))
      .run();
  book.prepare("UPDATE entry SET reason = 'erased' WHERE id = ? AND reason IS NOT NULL")
      .bindAll(one.entry.id)
      .run();
  for (const auto& table :
       std::ranges::equal_range(own.records, one.entry.kind, {}, &OwnTable::kind))
    book.prepare("DELETE FROM \"" + table.name + "\" WHERE entry = ?").bindAll(one.entry.id).run();
}

std::int64_t applyErasures(Connection& book, const OwnSchema& own) {
  std::vector<std::int64_t> children;
  {
    auto listed = book.prepare("SELECT DISTINCT whom FROM erasure ORDER BY whom");
    while (listed.step())
      children.push_back(listed.column<std::int64_t>(0));
  }
  std::int64_t erased = 0;
  for (const auto& child : children) {
    // All are hashed before the first goes: a step finds its child through its field.
    const auto content = contentOf(book, own, child);
    for (const auto& one : content)
      takeOut(book, own, one);
    erased += std::ssize(content);
    book.prepare("DELETE FROM child_salt WHERE child = ?").bindAll(child).run();
    book.prepare("DELETE FROM child_elsewhere WHERE child = ?").bindAll(child).run();
  }
  sealPart(book);
  return erased;
}

ListedElsewhere wouldTakeOut(Connection& book, const OwnSchema& own,
                             const std::vector<std::int64_t>& children) {
  ListedElsewhere listed;
  for (const auto& child : children) {
    const auto content = std::ssize(contentOf(book, own, child));
    if (content == 0) continue;
    listed.children.push_back(child);
    listed.entries += content;
    if (auto number = numberOnCard(book, "main.", child); !number.empty())
      listed.numbers.push_back(std::move(number));
  }
  if (listed.children.empty()) return listed;
  std::ranges::sort(listed.numbers);
  for (auto& row : selectRows<roster::Member>(book, everything(), Which::ever))
    listed.team.insert_or_assign(row.id, std::move(row.value.name));
  std::map<roster::PersonalKeyId, base::MemberId> holders;
  for (const auto& row : selectRows<roster::PersonalKey>(book, everything(), Which::ever)) {
    listed.keys[row.id] |= row.value.revoked;
    holders.emplace(row.id, row.value.member);
  }
  for (const auto& [key, holder] : holders)
    if (!listed.keys.at(key)) listed.holders.insert(holder);
  return listed;
}

void askOfErasures(Connection& book, const ListedElsewhere& listed,
                   std::optional<std::int64_t> agreed) {
  if (listed.entries == 0 || listed.entries == agreed) return;
  std::set<std::string> listers;
  for (const auto& row : selectRows<roster::Erasure>(book, everything(), Which::ever))
    if (std::ranges::binary_search(listed.children, book.hands().keyOf(row.value.whom.uuid())))
      listers.insert(listedBy(listed, row));
  throw Trouble(
      {ErrorCode::storeErases,
       "that logbook lists " + base::counted(std::ssize(listed.children), "student", "students") +
           " as erased whose records are here: " +
           base::counted(listed.entries, "entry", "entries") +
           (listed.numbers.empty() ? "" : ", " + studentsNumbered(listed.numbers)) + "; listed " +
           firstOf(listers) +
           ". Nothing was merged, and neither logbook was changed. An erasure cannot be undone. If "
           "the law asked for it and you know who decided it, merge again and say that " +
           std::to_string(listed.entries) +
           " go: their records are taken out here too. If not, keep both logbooks as they are and "
           "find out first"});
}

Result<RowsOfKinds> Erasing::plan(Book& book, const std::vector<roster::ChildId>& children) {
  return guarded([&] {
    RowsOfKinds rows;
    const auto& own = newestSchema();
    for (const auto& child : children)
      for (const auto& one :
           contentOf(book.connection_, own, book.connection_.hands().keyOf(child.uuid())))
        ++rows[own.kinds.at(one.entry.kind)];
    return rows;
  });
}

Result<std::int64_t> Erasing::rowsErased(Book& book, roster::ChildId child) {
  return guarded([&] {
    auto count = book.connection_.prepare("SELECT count(*) FROM erased_entry WHERE child = ?1");
    count.bind(1, child);
    count.step();
    return count.column<std::int64_t>(0);
  });
}

Result<std::vector<roster::ChildId>> Erasing::joinedWith(Book& book, roster::ChildId child) {
  return guarded([&] {
    // Either the words are of the other card and say so still; or they went with this one, and the
    // act that had them retracted the other card.
    auto cards = book.connection_.prepare(
        "SELECT s.child FROM child_salt AS s WHERE s.child <> ?1 AND (EXISTS (SELECT 1 FROM "
        "card_join AS j WHERE j.other = ?1 AND j.child = s.child) OR EXISTS (SELECT 1 FROM "
        "merge_answer AS m WHERE m.other = ?1 AND m.child = s.child AND m.verdict = 'one is kept') "
        "OR "
        "s.child IN (SELECT r.subject FROM erased_entry AS x CROSS JOIN entry AS e ON e.id = x.id "
        "CROSS JOIN entry_kind AS k ON k.number = e.kind AND k.name IN ('card_join', "
        "'merge_answer') CROSS JOIN act AS a ON a.first = e.id - e.nth * 2048 CROSS JOIN entry AS "
        "r ON r.id BETWEEN a.first AND a.first + (a.count - 1) * 2048 AND (r.id & 2047) = (a.first "
        "& 2047) CROSS JOIN entry_kind AS g ON g.number = r.kind AND g.name = 'retraction' WHERE "
        "x.child = ?1)) ORDER BY s.child");
    cards.bind(1, child);
    std::vector<roster::ChildId> found;
    while (cards.step())
      found.push_back(cards.column<roster::ChildId>(0));
    return found;
  });
}

Result<Erased> Erasing::erase(Book& book, const ActStamp& stamp,
                              const std::vector<roster::Erasure>& listed, const Sign& sign,
                              const base::Progress& progress) {
  if (const auto may = book.mayWrite(); !may) return may.error();
  progress.at(base::Stage::reading);
  auto& connection = book.connection_;
  const auto rows = guarded([&] {
    Transaction transaction(connection);
    // Goes before the transaction does, so that what is rolled back is not stopped as well.
    std::optional<Watching> watching(std::in_place, connection, progress);
    Act act(connection, book.hand_, stamp, book.position_);
    for (auto one : listed) {
      sign(one, act.at());
      act.add(one);
    }
    const auto position = act.sealed();
    const auto erased = applyErasures(connection, newestSchema());
    if (progress.isStopped()) throw Trouble({ErrorCode::workCanceled, "nothing was erased"});
    watching.reset(); // from here on it is erased
    progress.at(base::Stage::writing);
    noteTraces(connection);
    transaction.commit();
    book.position_ = position;
    if (book.held_) book.held_->wrote({position.sequence, position.digest});
    book.rivals_.reset();
    return erased;
  });
  if (!rows) return rows.error();
  if (const auto there = book.inPlace(base::Done{}); !there) return there.error();
  return Erased{*rows, forgetBytes(connection)};
}

Result<std::vector<ListedErasure>> Erasing::listed(Book& book) {
  auto found = book.history<roster::Erasure>(everything());
  if (!found) return found.error();
  std::vector<ListedErasure> all;
  for (auto& one : *found) {
    const auto rows = rowsErased(book, one.value.whom);
    if (!rows) return rows.error();
    auto joined = joinedWith(book, one.value.whom);
    if (!joined) return joined.error();
    all.push_back({std::move(one), *rows, *std::move(joined)});
  }
  return all;
}

void noteTraces(Connection& book) {
  book.execute("UPDATE book SET to_rewrite = 1");
  sealKey(book);
  book.cutJournal();
}

bool hasTraces(Connection& book) {
  auto row = book.prepare("SELECT to_rewrite FROM book");
  return row.step() && row.column<bool>(0);
}

bool forgetBytes(Connection& book) {
  return guarded([&] {
           book.cutJournal();
           book.execute("VACUUM");
           Transaction transaction(book);
           book.execute("UPDATE book SET to_rewrite = 0");
           sealKey(book);
           transaction.commit();
         })
      .has_value();
}

} // namespace gk::store
