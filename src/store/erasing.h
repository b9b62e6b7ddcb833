#pragma once

#include "base/progress.h"
#include "roster/keys/erasure.h"
#include "store/book.h"
#include "store/schema/owners.h"

#include <functional>
#include <map>
#include <set>
#include <string>

namespace gk::store {

/// How many rows of each kind, superseded ones too.
using RowsOfKinds = std::map<std::string, std::int64_t>;

/// What an erasure did to the file.
struct Erased {
  std::int64_t rows;
  bool isForgotten; ///< no page of the file keeps bytes of them; else the disk was too full for it
};

struct ListedErasure {
  base::Recorded<roster::Erasure> record;
  std::int64_t rows; ///< of that student, taken out so far: a merge may bring more
  /// Cards that still have content and that another laptop joined with this one before it knew of
  /// the erasure: what was moved there is there.
  std::vector<roster::ChildId> joined{};
};

/// Lawful erasure, the one way by which a row leaves a logbook.
struct Erasing {
  /// What an erasure of these children would take out.
  static base::Result<RowsOfKinds> plan(Book& book, const std::vector<roster::ChildId>& children);
  /// One act that lists them, each as `sign` leaves it, and their content taken out in the same
  /// transaction; then the file is rewritten, which nothing stops. Stopped before, it fails with
  /// `workCanceled` and nothing was erased.
  using Sign = std::function<void(roster::Erasure&, base::LocalInstant at)>;
  static base::Result<Erased> erase(Book& book, const ActStamp& stamp,
                                    const std::vector<roster::Erasure>& listed, const Sign& sign,
                                    const base::Progress& progress = {});
  /// Every one, oldest first. Two laptops may have listed the same student.
  static base::Result<std::vector<ListedErasure>> listed(Book& book);

 private:
  static base::Result<std::int64_t> rowsErased(Book& book, roster::ChildId child);
  static base::Result<std::vector<roster::ChildId>> joinedWith(Book& book, roster::ChildId child);
};

/// An entry of a child with the hash that stays in its place.
struct OwnedContent {
  OwnedEntry entry;
  std::int64_t child;
  crypto::Hash hash;
};

/// Takes the content of one entry out. Throws Trouble.
void takeOut(Connection& book, const OwnSchema& own, const OwnedContent& one);

/// Takes out the content of every child whom a listed erasure names, as far as it is still there,
/// and gives back how many entries that were. Runs in the transaction that wrote the erasure, or
/// that took in what another laptop had. Throws Trouble.
std::int64_t applyErasures(Connection& book, const OwnSchema& own);

/// What erasures that another logbook lists would take out of this one, and what this one knew of
/// the team before anything of the other came in: that may say what it likes.
struct ListedElsewhere {
  std::vector<std::int64_t> children{}; ///< those with content here, ascending
  std::int64_t entries = 0;
  std::vector<std::string> numbers{};           ///< on their cards
  std::map<base::MemberId, std::string> team{}; ///< names
  std::map<roster::PersonalKeyId, bool> keys{}; ///< and whether each was revoked
  std::set<base::MemberId> holders{};           ///< of one that was not
};

ListedElsewhere wouldTakeOut(Connection& book, const OwnSchema& own,
                             const std::vector<std::int64_t>& children);

/// Fails with `storeErases` where it is anything but what was agreed to; says which students, how
/// much of them, who listed them, which the file has by then, and whether they signed it. Throws
/// Trouble.
void askOfErasures(Connection& book, const ListedElsewhere& listed,
                   std::optional<std::int64_t> agreed);

/// In the transaction that takes content out: the file is to be rewritten, and says so until that
/// is done, whatever happens meanwhile. Its commit leaves nothing of the pages as they were in the
/// journal beside it, which SQLite otherwise keeps until the file is closed. Throws Trouble.
void noteTraces(Connection& book);

/// Whether it says so.
bool hasTraces(Connection& book);

/// Rewrites the file, so that no page keeps bytes of what was taken out; false where the disk
/// has no room for it. No transaction is open.
bool forgetBytes(Connection& book);

} // namespace gk::store
