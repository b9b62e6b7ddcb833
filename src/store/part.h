#pragma once

#include "crypto/digest.h"
#include "roster/child/child.h"
#include "store/book.h"

#include <optional>
#include <vector>

namespace gk::store {

/// Of a logbook that was made of another for one school's day (docs/decisions/0017).
struct Part {
  roster::SchoolId school;
  std::int64_t highestNumber; ///< of any student there, without its check digit
};

/// Makes parts, and says whether a logbook is one.
struct Parting {
  /// Takes the content of these children out of a copy of a whole logbook that no one has open:
  /// only the hashes that the digests need stay. The file is remade, so that no page keeps bytes
  /// of them, and looked over. Without any children it stays whole. On failure the copy is of no
  /// use, and its owner throws it away.
  static base::Result<base::Done> leaveOut(const base::Path& copy, const Part& part,
                                           const std::vector<roster::ChildId>& children);
  /// None of a whole logbook.
  static base::Result<std::optional<Part>> of(Book& book);
};

/// After students came back or were erased: without any that are left out the logbook is whole.
/// Runs in the transaction of whatever did that. Throws Trouble.
void sealPart(Connection& book);
/// Of what a part says of itself; nothing where the file has no such row, or two. Throws Trouble.
std::optional<crypto::Hash> partDigest(Connection& book, std::string_view database);

} // namespace gk::store
