#include "store/part.h"

#include "store/audit.h"
#include "store/digest/act_digest.h"
#include "store/erasing.h"
#include "store/schema/own_schema.h"
#include "store/sqlite/transaction.h"
#include "store/sqlite/trouble.h"

#include <set>

namespace gk::store {

using base::Result;

namespace {

/// Every entry of these children, in one reading of the copy; by its own number there.
std::vector<OwnedContent> contentOfAll(Connection& copy, const OwnSchema& own,
                                       const std::set<std::int64_t>& children) {
  std::vector<OwnedContent> found;
  Owners owners(copy, "main", own);
  auto rows = copy.prepare("SELECT " + own.entry.list() + " FROM entry ORDER BY id");
  while (rows.step()) {
    const auto entry = ownedEntry(own, rows);
    const auto owner = owners.read(entry);
    if (!owner || owner->erased || !children.contains(owner->child)) continue;
    const auto records = recordsOf(copy, own, entry);
    found.push_back({entry, owner->child, contentHash(own, rows, records, owner->salt)});
  }
  return found;
}

} // namespace

Result<base::Done> Parting::leaveOut(const base::Path& copy, const Part& part,
                                     const std::vector<roster::ChildId>& children) {
  if (children.empty()) return base::Done{};
  return guarded([&] {
    const auto& own = newestSchema();
    Connection book(copy, Access::readWrite, Durability::everyAct);
    requireOwnSchema(book, "main", own, copy);
    {
      Transaction transaction(book);
      book.prepare("INSERT INTO part (school, highest_number, digest) VALUES (?, ?, zeroblob(32))")
          .bindAll(part.school, part.highestNumber)
          .run();
      std::set<std::int64_t> keys;
      for (const auto& child : children) {
        keys.insert(book.hands().keyOf(child.uuid()));
        book.prepare("INSERT INTO child_elsewhere (child) VALUES (?)").bindAll(child).run();
      }
      // All are hashed before the first goes: a step finds its child through its field.
      for (const auto& one : contentOfAll(book, own, keys))
        takeOut(book, own, one);
      book.execute("DELETE FROM child_salt WHERE child IN (SELECT child FROM child_elsewhere)");
      sealPart(book);
      transaction.commit();
    }
    book.execute("VACUUM");
    requireNone(historyFaults(book, "main", own), copy);
  });
}

Result<std::optional<Part>> Parting::of(Book& book) {
  return guarded([&] {
    auto row = book.connection_.prepare("SELECT school, highest_number FROM part");
    std::optional<Part> part;
    if (row.step()) part = Part{row.column<roster::SchoolId>(0), row.column<std::int64_t>(1)};
    return part;
  });
}

void sealPart(Connection& book) {
  book.execute("DELETE FROM part WHERE NOT EXISTS (SELECT 1 FROM child_elsewhere)");
  if (const auto digest = partDigest(book, "main"))
    book.prepare("UPDATE part SET digest = ?")
        .bindAll(std::span<const std::uint8_t>(*digest))
        .run();
}

std::optional<crypto::Hash> partDigest(Connection& book, std::string_view database) {
  const auto from = " FROM " + std::string(database);
  std::string bytes = "groovekeeper part 1";
  const auto add = [&](std::int64_t number) {
    for (int shift = 0; shift < 64; shift += 8)
      bytes += static_cast<char>(static_cast<std::uint64_t>(number) >> shift);
  };
  int parts = 0;
  auto part = book.prepare("SELECT school, highest_number" + from + ".part");
  for (; part.step(); ++parts) {
    add(part.column<std::int64_t>(0));
    add(part.column<std::int64_t>(1));
  }
  if (parts != 1) return std::nullopt;
  auto left = book.prepare("SELECT child" + from + ".child_elsewhere ORDER BY child");
  while (left.step())
    add(left.column<std::int64_t>(0));
  crypto::Hasher hasher;
  hasher.add(bytes);
  return hasher.finish();
}

} // namespace gk::store
